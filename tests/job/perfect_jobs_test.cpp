// Jobs in which nobody errs: they must come to an end, leave no port behind, and never ask for what cannot
// lead on.
#include <algorithm>

#include "tests/job/perfect_hand.hpp"
#include "tests/witness/bundled.hpp"
#include "tests/witness/trials.hpp"

namespace shutlane::test {
namespace {

std::string told_of(const Advice& advice) {
  return advice.rule + ": " + advice.sentence + " " + advice.second;
}

/// A port that is seen shut and reckoned shut, and may not be blasted, says what it waits for. Where the
/// crank moves on all the same it is not for want of a question: of all looks that may be asked for here
/// none, its own look after it, frees the port.
void expect_nobody_is_left_for_want_of_a_question(const PerfectHand& hand, const Advice& advice) {
  const bool moves = advice.stage == Stage::turn || advice.stage == Stage::bump ||
                     advice.stage == Stage::mark || advice.stage == Stage::clear;
  if (!moves) return;
  const JobModel& model = hand.model;
  for (const PortView& port : advice.ports) {
    if (!witnesses_agree(model, hand.state, port.cylinder)) continue;
    EXPECT_FALSE(may_blast(model, hand.state, port.cylinder)) << port.cylinder;
    if (port.waits_for) continue;
    for (const PortView& asked : advice.ports) {
      if (hand.state.here.looked_since_pause(asked.cylinder)) continue;  // proves nothing
      if (hand.state.worked_here && !asked.reckoned_shut) continue;      // grit gets in
      JobState then = hand.state;
      for (const JobEvent& event :
           std::vector<JobEvent>{LookedInto{asked.cylinder, hand.eye(asked.cylinder)},
                                 LookedInto{port.cylinder, Saw::shut}, ChalkSeen{true}})
        then = after(model, std::move(then), event);
      EXPECT_FALSE(may_blast(model, then, port.cylinder))
          << "port " << port.cylinder << " is left, a look into " << asked.cylinder
          << " would have freed it, at: " << told_of(advice);
    }
  }
}

struct Played {
  bool finished = false;
  int presses = 0;
};

Played play_to_the_end(PerfectHand& hand, bool one_position = false) {
  Played played;
  std::string story;
  int last_look = 0;
  for (; played.presses < 600; ++played.presses) {
    const Advice advice = advise(hand.model, hand.state);
    played.finished = advice.stage == Stage::finished;
    if (played.finished) break;
    EXPECT_NE(advice.stage, Stage::disagreement) << told_of(advice);
    EXPECT_NE(advice.stage, Stage::look_again) << told_of(advice);
    EXPECT_NE(advice.stage, Stage::inside) << told_of(advice);
    EXPECT_TRUE(advice.stage == Stage::disagreement || advice.where.contains(hand.crank.at_deg()));
    story += std::to_string(std::lround(hand.crank.at_deg())) + " " + told_of(advice) + "\n";
    expect_nobody_is_left_for_want_of_a_question(hand, advice);
    const bool moves = advice.stage == Stage::turn || advice.stage == Stage::mark;
    if (one_position && moves) break;
    if (advice.stage == Stage::look) {
      EXPECT_NE(advice.port, last_look) << "asked twice in a row: " << told_of(advice);
      last_look = advice.port;
    } else if (advice.stage != Stage::chalk) {
      last_look = 0;
    }
    const auto press = hand.press(advice);
    EXPECT_TRUE(press) << "nothing true is offered: " << told_of(advice);
    if (!press) break;
    EXPECT_TRUE(hand.tell(*press)) << "refused: " << press->label << ", at: " << told_of(advice);
    if (hand.state.blasting) {
      EXPECT_EQ(hand.crank.lift_mm(*hand.state.blasting), 0) << *hand.state.blasting;
    }
    if (testing::Test::HasFailure()) break;
  }
  if (testing::Test::HasFailure() || played.presses == 600)
    std::printf("What happened:\n%s", story.substr(0, 6000).c_str());
  return played;
}

class PerfectJobsOn : public testing::TestWithParam<std::string> {};

void whole_jobs(const Engine& engine, bool by_mark, uint64_t jobs) {
  const JobModel model = make_job_model(engine, {});
  for (uint64_t job = 0; job < jobs; ++job) {
    SCOPED_TRACE("SHUTLANE_SEED=" + std::to_string(seed() + job) + (by_mark ? ", by the mark" : ", no mark"));
    std::mt19937_64 random(seed() + job);
    PerfectHand hand(model, random, by_mark);
    const Played played = play_to_the_end(hand);
    EXPECT_TRUE(played.finished) << played.presses << " presses";
    for (const JobPort& port : hand.state.ports) EXPECT_TRUE(port.done) << port.cylinder;
    EXPECT_EQ(hand.state.cost.looks_into_open_ports_after_blasting, 0);
    if (testing::Test::HasFailure()) return;
  }
}

TEST_P(PerfectJobsOn, ByTheMark) { whole_jobs(bundled(GetParam()), true, trials(3)); }
TEST_P(PerfectJobsOn, WithoutAMark) { whole_jobs(bundled(GetParam()), false, trials(3)); }

std::string plain_name(const testing::TestParamInfo<std::string>& of) {
  std::string name = of.param;
  std::erase_if(name, [](char c) { return c == '-'; });
  return name;
}
INSTANTIATE_TEST_SUITE_P(Engines, PerfectJobsOn, testing::ValuesIn(bundled_names()), plain_name);

/// Once known to end with ports seen and reckoned shut that nobody asked for any more.
struct DeadEnd {
  const char* engine;
  std::vector<JobEvent> events;
  std::vector<int> left;  ///< that were
  double at_deg;          ///< where every one of its looks is true
};

std::vector<DeadEnd> dead_ends() {
  const auto shut = [](int port) { return JobEvent(LookedInto{port, Saw::shut}); };
  const auto open = [](int port) { return JobEvent(LookedInto{port, Saw::open}); };
  return {
      {"inline-six",
       {MarkRead{0, 5}, shut(3), shut(5), shut(6), open(4), shut(5), BlastStarted{5}, PortDone{5}, open(4),
        shut(3)},
       {3, 6},
       360},
      {"inline-four", {MarkRead{0, 5}, open(2), shut(3), BlastStarted{3}, PortDone{3}, shut(4)}, {4}, 360}};
}

TEST(PerfectJobs, KnownDeadEndsLeadOn) {
  for (const DeadEnd& end : dead_ends())
    for (uint64_t job = 0; job < 5; ++job) {
      SCOPED_TRACE(std::string(end.engine) + ", seed " + std::to_string(seed() + job));
      const JobModel model = make_job_model(bundled(end.engine), {});
      std::mt19937_64 random(seed() + job);
      PerfectHand hand(model, random, true);
      hand.crank.set(end.at_deg + hand.crank.uniform(-2, 2));
      hand.begin(end.events);
      for (const JobEvent& event : end.events)
        if (const auto* look = std::get_if<LookedInto>(&event)) {
          ASSERT_EQ(hand.eye(look->cylinder), look->saw) << look->cylinder;
        }
      play_to_the_end(hand, true);
      for (const int port : end.left) EXPECT_TRUE(hand.state.find(port)->done) << port << " is left behind";
      EXPECT_TRUE(play_to_the_end(hand).finished);
      EXPECT_TRUE(std::all_of(hand.state.ports.begin(), hand.state.ports.end(),
                              [](const JobPort& port) { return port.done; }));
    }
}

}  // namespace
}  // namespace shutlane::test
