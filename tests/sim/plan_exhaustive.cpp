// Both objectives of the wrench plan by trying every way to share the cylinders among positions, on
// whole-degree windows held as bits: no integer programme, no thresholds. Up to seven cylinders; larger cases
// are plan.cpp's.
#include <algorithm>
#include <bitset>

#include "sim/plan/wrench.hpp"
#include "tests/sim/dice.hpp"
#include "tests/sim/plan_checker.hpp"
#include "tests/sim/some_windows.hpp"

namespace shutlane::test {
namespace {

using Circle = std::bitset<1440>;  // even: whole degrees, odd: the open stretches between

Circle circle_of(const ArcSet& set) {
  Circle bits;
  for (const Arc& arc : set.arcs())
    for (int i = 0; i <= 2 * static_cast<int>(arc.length_deg); ++i)
      bits.set(static_cast<size_t>((2 * static_cast<int>(arc.from_deg) + i) % 1440));
  return bits;
}

/// Length of the longest stretch of set bits in degrees; a lone point is 0, nothing at all -1.
int longest(const Circle& bits) {
  if (bits.all()) return 720;
  int best = -1, here = 0;
  for (int i = 0; i < 2 * 1440; ++i) {
    here = bits[static_cast<size_t>(i % 1440)] ? here + 1 : 0;
    if (here > 0) best = std::max(best, (here - 1) / 2);
  }
  return best;
}

struct Best {
  int positions = 99, narrowest = -1;
};

/// Every partition of the cylinders from `next` on into the groups begun so far or new ones.
void share(const std::vector<Circle>& cylinders, size_t next, std::vector<Circle>& groups, int need,
           Best& best) {
  if (static_cast<int>(groups.size()) > best.positions) return;
  if (next == cylinders.size()) {
    int narrowest = 720;
    for (const Circle& g : groups) narrowest = std::min(narrowest, longest(g));
    const int positions = static_cast<int>(groups.size());
    if (positions < best.positions || narrowest > best.narrowest) best = {positions, narrowest};
    return;
  }
  for (size_t g = 0; g < groups.size(); ++g) {
    const Circle before = groups[g];
    groups[g] &= cylinders[next];
    if (longest(groups[g]) >= need) share(cylinders, next + 1, groups, need, best);
    groups[g] = before;
  }
  groups.push_back(cylinders[next]);
  if (longest(groups.back()) >= need) share(cylinders, next + 1, groups, need, best);
  groups.pop_back();
}

TEST(PlanExhaustive, FewestTurnsAndWidestNarrowestRun) {
  for_trials(1500, [](Dice& dice) {
    const auto windows = random_windows(dice, {.cylinders = dice.whole(1, 7), .whole_degrees = true});
    WrenchQuestion q;
    q.from_deg = dice.whole(0, 719);
    q.accuracy_deg = dice.pick<double>({0, 0, 1, 5, 20});
    q.plus_minus_deg = dice.chance(0.7) ? 0 : dice.whole(0, 10);
    for (const Windows& w : windows) q.left.push_back(w.cylinder);
    const WrenchPlan plan = plan_wrench(windows, q);
    check_clauses(windows, q, plan);
    if (!plan.possible()) return;
    std::vector<Circle> later, groups;
    for (const Windows& w : windows)
      if (!covers(w.sure, q.from_deg - q.plus_minus_deg, q.from_deg + q.plus_minus_deg))
        later.push_back(circle_of(w.sure));
    Best best;
    share(later, 0, groups, static_cast<int>(2 * (q.accuracy_deg + q.plus_minus_deg)), best);
    EXPECT_EQ(static_cast<int>(plan.turns()), best.positions);
    if (!later.empty()) {
      EXPECT_NEAR(plan.narrowest_run_deg, best.narrowest, 1e-6);
    }
  });
}

TEST(PlanExhaustive, TouchingEndsMakeOnePositionWhenTheAimIsExact) {
  const std::vector<Windows> windows = {window(1, ArcSet({{100, 50}})), window(2, ArcSet({{150, 60}}))};
  WrenchQuestion q{.from_deg = 400, .plus_minus_deg = 0, .accuracy_deg = 0, .left = {1, 2}, .done = {}};
  WrenchPlan plan = plan_wrench(windows, q);
  ASSERT_EQ(plan.turns(), 1U);
  EXPECT_NEAR(plan.positions[1].at_deg, 150, 1e-6);
  EXPECT_NEAR(plan.positions[1].turn_max_deg, 470, 1e-6);
  q.accuracy_deg = 0.01;
  plan = plan_wrench(windows, q);
  EXPECT_EQ(plan.turns(), 2U);
}

}  // namespace
}  // namespace shutlane::test
