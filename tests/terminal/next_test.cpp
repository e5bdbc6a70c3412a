// `next`: the words of events, what is refused and why, and whole jobs by a technician who knows nothing but
// the JSON: the engine's truth (valve events, a lift curve, an eye, a hand) is written here anew, from the
// numbers of the documented six alone.
#include <gtest/gtest.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <random>

#include "tests/terminal/program.hpp"
#include "ui/told/event_words.hpp"

namespace shutlane::terminal {
namespace {

using Document = nlohmann::json;

Document next(const std::string& engine, const std::string& by, const std::string& told) {
  const Ran ran = shutlane({"next", engine, "--by", by, "--told", told, "--json"});
  EXPECT_EQ(ran.status, 0) << told << "\n" << ran.err;
  return ran.status == 0 ? Document::parse(ran.out) : Document();
}

TEST(Next, EveryEventIsReadBackFromItsWord) {
  for (const char* word :
       {"shut:4",        "open:12",        "touching:1",       "hidden:99",       "mark:0:5",
        "mark:12.5:0.5", "no-mark",        "lobe:3:away",      "lobe:3:at",       "lobe:3:unclear",
        "lobe:3:hidden", "chalk:in-line",  "chalk:moved",      "no-chalk",        "start:4",
        "done:4",        "stop:4",         "again:4",          "skip:2",          "take-in:2",
        "bank:1",        "bank:all",       "sucked",           "emptied",         "counted",
        "missing",       "inside:2:clean", "inside:2:found",   "inside:2:parked", "turned:350:370",
        "bumped",        "bumped:0.3",     "bumped:0.3:about", "press:0.25",      "moved",
        "cause:look:4",  "cause:look",     "cause:port:4",     "cause:moved",     "cause:mark",
        "cause:lobe:1",  "cause:turn",     "cause:phaser:2",   "cause:chain:1",   "cause:crumb:3",
        "cause:data",    "look-again",     "abrasive-left:3"}) {
    const auto event = event_of_word(word);
    ASSERT_TRUE(std::holds_alternative<JobEvent>(event)) << word << ": " << std::get<std::string>(event);
    EXPECT_EQ(event_word(std::get<JobEvent>(event)), word);
  }
  EXPECT_EQ(event_word(std::get<JobEvent>(event_of_word("mark:35"))), "mark:35:5");
}

TEST(Next, WordsThatAreNoneAreRefused) {
  for (const char* word :
       {"",       "shut",         "shut:",    "shut:0",     "shut:100",     "shut:1.5", "shut:1:2",
        "shot:1", "mark",         "mark:x",   "mark:nan",   "mark:1:2:3",   "lobe:1",   "lobe:1:up",
        "chalk",  "chalk:yes",    "sucked:1", "turned:1",   "turned:1:2:3", "bumped:x", "bumped:0.3:x",
        "cause",  "cause:nobody", "inside:1", "inside:1:x", "bank:0",       "SHUT:1"})
    EXPECT_TRUE(std::holds_alternative<std::string>(event_of_word(word))) << word;
  const Ran ran = shutlane({"next", "inline-six", "--told", "shut:1 shot:2"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("'shot:2'"), std::string::npos) << ran.err;
}

TEST(Next, WhatIsNotAllowedIsRefusedWithItsReason) {
  const std::pair<const char*, const char*> kCases[] = {
      {"start:1", "it was not seen shut at this position"},
      {"shut:1 start:1", "nothing but its own look says that it is shut"},
      {"mark:0:5 open:3 shut:2 start:2", "it waits for chalk"},
      {"done:1", "it is not being blasted"},
      {"shut:7", "the engine has no cylinder 7"},
      {"mark:0:5 open:3 chalk:in-line shut:2 start:2 sucked", "port 2 is being blasted"},
      {"turned:5:1", "its numbers are out of range"}};
  for (const auto& [told, why] : kCases) {
    const Ran ran = shutlane({"next", "inline-six", "--told", told});
    EXPECT_EQ(ran.status, 2) << told;
    EXPECT_EQ(ran.out, "") << told;
    EXPECT_NE(ran.err.find(why), std::string::npos) << told << ": " << ran.err;
    EXPECT_EQ(ran.err_lines(), 1u);
  }
  EXPECT_EQ(shutlane({"next", "inline-six", "--by", "hand"}).status, 2);
}

TEST(Next, APressIsCountedOnceHoweverMuchItTells) {
  const Document j =
      next("inline-six", "wrench", "mark:0:5 open:3 chalk:in-line shut:4 start:4 done:4 chalk:in-line");
  EXPECT_EQ(j["counted"]["presses"], 6);
  EXPECT_EQ(j["counted"]["looks"], 2);
  EXPECT_EQ(j["counted"]["moves"], 0);
  EXPECT_EQ(j["done"], Document({4}));
  EXPECT_EQ(j["left"], Document({1, 2, 3, 5, 6}));
  EXPECT_EQ(j["step"], "look");
  EXPECT_EQ(j["finished"], false);
}

/// The documented six: intake from 12 before gas-exchange TDC to 48 after BDC, 9.7 mm, 4-5-6-7; the same
/// curve by its closed form (Norton, Design of Machinery, ch. 8).
class OutsideTechnician {
 public:
  OutsideTechnician(unsigned seed, bool marked) : random_(seed), marked_(marked) {
    angle_deg_ = uniform(0, 720);
  }

  /// Answers what is asked until the job is finished. False: it came to no end.
  bool work() {
    for (int step = 0; step < 90; ++step) {
      const Document j = next("inline-six", "wrench", told_);
      if (j["finished"].get<bool>()) return done(j);
      const std::string answer = answer_to(j);
      if (answer.empty()) {
        ADD_FAILURE() << "no answer fits " << j.dump();
        return false;
      }
      told_ += (told_.empty() ? "" : " ") + answer;
      if (::testing::Test::HasFailure()) return false;
    }
    return false;
  }
  int looks = 0, presses = 0;
  const std::string& told() const { return told_; }

 private:
  double uniform(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random_);
  }
  double lift_mm(int cylinder) const {
    static constexpr double kFiringTdc_deg[] = {0, 0, 480, 240, 600, 120, 360};  // 1-5-3-6-2-4, by number
    const double local = std::fmod(angle_deg_ - kFiringTdc_deg[cylinder] + 1440, 720);
    if (local <= 348 || local >= 588) return 0;
    const double u = local < 468 ? (local - 348) / 120 : (588 - local) / 120;
    return 9.7 * u * u * u * u * (35 - u * (84 - u * (70 - 20 * u)));
  }
  bool done(const Document& j) {
    looks = j["counted"]["looks"];
    presses = j["counted"]["presses"];
    EXPECT_EQ(j["counted"]["looks_into_open_ports_after_blasting"], 0) << told_;
    EXPECT_EQ(j["left"].size(), 0u);
    return j["done"].size() == 6;
  }
  static std::string words(const Document& answer) {
    std::string all;
    for (const std::string word : answer["tell"]) all += (all.empty() ? "" : " ") + word;
    return all;
  }
  /// The answer whose first word begins so; empty: there is none.
  static std::string telling(const Document& j, const std::string& first) {
    for (const Document& answer : j["answers"])
      if (words(answer).starts_with(first)) return words(answer);
    return "";
  }
  std::string answer_to(const Document& j) {
    const std::string step = j["step"];
    if (step == "mark") {
      if (!marked_) return telling(j, "no-mark");
      angle_deg_ =
          360 * std::floor(angle_deg_ / 360 + (j["turn"]["aim_deg"].is_null() ? 1 : 1.5)) + uniform(-4, 4);
      return words(j["answers"][0]);
    }
    if (step == "look" || step == "unseen") {
      const int port = j["port"];
      const double mm = lift_mm(port);
      const std::string saw = mm > 0.5 ? "open" : mm > 0.25 ? "touching" : "shut";
      const std::string answer = telling(j, saw + ":" + std::to_string(port));
      if (answer.find("start:") != std::string::npos) {
        EXPECT_EQ(mm, 0) << "port " << port << " would be blasted at " << angle_deg_;
      }
      return answer;
    }
    if (step == "blast") {
      EXPECT_EQ(lift_mm(j["port"]), 0) << "port " << j["port"] << " at " << angle_deg_;
      return telling(j, "start:");
    }
    if (step == "blasting") return telling(j, "done:");
    if (step == "chalk") return telling(j, "chalk:in-line");
    if (step == "clear") return words(j["answers"][0]);
    if (step == "turn") {
      angle_deg_ += j["turn"]["aim_deg"].get<double>() + uniform(-10, 10);
      return words(j["answers"][0]);
    }
    if (step == "lobe") return telling(j, "lobe:" + std::to_string(j["port"].get<int>()) + ":hidden");
    return "";
  }

  std::mt19937_64 random_;
  bool marked_ = false;
  double angle_deg_ = 0;
  std::string told_;
};

/// Jobs by the JSON alone; SHUTLANE_TRIALS makes it a soak.
void many_jobs(bool marked, double most_looks) {
  const char* trials = std::getenv("SHUTLANE_TRIALS");
  const unsigned count = trials ? static_cast<unsigned>(std::strtoul(trials, nullptr, 10)) : 3;
  double looks = 0, presses = 0;
  for (unsigned seed = 1; seed <= count; ++seed) {
    OutsideTechnician technician(seed, marked);
    ASSERT_TRUE(technician.work()) << "seed " << seed << ": " << technician.told();
    looks += technician.looks;
    presses += technician.presses;
  }
  std::printf("%s: %.2f looks, %.1f presses a job of %u\n", marked ? "mark" : "no mark", looks / count,
              presses / count, count);
  EXPECT_LE(looks, most_looks * count);
  EXPECT_LE(presses, 45.0 * count);
}

TEST(Next, AnOutsideTechnicianDoesASixByTheMark) { many_jobs(true, 9); }
TEST(Next, AnOutsideTechnicianDoesASixWithoutOne) { many_jobs(false, 17); }

}  // namespace
}  // namespace shutlane::terminal
