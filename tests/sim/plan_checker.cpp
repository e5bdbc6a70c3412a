#include "tests/sim/plan_checker.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "tests/sim/glpk_cover.hpp"

#include <gtest/gtest.h>

namespace shutlane::test {

namespace {

constexpr double kEps_deg = 1e-6;  // the contract's "equal"

/// Degrees forward from a to b in [-eps, 720 - eps).
double ahead(double a_deg, double b_deg) {
  double d = std::fmod(b_deg - a_deg, 720);
  if (d < 0) d += 720;
  return d > 720 - kEps_deg ? d - 720 : d;
}

std::vector<int> sorted(std::vector<int> v) {
  std::sort(v.begin(), v.end());
  return v;
}

struct Aim {
  double turn_deg;
  bool close_call;  ///< a condition hangs on less than 1e-6
};

/// The contract's aim rule, in its order.
std::vector<Aim> allowed_aims(double before_deg, const Run& run, double a_deg) {
  std::vector<Aim> allowed;
  const double length = run.length_deg();
  for (const double turn : {360.0, 180.0, 540.0}) {
    const double in = ahead(run.from_deg, before_deg + turn);
    const double room = std::min({in - length / 4, 3 * length / 4 - in, in - a_deg, length - a_deg - in});
    if (room < -2 * kEps_deg) continue;
    allowed.push_back({turn, room < 2 * kEps_deg});
    if (!allowed.back().close_call) return allowed;
  }
  allowed.push_back({std::max(0.0, ahead(before_deg, run.from_deg + length / 2)), false});
  return allowed;
}

}  // namespace

const Windows& window_of(const std::vector<Windows>& windows, int cylinder) {
  return *std::find_if(windows.begin(), windows.end(),
                       [&](const Windows& w) { return w.cylinder == cylinder; });
}

bool covers(const ArcSet& set, double from_deg, double to_deg) {
  for (const Arc& arc : set.arcs()) {
    if (arc.length_deg == 720) return true;
    if (ahead(arc.from_deg, from_deg) + (to_deg - from_deg) <= arc.length_deg + kEps_deg) return true;
  }
  return false;
}

Run run_at(const std::vector<Windows>& windows, const std::vector<int>& blast, double x_deg) {
  Run run{x_deg - 720, x_deg + 720};
  for (const int cylinder : blast)
    for (const Arc& arc : window_of(windows, cylinder).sure.arcs()) {
      const double in = ahead(arc.from_deg, x_deg);
      if (arc.length_deg == 720 || in > arc.length_deg + kEps_deg) continue;
      run.from_deg = std::max(run.from_deg, x_deg - in);
      run.to_deg = std::min(run.to_deg, x_deg - in + arc.length_deg);
    }
  return run;
}

void check_clauses(const std::vector<Windows>& windows, const WrenchQuestion& q, const WrenchPlan& plan) {
  const double p = q.plus_minus_deg, a = q.accuracy_deg + p;
  std::vector<int> at_start, later, hopeless;
  for (const int k : sorted(q.left)) {
    const ArcSet& sure = window_of(windows, k).sure;
    const bool now = covers(sure, q.from_deg - p, q.from_deg + p);
    (now ? at_start : later).push_back(k);
    if (!now && aims(sure, a).empty()) hopeless.push_back(k);
  }
  EXPECT_EQ(plan.no_plan, hopeless);
  if (!hopeless.empty()) {
    EXPECT_TRUE(plan.positions.empty());
    return;
  }
  ASSERT_FALSE(plan.positions.empty());
  auto not_sure_over = [&](double from, double to) {
    std::vector<int> out;
    for (const Windows& w : windows)
      if (!covers(w.sure, from, to)) out.push_back(w.cylinder);
    return sorted(out);
  };

  const Position& start = plan.positions[0];
  EXPECT_NEAR(std::remainder(start.at_deg - q.from_deg, 720), 0, kEps_deg);
  EXPECT_EQ(start.turn_deg, 0);
  EXPECT_EQ(start.turn_min_deg, 0);
  EXPECT_EQ(start.turn_max_deg, 0);
  EXPECT_EQ(start.blast, at_start);
  EXPECT_EQ(start.not_shut, not_sure_over(q.from_deg - p, q.from_deg + p));
  EXPECT_TRUE(start.suck_out_before.empty());

  std::set<int> blasted(q.done.begin(), q.done.end()), seen;
  blasted.insert(at_start.begin(), at_start.end());
  double total = 0, narrowest = 1e9;
  for (size_t i = 1; i < plan.positions.size(); ++i) {
    SCOPED_TRACE("position " + std::to_string(i));
    const Position& here = plan.positions[i];
    const double before = plan.positions[i - 1].at_deg, x = here.at_deg;
    EXPECT_GE(x, 0);
    EXPECT_LT(x, 720);
    EXPECT_GE(here.turn_deg, 0);
    EXPECT_LT(here.turn_deg, 720);
    EXPECT_NEAR(std::remainder(before + here.turn_deg - x, 720), 0, kEps_deg);
    total += here.turn_deg;

    EXPECT_FALSE(here.blast.empty());
    EXPECT_EQ(here.blast, sorted(here.blast));
    for (const int k : here.blast) {
      EXPECT_TRUE(seen.insert(k).second) << k << " twice";
      EXPECT_TRUE(covers(window_of(windows, k).sure, x - a, x + a)) << k;
    }
    EXPECT_EQ(here.not_shut, not_sure_over(x - a, x + a));

    const Run run = run_at(windows, here.blast, x);
    narrowest = std::min(narrowest, run.length_deg());
    const auto allowed = allowed_aims(before, run, a);
    EXPECT_TRUE(
        std::any_of(allowed.begin(), allowed.end(),
                    [&](const Aim& aim) { return std::abs(aim.turn_deg - here.turn_deg) < 2 * kEps_deg; }))
        << "turn " << here.turn_deg << " where the aim rule says " << allowed.front().turn_deg;
    const double drawn_in = i == 1 ? p : a;
    EXPECT_NEAR(here.turn_min_deg, std::max(0.0, here.turn_deg - (x - run.from_deg) + drawn_in),
                2 * kEps_deg);
    EXPECT_NEAR(here.turn_max_deg, here.turn_deg + (run.to_deg - x) - drawn_in, 2 * kEps_deg);
    EXPECT_LE(here.turn_min_deg, here.turn_deg + kEps_deg);
    EXPECT_GE(here.turn_max_deg, here.turn_deg - kEps_deg);

    std::vector<int> suck;
    for (const int k : blasted)
      if (!covers(window_of(windows, k).within_tolerance, before, before + here.turn_max_deg))
        suck.push_back(k);
    EXPECT_EQ(here.suck_out_before, suck);
    blasted.insert(here.blast.begin(), here.blast.end());
  }
  EXPECT_EQ(std::vector<int>(seen.begin(), seen.end()), later);
  EXPECT_NEAR(plan.total_turn_deg, total, kEps_deg);
  EXPECT_LT(total, 720);  // forward once round at most: no position is passed by and come back to
  EXPECT_NEAR(plan.narrowest_run_deg, plan.turns() == 0 ? 0 : narrowest, kEps_deg);
}

void check_objectives(const std::vector<Windows>& windows, const WrenchQuestion& q, const WrenchPlan& plan) {
  if (!plan.possible()) return;
  auto fewest = [&](double half_run_deg) {
    std::vector<std::vector<Arc>> families;
    for (const int k : q.left) {
      const ArcSet& sure = window_of(windows, k).sure;
      if (!covers(sure, q.from_deg - q.plus_minus_deg, q.from_deg + q.plus_minus_deg))
        families.push_back(aims(sure, half_run_deg));
    }
    return fewest_points(families);
  };
  const int turns = static_cast<int>(plan.turns());
  EXPECT_EQ(turns, fewest(q.accuracy_deg + q.plus_minus_deg)) << "turns";
  if (turns == 0) return;
  // Runs all w wide exist with this many positions iff so many points pierce the windows drawn in by w/2.
  EXPECT_LE(fewest(plan.narrowest_run_deg / 2 - kEps_deg), turns);
  const int wider = fewest(plan.narrowest_run_deg / 2 + 1e-4);
  EXPECT_TRUE(wider == -1 || wider > turns) << "a wider narrowest run than " << plan.narrowest_run_deg;
}

}  // namespace shutlane::test
