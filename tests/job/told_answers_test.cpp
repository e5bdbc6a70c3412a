// Whatever is offered may be pressed: no button tells an event that is then refused. Random jobs, wrong
// answers among the right ones.
#include <random>

#include "sim/job/advice.hpp"
#include "tests/job/engines_for_jobs.hpp"
#include "tests/witness/trials.hpp"

namespace shutlane::test {
namespace {

/// Tells every press of the advice to a copy of the state; counts them.
size_t expect_all_told(const JobModel& model, const JobState& state, const Advice& advice) {
  size_t presses = 0;
  for (const Press& press : advice.told()) {
    ++presses;
    JobState then = state;
    for (const JobEvent& event : press.tells) {
      EXPECT_TRUE(may(model, then, event)) << press.label << ", event " << event.index() << ", by the rule \""
                                           << advice.rule << "\": " << advice.sentence;
      then = after(model, std::move(then), event);
    }
  }
  return presses;
}

void tell_at_random(const Engine& engine, const JobRules& rules, uint64_t jobs, int steps) {
  const JobModel model = make_job_model(engine, rules);
  size_t presses = 0, stages = 0;
  for (uint64_t job = 0; job < jobs; ++job) {
    SCOPED_TRACE("SHUTLANE_SEED=" + std::to_string(seed() + job));
    std::mt19937_64 random(seed() + job);
    JobState state = start_job(model);
    std::vector<bool> met(static_cast<size_t>(Stage::picked) + 1, false);
    for (int step = 0; step < steps; ++step) {
      std::optional<int> picked;
      if (random() % 8 == 0) picked = engine.cylinders[random() % engine.cylinders.size()].number;
      const Advice advice = advise(model, state, picked);
      met[static_cast<size_t>(advice.stage)] = true;
      presses += expect_all_told(model, state, advice);
      if (testing::Test::HasFailure()) return;
      const std::vector<Press> offered = advice.told();
      if (advice.stage == Stage::finished && random() % 4 == 0) {
        state = start_job(model);
        continue;
      }
      if (offered.empty()) {
        EXPECT_TRUE(picked || advice.stage == Stage::finished) << advice.sentence;
        continue;
      }
      // Mostly the first, so that the job gets on.
      const Press& press = random() % 3 ? offered.front() : offered[random() % offered.size()];
      for (const JobEvent& event : press.tells) state = after(model, std::move(state), event);
    }
    stages += static_cast<size_t>(std::count(met.begin(), met.end(), true));
  }
  EXPECT_GT(presses, 2 * jobs * static_cast<uint64_t>(steps));
  EXPECT_GT(stages, 6 * jobs) << "the jobs went nowhere";
}

TEST(ToldAnswers, OfASixAreAlwaysAllowed) { tell_at_random(inline_six(), {}, trials(3), 400); }
TEST(ToldAnswers, OfAnEightAreAlwaysAllowed) { tell_at_random(cross_plane_v8(), {}, trials(2), 400); }
TEST(ToldAnswers, OfAFourAreAlwaysAllowed) { tell_at_random(inline_four(), {}, trials(3), 400); }
TEST(ToldAnswers, OfASingleAreAlwaysAllowed) { tell_at_random(single(), {}, trials(3), 300); }
TEST(ToldAnswers, ByStarterAreAlwaysAllowed) {
  tell_at_random(inline_six(), {10, 360, 0.5, TurnBy::starter}, trials(3), 400);
}
TEST(ToldAnswers, OfTheSetsAloneAreAlwaysAllowed) {
  tell_at_random(inline_six(), {0, 0, 0.5, TurnBy::wrench, 1}, trials(3), 400);
}

}  // namespace
}  // namespace shutlane::test
