// Legal engine files that nobody would write: dozens of cylinders, fired unevenly, each bank with valves of
// its own. The real program answers in time, and says where its answer is not proven.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <numeric>
#include <random>

#include "engines/catalog.hpp"
#include "sim/shut/windows.hpp"
#include "tests/terminal/program.hpp"

namespace shutlane::terminal {
namespace {

using Json = nlohmann::ordered_json;

/// Ends what takes longer than the seconds given, which a busy machine with sanitisers still keeps.
Ran in_time(std::vector<std::string> words, const std::string& seconds) {
  words.insert(words.begin(), {"timeout", seconds, SHUTLANE_PROGRAM});
  return run_command(words);
}

std::string listed(const std::vector<int>& numbers) {
  std::string text;
  for (const int n : numbers) text += (text.empty() ? "" : ", ") + std::to_string(n);
  return text;
}

/// Intake valves of a bank open at two places of the cycle where they are staggered far enough: two windows.
std::string valves_of(const std::string& bank, std::mt19937_64& random) {
  const auto whole = [&](int a, int b) { return std::to_string(a + int(random() % unsigned(b - a + 1))); };
  std::string text;
  for (int valve = 0; valve < 2; ++valve)
    text += "[[valves]]\nkind = \"intake\"\nper_cylinder = 1\nopens_btdc_deg = " +
            (valve ? whole(-130, -90) : whole(0, 60)) +
            ".0\ncloses_abdc_deg = " + (valve ? whole(60, 180) : whole(-90, 40)) +
            ".0\nat_lift_mm = 0.0\npeak_lift_mm = 9.7\nlift_law = \"polynomial-4567\"\nbanks = [\"" + bank +
            "\"]\n";
  return text;
}

std::string strange_file(const std::string& folder, int cylinders, unsigned long seed) {
  std::mt19937_64 random(seed);
  std::vector<int> order(static_cast<size_t>(cylinders));
  std::iota(order.begin(), order.end(), 1);
  std::vector<std::vector<int>> banks(static_cast<size_t>(std::min(cylinders, 8)));
  for (const int n : order) banks[static_cast<size_t>(n) % banks.size()].push_back(n);
  std::shuffle(order.begin(), order.end(), random);
  std::vector<int> intervals;  // in hundredths
  for (int i = 0; i < cylinders; ++i) intervals.push_back(random() % 6 == 0 ? 0 : 1 + int(random() % 100));
  const int sum = std::accumulate(intervals.begin(), intervals.end(), 0);
  int left = 72000;
  std::string apart;
  for (size_t i = 0; i < intervals.size(); ++i) {
    const int own = i + 1 == intervals.size() ? left : 72000 * intervals[i] / sum;
    left -= own;
    apart += (i ? ", " : "") + std::to_string(own / 100) + "." + (own % 100 < 10 ? "0" : "") +
             std::to_string(own % 100);
  }
  std::string text =
      "format = 1\nname = \"Strange\"\nsource = \"test\"\n[cylinder]\nbore_mm = 84.0\nstroke_mm = 89.6\n"
      "rod_mm = 141.0\ncompression_ratio = 10.2\n[layout]\nfiring_order = [" +
      listed(order) + "]\nfiring_intervals_deg = [" + apart + "]\n";
  const auto name_of = [](size_t bank) { return std::string("b").append(std::to_string(bank)); };
  for (size_t b = 0; b < banks.size(); ++b)
    text.append("[[layout.bank]]\nname = \"")
        .append(name_of(b))
        .append("\"\ntilt_deg = ")
        .append(std::to_string(10 * b))
        .append(".0\ncylinders = [")
        .append(listed(banks[b]))
        .append("]\n");
  for (size_t b = 0; b < banks.size(); ++b) text += valves_of(name_of(b), random);
  text +=
      "[[valves]]\nkind = \"exhaust\"\nper_cylinder = 2\nopens_bbdc_deg = 50.0\ncloses_atdc_deg = 10.0\n"
      "at_lift_mm = 0.0\npeak_lift_mm = 9.5\nlift_law = \"polynomial-4567\"\n[tolerance]\ntiming_deg = 1.0\n";
  const std::string path =
      folder + "/strange-" + std::to_string(cylinders) + "-" + std::to_string(seed) + ".toml";
  std::ofstream(path) << text;
  return path;
}

TEST(Strange, BumpsOfAnyNumberOfCylinders) {
  const std::string folder = scratch_folder("strange-bump");
  for (const int cylinders : {16, 21, 24, 60, 99})
    for (unsigned long seed = 1; seed <= 1; ++seed) {
      const std::string file = strange_file(folder, cylinders, seed);
      ASSERT_EQ(shutlane({"check", file}).status, 0) << shutlane({"check", file}).err;
      const Ran ran =
          in_time({"bump", file, "--from", "35", "--press", "0.3", "--trials", "300", "--json"}, "120");
      ASSERT_EQ(ran.status, 0) << cylinders << " cylinders: " << ran.err;
      const auto rests = Json::parse(ran.out)["rest_histogram"].get<std::vector<int>>();
      EXPECT_EQ(std::accumulate(rests.begin(), rests.end(), 0), 300);
    }
}

TEST(Strange, PressesOfSecondsEnd) {
  const std::string folder = scratch_folder("strange-press");
  // Among the ten thousand bumps of the V2 is one whose crank turned back and forth on the spot for ever.
  EXPECT_EQ(in_time({"bump", "v2-45", "--from", "0", "--press", "5"}, "60").status, 0);
  for (const char* engine : {"single", "v8-flat-plane"})
    EXPECT_EQ(in_time({"bump", engine, "--from", "0", "--press", "5", "--trials", "2000"}, "60").status, 0)
        << engine;
  EXPECT_EQ(
      in_time({"draw", "v2-45", "bump", "--from", "0", "--press", "5", "--out", folder + "/a.pdf"}, "60")
          .status,
      0);
  EXPECT_EQ(
      in_time({"draw", "v8-flat-plane", "lanes", "--from", "0", "--press", "5", "--out", folder + "/b.pdf"},
              "60")
          .status,
      0);
}

/// Every port that a plan blasts is surely shut at the position's angle, by the windows of this process.
void expect_right(const std::string& file, const Json& plan) {
  const auto found = find_engine(file);
  const Engine& engine = std::get<Engine>(found);
  const std::vector<Windows> windows = shut_windows(engine, 10);
  std::vector<int> done;
  for (const Json& position : plan["positions"])
    for (const int number : position["blast"]) {
      done.push_back(number);
      const auto own = std::find_if(windows.begin(), windows.end(),
                                    [&](const Windows& w) { return w.cylinder == number; });
      ASSERT_NE(own, windows.end());
      EXPECT_TRUE(own->sure.contains(position["at_deg"].get<double>())) << number;
    }
  std::sort(done.begin(), done.end());
  EXPECT_EQ(done.size(), engine.cylinders.size());
  EXPECT_EQ(std::adjacent_find(done.begin(), done.end()), done.end()) << "a port twice";
}

TEST(Strange, PlansOfDozensOfCylindersComeInTime) {
  const std::string folder = scratch_folder("strange-plan");
  int plans = 0;
  for (const int cylinders : {16, 49, 94, 99})
    for (unsigned long seed = 1; seed <= 2; ++seed) {
      const std::string file = strange_file(folder, cylinders, seed);
      for (const char* accuracy : {"3", "10"}) {
        const Ran ran = in_time({"plan", file, "--from", "35", "--accuracy", accuracy, "--json"}, "20");
        ASSERT_TRUE(ran.status == 0 || ran.status == 1) << file << ran.err;
        const Json plan = Json::parse(ran.out);
        if (ran.status == 1) continue;
        ++plans;
        expect_right(file, plan);
        const Ran text = in_time({"plan", file, "--from", "35", "--accuracy", accuracy}, "20");
        const bool unproven = text.out.find("Not proven shortest") != std::string::npos;
        EXPECT_EQ(unproven, plan.contains("proven") && plan["proven"] == false);
      }
    }
  EXPECT_GE(plans, 5);
}

TEST(Strange, PlansFromLooksOfDozensOfCylindersComeInTime) {
  const std::string folder = scratch_folder("strange-looks");
  for (const int cylinders : {16, 49, 99}) {
    const std::string file = strange_file(folder, cylinders, 1);
    for (const std::vector<std::string>& looks :
         {std::vector<std::string>{}, {"--shut", "1"}, {"--open", "2"}, {"--shut", "1,3", "--open", "2"}}) {
      std::vector<std::string> words{"plan", file, "--from", "looks"};
      words.insert(words.end(), looks.begin(), looks.end());
      const Ran text = in_time(words, "20");
      ASSERT_TRUE(text.status == 0 || text.status == 1) << file << text.err;
      words.push_back("--json");
      const Ran ran = in_time(words, "20");
      const Json plan = Json::parse(ran.out);
      EXPECT_EQ(text.out.find("Not proven shortest") != std::string::npos, plan.contains("proven"));
    }
  }
}

}  // namespace
}  // namespace shutlane::terminal
