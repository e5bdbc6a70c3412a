// Random engines of 16 cylinders with two-arc windows (aim: a plan under 20 ms), and GLPK on the same covers
// in the same run. GLPK finds the number of turns alone; the plan also makes the narrowest run as wide as
// possible and writes every position out, so the ratio flatters GLPK.
#include <algorithm>
#include <chrono>

#include "tests/bench/bench_shared.hpp"
#include "tests/sim/dice.hpp"
#include "tests/sim/glpk_cover.hpp"
#include "tests/sim/some_windows.hpp"

namespace shutlane::bench {
namespace {

constexpr int kCases = 64;

struct Case {
  std::vector<Windows> windows;
  WrenchQuestion question;
};

const std::vector<Case>& cases() {
  static const std::vector<Case> all = [] {
    std::vector<Case> made;
    for (int i = 0; i < kCases; ++i) {
      test::Dice dice(1000 + static_cast<std::uint64_t>(i));
      Case c;
      c.windows = test::random_windows(dice, {.cylinders = 16, .arcs_least = 2, .shortest_deg = 25});
      c.question = whole_job(c.windows, dice.between(0, 720));
      made.push_back(std::move(c));
    }
    return made;
  }();
  return all;
}

std::vector<std::vector<Arc>> families(const Case& c, double half_run_deg) {
  std::vector<std::vector<Arc>> all;
  for (const Windows& w : c.windows)
    if (!w.sure.contains(c.question.from_deg)) all.push_back(test::aims(w.sure, half_run_deg));
  return all;
}

/// The widest narrowest run with that many turns, by GLPK.
double widest_by_glpk(const Case& c, int turns) {
  std::vector<double> widths{2 * c.question.accuracy_deg};
  for (const Windows& start : c.windows)
    for (const Windows& end : c.windows)
      for (const Arc& a : start.sure.arcs())
        for (const Arc& b : end.sure.arcs())
          if (const double d = forward_deg(a.from_deg, b.to_deg()); d > widths[0]) widths.push_back(d);
  std::sort(widths.begin(), widths.end());
  size_t low = 0, high = widths.size();
  while (high - low > 1) {
    const size_t middle = (low + high) / 2;
    const int needed = test::fewest_points(families(c, widths[middle] / 2));
    (needed >= 0 && needed <= turns ? low : high) = middle;
  }
  return widths[low];
}

double microseconds(std::chrono::steady_clock::duration d) {
  return std::chrono::duration<double, std::micro>(d).count();
}

void plan_16_cylinders_two_arcs(benchmark::State& state) {
  double slowest = 0;
  size_t i = 0;
  for (auto _ : state) {
    const Case& c = cases()[i++ % kCases];
    const auto begun = std::chrono::steady_clock::now();
    benchmark::DoNotOptimize(plan_wrench(c.windows, c.question));
    slowest = std::max(slowest, microseconds(std::chrono::steady_clock::now() - begun));
  }
  ResultHash hash;
  double turns = 0;
  for (const Case& c : cases()) {
    const WrenchPlan plan = plan_wrench(c.windows, c.question);
    hash.add(plan);
    turns += static_cast<double>(plan.turns());
  }
  state.counters["mean_turns"] = turns / kCases;
  state.counters["slowest_us"] = slowest;
  state.SetLabel(hash.label());
}
BENCHMARK(plan_16_cylinders_two_arcs)->Unit(benchmark::kMicrosecond);

void glpk_16(benchmark::State& state, bool both_objectives) {
  double ours_us = 0, glpk_us = 0;
  size_t i = 0;
  for (auto _ : state) {
    const Case& c = cases()[i++ % kCases];
    const auto begun = std::chrono::steady_clock::now();
    const WrenchPlan plan = plan_wrench(c.windows, c.question);
    const auto planned = std::chrono::steady_clock::now();
    const int turns = test::fewest_points(families(c, c.question.accuracy_deg));
    const double width_deg = both_objectives && turns > 0 ? widest_by_glpk(c, turns) : plan.narrowest_run_deg;
    const auto solved = std::chrono::steady_clock::now();
    ours_us += microseconds(planned - begun);
    glpk_us += microseconds(solved - planned);
    state.SetIterationTime(microseconds(solved - planned) * 1e-6);
    if (plan.possible() &&
        (turns != static_cast<int>(plan.turns()) || std::abs(width_deg - plan.narrowest_run_deg) > 1e-6))
      state.SkipWithError("GLPK disagrees");
  }
  state.counters["glpk_over_plan"] = glpk_us / ours_us;
}
void glpk_turns_16_cylinders(benchmark::State& state) { glpk_16(state, false); }
void glpk_turns_and_width_16_cylinders(benchmark::State& state) { glpk_16(state, true); }
BENCHMARK(glpk_turns_16_cylinders)->Unit(benchmark::kMicrosecond)->UseManualTime();
BENCHMARK(glpk_turns_and_width_16_cylinders)->Unit(benchmark::kMicrosecond)->UseManualTime();

}  // namespace
}  // namespace shutlane::bench
