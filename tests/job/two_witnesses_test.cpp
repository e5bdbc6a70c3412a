// The job's one promise: no port is offered for blasting while a valve of it is really open. Jobs are played
// against a hidden crank whose angle the job never sees, with random events among the advised ones.
#include <gtest/gtest.h>

#include <cstdlib>

#include "sim/job/advice.hpp"
#include "tests/job/engines_for_jobs.hpp"
#include "tests/job/hidden_crank.hpp"

namespace shutlane {
namespace {

unsigned long from_environment(const char* name, unsigned long otherwise) {
  const char* text = std::getenv(name);
  return text ? std::strtoul(text, nullptr, 10) : otherwise;
}

/// What really happens to the crank when this is reported; returns the event as an honest technician reports
/// it.
JobEvent happen(HiddenCrank& crank, JobEvent event) {
  if (auto* look = std::get_if<LookedInto>(&event)) look->saw = crank.look(look->cylinder);
  if (auto* turn = std::get_if<Turned>(&event)) crank.turn(turn->min_deg, turn->max_deg);
  if (std::holds_alternative<CrankMoved>(event) || std::holds_alternative<Bumped>(event))
    crank.move_anywhere();
  if (auto* mark = std::get_if<MarkRead>(&event))
    mark->at_deg =
        std::fmod(crank.at_deg() + crank.uniform(-mark->plus_minus_deg, mark->plus_minus_deg), 360.0);
  return event;
}

JobEvent anything(HiddenCrank& crank, const Engine& engine) {
  const int cylinder =
      engine.cylinders[static_cast<size_t>(crank.pick(static_cast<int>(engine.cylinders.size())))].number;
  const double turn_deg = crank.uniform(0, 900);
  switch (crank.pick(19)) {
    case 0:
      return Turned{turn_deg, turn_deg + crank.uniform(0, 60)};
    case 1:
      return CrankMoved{};
    case 2:
      return ChalkSeen{true};  // every move is told here, and wipes the line away
    case 3:
      return PortAgain{cylinder};
    case 4:
      return Reachable{cylinder, crank.pick(2) == 0};
    case 5:
      return MarkRead{0, crank.uniform(0.5, 20)};
    case 6:
      return LooksForgotten{};
    case 7:
      return BlastStarted{cylinder};
    case 8:
      return BlastStopped{cylinder};
    case 9:
      return Bumped{};
    case 10:
      return PortDone{cylinder};
    case 11:
      return CauseChosen{static_cast<Suspicion>(crank.pick(10)), crank.pick(2) == 0 ? 0 : cylinder, 0};
    case 12:
      return NoChalk{};
    case 13:
      return NoMark{};
    case 14:
      return InsideLooked{cylinder, Inside::sucked_out};
    default:
      return LookedInto{cylinder, Saw::hidden};
  }
}

/// What an honest technician presses: what is seen at a look, at no lobe anything, at half of the engines no
/// mark, and otherwise what is advised.
std::vector<JobEvent> pressed(HiddenCrank& crank, const Advice& advice, bool has_mark) {
  const std::vector<Press> presses = advice.told();
  const auto first_that = [&](auto which) {
    for (const Press& press : presses)
      if (which(press.tells)) return press.tells;
    return std::vector<JobEvent>{};
  };
  using Events = std::vector<JobEvent>;
  switch (advice.stage) {
    case Stage::look:
    case Stage::look_again:
    case Stage::unseen: {
      const JobEvent seen = LookedInto{advice.port, crank.look(advice.port)};
      const Events told = first_that([&](const Events& events) { return events.front() == seen; });
      return told.empty() ? Events{Reachable{advice.port, false}} : told;
    }
    case Stage::lobe:
      return {LobeSeen{advice.port, Lobe::hidden}};
    case Stage::chalk:
      return {ChalkSeen{true}};
    case Stage::mark: {
      if (!has_mark)
        return first_that([](const Events& events) { return std::holds_alternative<NoMark>(events.back()); });
      // Wherever the turn ends the mark stands in line: a wrench turns on to it.
      const bool a_full_turn = advice.move && !advice.move->anywhere;
      crank.set(std::fmod(360 * std::floor(crank.at_deg() / 360 + (a_full_turn ? 1.5 : 1)) +
                              crank.uniform(-kMarkReads_deg, kMarkReads_deg),
                          720.0));
      return advice.wide.tells;
    }
    case Stage::turn: {
      const Turned turn = std::get<Turned>(advice.wide.tells.front());
      crank.turn(turn.min_deg, turn.max_deg);
      return advice.wide.tells;
    }
    case Stage::bump:
      crank.move_anywhere();
      return advice.wide.tells;
    default:
      return presses.empty() ? Events{} : presses.front().tells;
  }
}

struct Played {
  int blasts = 0, steps = 0;
  bool finished = false;
};

Played play(const Engine& engine, const JobRules& rules, std::mt19937_64& random, double disorder) {
  const JobModel model = make_job_model(engine, rules);
  HiddenCrank crank(engine, rules.eye_mm, random);
  const bool has_mark = crank.pick(2) == 0;
  JobState state = start_job(model);
  Played played;
  const auto tell = [&](const JobEvent& event) {
    if (!may(model, state, event)) return false;
    state = after(model, state, event);
    for (const JobPort& port : state.ports) {
      const bool offered = may_blast(model, state, port.cylinder) || state.blasting == port.cylinder;
      if (!offered) continue;
      EXPECT_EQ(crank.lift_mm(port.cylinder), 0) << "port " << port.cylinder << " at " << crank.at_deg();
    }
    played.blasts += std::holds_alternative<BlastStarted>(event) ? 1 : 0;
    return true;
  };
  for (; played.steps < 400 && !played.finished; ++played.steps) {
    const Advice advice = advise(model, state);
    if (advice.stage != Stage::disagreement) {
      EXPECT_TRUE(advice.where.contains(crank.at_deg()))
          << "the crank stands outside where it is reckoned to";
    }
    played.finished = advice.stage == Stage::finished;
    if (crank.uniform(0, 1) < disorder) {
      const JobEvent event = anything(crank, engine);
      if (may(model, state, event)) tell(happen(crank, event));
    } else {
      for (const JobEvent& event : pressed(crank, advice, has_mark))
        EXPECT_TRUE(tell(event)) << "refused, at: " << advice.sentence << " " << event.index();
    }
    if (::testing::Test::HasFailure()) break;
  }
  return played;
}

void many_jobs(const Engine& engine, const JobRules& rules, double disorder) {
  const unsigned long seed = from_environment("SHUTLANE_SEED", 20240607);
  const unsigned long trials = from_environment("SHUTLANE_TRIALS", 25);
  int blasts = 0, finished = 0;
  for (unsigned long i = 0; i < trials; ++i) {
    SCOPED_TRACE("SHUTLANE_SEED=" + std::to_string(seed + i));
    std::mt19937_64 random(seed + i);
    const Played played = play(engine, rules, random, disorder);
    blasts += played.blasts;
    finished += played.finished ? 1 : 0;
    if (::testing::Test::HasFailure()) return;
  }
  // A job that never blasts would be safe and useless.
  EXPECT_GT(blasts, static_cast<int>(trials)) << "too few blasts to prove anything";
  if (disorder == 0) {
    EXPECT_GE(finished, static_cast<int>(trials * 9 / 10));
  }
}

TEST(TwoWitnesses, SixByAdviceAlone) { many_jobs(inline_six(), {}, 0); }
TEST(TwoWitnesses, SixInDisorder) { many_jobs(inline_six(), {}, 0.3); }
/// The sets alone: without a margin the chance of an open valve is hardly ever below the limit.
TEST(TwoWitnesses, SixWithoutMargin) { many_jobs(inline_six(), {0, 0, 1.5, TurnBy::wrench, 1}, 0.2); }
TEST(TwoWitnesses, EightByAdviceAlone) { many_jobs(cross_plane_v8(), {10, 45, 0.5, TurnBy::wrench}, 0); }
TEST(TwoWitnesses, EightInDisorder) { many_jobs(cross_plane_v8(), {}, 0.3); }
TEST(TwoWitnesses, FourWithAPhaser) { many_jobs(inline_four(), {}, 0.2); }
TEST(TwoWitnesses, SixByStarter) { many_jobs(inline_six(), {10, 360, 0.5, TurnBy::starter}, 0); }

}  // namespace
}  // namespace shutlane
