// The wrench plan: the contract's own example, then thousands of seeded questions with every clause checked
// and both objectives proved by integer programmes (GLPK 5.0).
#include "sim/plan/wrench.hpp"

#include <algorithm>
#include <cmath>

#include "tests/sim/dice.hpp"
#include "tests/sim/plan_checker.hpp"
#include "tests/sim/some_engines.hpp"
#include "tests/sim/some_windows.hpp"

namespace shutlane::test {
namespace {

WrenchQuestion from(double at_deg, std::vector<int> left, double plus_minus_deg = 0,
                    double accuracy_deg = 10) {
  return {.from_deg = at_deg,
          .plus_minus_deg = plus_minus_deg,
          .accuracy_deg = accuracy_deg,
          .left = std::move(left),
          .done = {}};
}

TEST(Plan, TheContractsExample) {
  const auto windows = shut_windows(built(inline_six()), 10);
  const WrenchPlan plan = plan_wrench(windows, from(35, {1, 2, 3, 4, 5, 6}));
  ASSERT_TRUE(plan.possible());
  ASSERT_EQ(plan.positions.size(), 2U);
  EXPECT_EQ(plan.total_turn_deg, 360);
  const Position &start = plan.positions[0], &next = plan.positions[1];
  EXPECT_EQ(start.at_deg, 35);
  EXPECT_EQ(start.turn_max_deg, 0);
  EXPECT_EQ(start.blast, (std::vector{1, 2, 4, 5}));
  EXPECT_EQ(start.not_shut, (std::vector{3, 6}));
  EXPECT_EQ(start.suck_out_before, std::vector<int>{});
  EXPECT_EQ(next.at_deg, 395);
  EXPECT_EQ(next.turn_deg, 360);
  EXPECT_NEAR(next.turn_min_deg, 206, 1e-9);
  EXPECT_NEAR(next.turn_max_deg, 540, 1e-9);
  EXPECT_EQ(next.blast, (std::vector{3, 6}));
  EXPECT_EQ(next.not_shut, (std::vector{1, 4}));
  EXPECT_EQ(next.suck_out_before, (std::vector{1, 2, 4, 5}));
}

TEST(Plan, NothingLeft) {
  const auto windows = shut_windows(built(inline_six()), 10);
  WrenchQuestion q = from(35, {});
  q.done = {1, 2, 3, 4, 5, 6};
  const WrenchPlan plan = plan_wrench(windows, q);
  EXPECT_TRUE(plan.possible());
  EXPECT_EQ(plan.turns(), 0U);
  ASSERT_EQ(plan.positions.size(), 1U);
  EXPECT_TRUE(plan.positions[0].blast.empty());
  EXPECT_EQ(plan.positions[0].not_shut, (std::vector{3, 6}));
  check_clauses(windows, q, plan);
}

TEST(Plan, TheStartComesFirstEvenWithNothingToBlast) {
  const auto windows = shut_windows(built(inline_six()), 10);
  const WrenchPlan plan = plan_wrench(windows, from(35, {3}));
  ASSERT_EQ(plan.positions.size(), 2U);
  EXPECT_TRUE(plan.positions[0].blast.empty());
  EXPECT_EQ(plan.positions[1].blast, std::vector{3});
}

TEST(Plan, WindowsTooShortAreNamed) {
  const auto windows = shut_windows(built(inline_six()), 10);  // sure for 454 degrees each
  const WrenchPlan plan = plan_wrench(windows, from(35, {1, 2, 3, 4, 5, 6}, 0, 228));
  EXPECT_FALSE(plan.possible());
  EXPECT_EQ(plan.no_plan, (std::vector{3, 6}));  // the others are done at the start
  EXPECT_TRUE(plan.positions.empty());
  EXPECT_TRUE(plan_wrench(windows, from(35, {1, 2, 3, 4, 5, 6}, 0, 110)).possible());
  // Exactly as long as the accuracy needs: the closed ends belong to the window.
  EXPECT_TRUE(plan_wrench(windows, from(35, {3}, 0, 227)).possible());
  EXPECT_FALSE(plan_wrench(windows, from(35, {3}, 0, 227.001)).possible());
}

TEST(Plan, OfEquallyWideRunsTheOneAFullTurnAway) {
  // The contract leaves the choice open; the issue of the plan is that full turns are preferred.
  const std::vector<Windows> windows = {window(1, ArcSet({{100, 60}, {330, 60}, {500, 60}}))};
  const WrenchPlan plan = plan_wrench(windows, from(0, {1}));
  ASSERT_EQ(plan.turns(), 1U);
  EXPECT_EQ(plan.total_turn_deg, 360);
  const std::vector<Windows> half = {window(1, ArcSet({{60, 60}, {150, 60}, {510, 60}}))};
  EXPECT_EQ(plan_wrench(half, from(0, {1})).total_turn_deg, 180);
}

/// A question about any of the cylinders, any of them left, any of the others done.
WrenchQuestion random_question(Dice& dice, const std::vector<Windows>& windows) {
  WrenchQuestion q;
  q.from_deg = dice.chance(0.3) ? dice.whole(0, 719) : dice.between(0, 720);
  q.plus_minus_deg = dice.chance(0.5) ? 0 : dice.chance(0.9) ? dice.between(0, 60) : dice.between(0, 360);
  q.accuracy_deg = dice.pick<double>({10, 10, 0, 30, dice.between(0, 90)});
  const double keep = dice.pick<double>({1, 1, 0.7, 0.3});
  for (const Windows& w : windows) {
    if (dice.chance(keep))
      q.left.push_back(w.cylinder);
    else if (dice.chance(0.6))
      q.done.push_back(w.cylinder);
  }
  return q;
}

TEST(Plan, EveryClauseOverRandomEngines) {
  for_trials(400, [](Dice& dice) {
    const Engine engine = built(random_engine(dice));
    const auto windows = shut_windows(engine, dice.pick<double>({10, 10, 0, 25, 40}));
    for (int i = 0; i < 10; ++i) {
      const WrenchQuestion q = random_question(dice, windows);
      const WrenchPlan plan = plan_wrench(windows, q);
      check_clauses(windows, q, plan);
      if (i < 3) check_objectives(windows, q, plan);
      if (::testing::Test::HasFailure()) return;
    }
  });
}

TEST(Plan, EveryClauseOverRandomWindows) {
  // One or two arcs a cylinder, short ones too: plans of three and more positions.
  for_trials(1500, [](Dice& dice) {
    const auto windows = random_windows(dice, {.cylinders = dice.whole(1, 16)});
    for (int i = 0; i < 3; ++i) {
      WrenchQuestion q = random_question(dice, windows);
      if (dice.chance(0.5)) q.accuracy_deg = dice.whole(0, 10);
      if (dice.chance(0.7)) q.plus_minus_deg = 0;
      const WrenchPlan plan = plan_wrench(windows, q);
      check_clauses(windows, q, plan);
      if (i == 0) check_objectives(windows, q, plan);
      if (::testing::Test::HasFailure()) return;
    }
  });
}

TEST(Plan, TheSameQuestionTwiceIsTheSamePlan) {
  for_trials(50, [](Dice& dice) {
    const auto windows = random_windows(dice, {.cylinders = 12});
    WrenchQuestion q = random_question(dice, windows);
    const WrenchPlan once = plan_wrench(windows, q);
    std::reverse(q.left.begin(), q.left.end());  // nor does the order of the list matter
    const WrenchPlan twice = plan_wrench(windows, q);
    ASSERT_EQ(once.positions.size(), twice.positions.size());
    for (size_t i = 0; i < once.positions.size(); ++i) {
      EXPECT_EQ(once.positions[i].at_deg, twice.positions[i].at_deg);
      EXPECT_EQ(once.positions[i].blast, twice.positions[i].blast);
    }
  });
}

}  // namespace
}  // namespace shutlane::test
