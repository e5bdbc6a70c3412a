// Known facts about piercing arcs on a circle, and the one-turn rule. Sources beside each check.
#include <cmath>
#include <numeric>

#include "sim/plan/wrench.hpp"
#include "tests/sim/glpk_cover.hpp"
#include "tests/sim/plan_checker.hpp"
#include "tests/sim/some_engines.hpp"
#include "tests/sim/some_windows.hpp"

namespace shutlane::test {
namespace {

WrenchQuestion exact_from(double at_deg, const std::vector<Windows>& windows) {
  WrenchQuestion q{.from_deg = at_deg, .plus_minus_deg = 0, .accuracy_deg = 0, .left = {}, .done = {}};
  for (const Windows& w : windows) q.left.push_back(w.cylinder);
  return q;
}

/// Arcs given on a circle of `circle` units, spread over the cycle.
std::vector<Windows> on_a_circle_of(double circle, const std::vector<std::pair<double, double>>& from_to) {
  std::vector<Windows> all;
  for (const auto& [from, to] : from_to) {
    const double scale = 720 / circle, length = std::fmod(to - from + circle, circle);
    all.push_back(window(static_cast<int>(all.size() + 1), ArcSet({{from * scale, length * scale}})));
  }
  return all;
}

/// The piercing number tau: the start counts as a position, so the best start of all the arcs' ends.
size_t tau(const std::vector<Windows>& windows) {
  size_t best = 99;
  for (const Windows& w : windows) {
    const auto q = exact_from(w.sure.arcs()[0].to_deg(), windows);
    best = std::min(best, plan_wrench(windows, q).positions.size());
  }
  return best;
}

TEST(PlanFacts, ArcsThatMeetInPairsNeedNotSharePoint) {
  // No Helly property on a circle: 130 of 360 degrees from 0, 120, 240 meet pairwise, yet need two points
  // (L. Danzer, B. Gruenbaum, V. Klee, "Helly's theorem and its relatives", 1963, surveys the matter;
  // recomputed).
  EXPECT_EQ(tau(on_a_circle_of(360, {{0, 130}, {120, 250}, {240, 10}})), 2U);
  EXPECT_EQ(tau(on_a_circle_of(360, {{0, 120}, {119, 239}, {238, 358}})), 2U);
}

TEST(PlanFacts, AFixedFirstPointMayCostOne) {
  // Public question 136884 of a mathematics exchange, corrected: "any starting arc gives the same solution"
  // is false. Two points do; begun at 25 it would take three.
  const auto windows = on_a_circle_of(360, {{45, 90}, {315, 50}, {300, 25}, {310, 350}});
  EXPECT_EQ(tau(windows), 2U);
  const WrenchPlan outside = plan_wrench(windows, exact_from(400, windows));  // 200 of 360: in no arc
  EXPECT_TRUE(outside.positions[0].blast.empty());
  EXPECT_EQ(outside.turns(), 2U);
  EXPECT_EQ(plan_wrench(windows, exact_from(50, windows)).positions.size(), 3U);  // 25 of 360
}

TEST(PlanFacts, CirculantArcs) {
  // Closed arcs [i, i + 2] on a circle of m whole steps: tau 2, 3, 3 for m = 5, 7, 9 (recomputed).
  for (const auto& [m, expected] : {std::pair{5, 2U}, {7, 3U}, {9, 3U}}) {
    std::vector<std::pair<double, double>> arcs;
    for (int i = 0; i < m; ++i) arcs.push_back({i, (i + 2) % m});
    EXPECT_EQ(tau(on_a_circle_of(m, arcs)), expected) << m;
  }
}

TEST(PlanFacts, PiercingIsAtMostOneAbovePacking) {
  // nu <= tau <= nu + 1 (recomputed over random families): a packing of pairwise disjoint arcs, by trying
  // all.
  int gaps = 0;
  for_trials(400, [&](Dice& dice) {
    std::vector<Windows> singles;
    for (int k = dice.whole(3, 9); k > 0; --k)
      singles.push_back(window(k, ArcSet({{dice.between(0, 720), dice.between(100, 340)}})));
    size_t nu = 0;
    const size_t n = singles.size();
    for (unsigned chosen = 1; chosen < 1U << n; ++chosen) {
      bool disjoint = true;
      size_t count = 0;
      for (size_t i = 0; i < n && disjoint; ++i) {
        if (!(chosen >> i & 1U)) continue;
        ++count;
        for (size_t j = 0; j < i && disjoint; ++j)
          if (chosen >> j & 1U) {
            const ArcSet &a = singles[i].sure, &b = singles[j].sure;
            disjoint = !a.contains(b.arcs()[0].from_deg) && !b.contains(a.arcs()[0].from_deg);
          }
      }
      if (disjoint) nu = std::max(nu, count);
    }
    const size_t t = tau(singles);
    EXPECT_GE(t, nu);
    EXPECT_LE(t, nu + 1);
    gaps += t > nu;
  });
  if (trials(400) >= 400) {
    EXPECT_GT(gaps, 0);
  }
}

Engine even_firing(int n, double ivo, double ivc) {
  std::vector<int> order(static_cast<size_t>(n));
  std::iota(order.begin(), order.end(), 1);
  EngineSpec spec = in_line(order);
  spec.valves[0].opens_deg = ivo;
  spec.valves[0].closes_deg = ivc;
  spec.tolerance.timing_deg = 0;
  return built(spec);
}

TEST(PlanFacts, OneStopForAllOnlyBelowAFiringIntervalOpen) {
  // Even firing, n cylinders: one angle has every intake shut iff it is open for no more than 720/n (closed
  // ends); two stops a turn apart always do below 360 open: an arc shorter than 360 cannot hold both
  // (recomputed).
  struct {
    int n;
    double ivo, ivc;
    bool one_stop;
  } const rows[] = {{3, 10, 45, true},   {3, 10, 50, true},  {3, 20, 60, false},
                    {4, 10, 20, false},  {6, 12, 48, false}, {8, 10, 20, false},
                    {12, 10, 45, false}, {1, 20, 60, true},  {2, 20, 60, true}};
  for (const auto& row : rows) {
    const auto windows = shut_windows(even_firing(row.n, row.ivo, row.ivc), 0);
    size_t fewest = 99, most = 0;
    for (const Windows& w : windows)  // closed ends: the ends themselves must be among the starts
      for (const double at :
           {w.sure.arcs()[0].from_deg, w.sure.arcs()[0].to_deg(), w.sure.arcs()[0].from_deg - 1.0}) {
        const size_t turns = plan_wrench(windows, exact_from(at, windows)).turns();
        fewest = std::min(fewest, turns);
        most = std::max(most, turns);
      }
    EXPECT_EQ(fewest == 0, row.one_stop) << row.n << " cylinders, open " << row.ivo + 180 + row.ivc;
    EXPECT_LE(most, 1U);
  }
}

TEST(PlanFacts, OneFullTurnRule) {
  // One turn is right from every start iff open + phase range + 2 (timing + margin) <= 360 - accuracy,
  // however uneven the firing (proof: the stretch that is not sure, and its like one turn on, must not meet
  // within the accuracy; recomputed over 1896 random plans). With the start known to +-p, both p and the
  // accuracy count twice.
  int yes = 0, no = 0;
  for_trials(600, [&](Dice& dice) {
    EngineSpec spec = random_engine(dice);
    ValveSpec only = random_valve(dice, ValveKind::intake);
    only.at_lift_mm = 0.0;
    only.opens_deg = dice.between(0, 40);
    only.closes_deg = dice.between(10, 80);
    only.phase_range_deg = {-dice.between(0, 10), dice.chance(0.5) ? 0 : dice.between(0, 40)};
    const ValveSpec exhaust = spec.valves.back();
    spec.valves = {only, exhaust};
    spec.tolerance = {.timing_deg = dice.between(0, 8), .seat_deg = 0.0};
    const double margin = dice.between(0, 20), accuracy = dice.pick<double>({0, 10, dice.between(0, 60)});
    const double p = dice.chance(0.7) ? 0 : dice.between(0, 30);
    const double unsure = only.opens_deg + 180 + only.closes_deg + only.phase_range_deg[1] -
                          only.phase_range_deg[0] + 2 * (spec.tolerance.timing_deg + margin);
    const double room = 360 - accuracy - 2 * p - unsure;
    if (std::abs(room) < 1e-5) return;
    const auto windows = shut_windows(built(spec), margin);
    EXPECT_EQ(one_full_turn_always(windows, accuracy, p), room >= 0);
    (room >= 0 ? yes : no) += 1;

    // And by trying: from every start, what is not sure now must be sure all around one turn on.
    bool always = true;
    for (const Windows& w : windows)
      for (double at = 0; at < 720; at += 0.5)
        if (!covers(w.sure, at - p, at + p) &&
            !covers(w.sure, at + 360 - accuracy - p, at + 360 + accuracy + p))
          always = false;
    if (room >= 0 || room < -1) {  // the starts are half a degree apart
      EXPECT_EQ(always, room >= 0);
    }

    // The plan agrees: one turn of 360 holds within the run, from any start that leaves something.
    if (room < 0) return;
    WrenchQuestion q = exact_from(dice.between(0, 720), windows);
    q.accuracy_deg = accuracy;
    q.plus_minus_deg = p;
    const WrenchPlan plan = plan_wrench(windows, q);
    ASSERT_TRUE(plan.possible());
    ASSERT_LE(plan.turns(), 1U);
    if (plan.turns() == 1) {
      EXPECT_LE(plan.positions[1].turn_min_deg, 360 + 1e-6);
      EXPECT_GE(plan.positions[1].turn_max_deg, 360 - 1e-6);
    }
  });
  if (trials(600) >= 600) {
    EXPECT_GT(std::min(yes, no), 50);
  }
}

TEST(PlanFacts, OneFullTurnOnTheContractsEngine) {
  const auto windows = shut_windows(built(inline_six()), 10);  // not sure for 266 degrees of the cycle
  EXPECT_TRUE(one_full_turn_always(windows, 10));
  EXPECT_TRUE(one_full_turn_always(windows, 94));
  EXPECT_FALSE(one_full_turn_always(windows, 94.1));
  EXPECT_TRUE(one_full_turn_always(windows, 10, 42));
  EXPECT_FALSE(one_full_turn_always(windows, 10, 42.1));
}

}  // namespace
}  // namespace shutlane::test
