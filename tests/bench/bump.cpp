// How fast, how exact: bumps a second on one core at several step lengths with their error against the
// accurate path, the accurate path slackened until its error is the same (the ratio of the two is printed),
// the rest table on two threads, and the plan given the table. Each row prints a hash of its results.
#include <benchmark/benchmark.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <memory>

#include "sim/cranking/random.hpp"
#include "sim/cranking/reference.hpp"
#include "sim/cranking/rest_table.hpp"
#include "sim/plan/bump_plan.hpp"
#include "tests/cranking/engines.hpp"

namespace shutlane::testing {
namespace {

constexpr int kChecked = 300;  // bumps whose error is measured

CrankingModel model_for(int cylinders) {
  return model_of(spec_of(cylinders == 6 ? inline_six() : even(cylinders)));
}

struct Load {
  std::vector<FastTrial> trials;
  std::vector<float> drives;
};
Load load(const CrankingModel& m, int starts) {
  Load l;
  const std::vector<double> presses = default_presses_s();
  l.drives.resize(size_t(starts) * presses.size());
  for (int i = 0; i < starts; ++i) {
    FastTrial t;
    t.start_deg = 720 * uniform(1, 0, uint64_t(i), 0);
    t.draw.friction = 0.8 + 0.4 * uniform(1, 0, uint64_t(i), 1);
    for (size_t h = 0; h < presses.size(); ++h)
      l.drives[size_t(i) * presses.size() + h] = float(drive_s(m, presses[h], t.draw));
    t.drives_s = &l.drives[size_t(i) * presses.size()];
    t.presses = int(presses.size());
    l.trials.push_back(t);
  }
  return l;
}

uint64_t hash_of(const std::vector<float>& v) {
  uint64_t h = 0xcbf29ce484222325u;
  for (const float f : v) h = (h ^ uint64_t(int64_t(std::lround(double(f) * 1000)))) * 0x100000001b3u;
  return h;
}

struct Checked {
  double from_deg, press_s, rest_deg;
};
/// Bumps away from the knife-edge, with the accurate path's answer.
const std::vector<Checked>& checked(int cylinders) {
  static std::array<std::vector<Checked>, 17> all;
  std::vector<Checked>& list = all[size_t(cylinders)];
  const CrankingModel m = model_for(cylinders);
  for (uint64_t i = 0; int(list.size()) < kChecked; ++i) {
    const double from = 720 * uniform(2, 0, i, 0), press = 0.05 + 0.55 * uniform(2, 0, i, 1);
    if (on_knife_edge(m, from, press)) continue;
    list.push_back({from, press, bump(m, from, press).advance_deg});
  }
  return list;
}

struct Error {
  double median_deg, p95_deg;
};
template <typename Solve>
Error error_of(int cylinders, const Solve& solve) {
  std::vector<double> e;
  for (const Checked& c : checked(cylinders)) e.push_back(std::abs(solve(c) - c.rest_deg));
  std::sort(e.begin(), e.end());
  return {e[e.size() / 2], e[e.size() * 95 / 100]};
}
Error fast_error(int cylinders, double step_deg) {
  const CrankingModel m = model_for(cylinders);
  const FastKernel kernel(m, step_deg);
  return error_of(cylinders, [&](const Checked& c) {
    const float drive = float(drive_s(m, c.press_s, {}));
    FastTrial t;
    t.start_deg = c.from_deg;
    t.drives_s = &drive;
    t.presses = 1;
    std::vector<float> advance;
    kernel.run({t}, advance);
    return double(advance[0]);
  });
}

void fast_bumps(benchmark::State& state) {
  const int cylinders = int(state.range(0));
  const double step_deg = double(state.range(1)) / 100;
  const CrankingModel m = model_for(cylinders);
  const FastKernel kernel(m, step_deg);
  const Load l = load(m, 600);
  std::vector<float> advance;
  for (auto _ : state) kernel.run(l.trials, advance);
  const Error e = fast_error(cylinders, step_deg);
  state.counters["bumps/s"] =
      benchmark::Counter(double(advance.size()) * double(state.iterations()), benchmark::Counter::kIsRate);
  state.counters["median_err_deg"] = e.median_deg;
  state.counters["p95_err_deg"] = e.p95_deg;
  char label[32];
  std::snprintf(label, sizeof label, "hash %016llx", static_cast<unsigned long long>(hash_of(advance)));
  state.SetLabel(label);
}
BENCHMARK(fast_bumps)
    ->ArgNames({"cylinders", "step_0.01deg"})
    ->ArgsProduct({{6}, {25, 50, 100, 200, 300}})
    ->Args({4, 100})
    ->Args({12, 100})
    ->Unit(benchmark::kMillisecond);

/// The accurate path, slackened as far as its error stays at or below that of the fast path at its own step.
void ratio_at_equal_error(benchmark::State& state) {
  using Clock = std::chrono::steady_clock;
  const int cylinders = 6;
  const CrankingModel m = model_for(cylinders);
  const double wanted = fast_error(cylinders, kFastStep_deg).p95_deg;
  const auto options_at = [](double tolerance, double step_deg) {
    ReferenceOptions o;
    o.tolerance = tolerance;
    o.longest_step_deg = step_deg;
    return o;
  };
  const auto seconds_a_bump = [&](const ReferenceOptions& o) {
    const auto start = Clock::now();
    for (const Checked& c : checked(cylinders)) benchmark::DoNotOptimize(bump(m, c.from_deg, c.press_s, o));
    return std::chrono::duration<double>(Clock::now() - start).count() / kChecked;
  };
  double slack = 1e-10, slack_step = 2, reference_s = seconds_a_bump(options_at(1e-10, 2)), error = 0;
  for (const double tolerance : {1e-3, 1e-4, 1e-5, 1e-6, 1e-7})
    for (const double step : {16.0, 8.0, 4.0, 2.0}) {
      const ReferenceOptions o = options_at(tolerance, step);
      const double e = error_of(cylinders, [&](const Checked& c) {
                         return bump(m, c.from_deg, c.press_s, o).advance_deg;
                       }).p95_deg;
      const double s = seconds_a_bump(o);
      if (e > wanted || s >= reference_s) continue;
      reference_s = s;
      slack = tolerance;
      slack_step = step;
      error = e;
    }
  const FastKernel kernel(m);
  const Load l = load(m, 600);
  std::vector<float> advance;
  double fast_s = 0;
  for (auto _ : state) {
    const auto start = Clock::now();
    kernel.run(l.trials, advance);
    fast_s += std::chrono::duration<double>(Clock::now() - start).count();
  }
  fast_s /= double(state.iterations()) * double(advance.size());
  state.counters["ratio"] = reference_s / fast_s;
  state.counters["fast_p95_err_deg"] = wanted;
  state.counters["reference_p95_err_deg"] = error;
  state.counters["reference_us"] = reference_s * 1e6;
  state.counters["fast_us"] = fast_s * 1e6;
  char label[64];
  std::snprintf(label, sizeof label, "reference at tolerance %.0e, steps up to %g deg", slack, slack_step);
  state.SetLabel(label);
}
BENCHMARK(ratio_at_equal_error)->Unit(benchmark::kMillisecond);

std::shared_ptr<const RestTable> table_for(int cylinders) {
  static std::array<std::shared_ptr<const RestTable>, 17> all;
  auto& t = all[size_t(cylinders)];
  if (!t) {
    RestTableQuestion q;
    q.threads = 2;
    t = std::make_shared<const RestTable>(*build_rest_table(model_for(cylinders), q));
  }
  return t;
}

void rest_table(benchmark::State& state) {
  const CrankingModel m = model_for(int(state.range(0)));
  RestTableQuestion q;
  q.threads = 2;
  std::optional<RestTable> t;
  for (auto _ : state) t = build_rest_table(m, q);
  state.counters["bumps"] = double(t->moved.size());
  char label[32];
  std::snprintf(label, sizeof label, "hash %016llx", static_cast<unsigned long long>(t->hash()));
  state.SetLabel(label);
}
BENCHMARK(rest_table)->Arg(6)->Arg(12)->Unit(benchmark::kMillisecond)->Iterations(1)->UseRealTime();

void plan_given_table(benchmark::State& state) {
  const int cylinders = int(state.range(0));
  const bool unknown = state.range(1) != 0;
  const Engine e = engine_of(spec_of(cylinders == 6 ? inline_six() : even(cylinders)));
  const auto table = table_for(cylinders);
  std::vector<int> left;
  for (const Cylinder& c : e.cylinders) left.push_back(c.number);
  BumpPlan plan;
  for (auto _ : state) {
    BumpPlanner planner(e, table);
    plan = planner.plan(unknown ? start_unknown() : start_at(35), left);
  }
  state.counters["expected_bumps"] = plan.expected_bumps;
  state.counters["relative_error"] = plan.relative_error;
  state.counters["habit_order"] = plan.habits[0].expected_bumps;
  state.counters["habit_tap"] = plan.habits[1].expected_bumps;
  state.counters["habit_0.10"] = plan.habits[2].expected_bumps;
  state.counters["habit_0.30"] = plan.habits[3].expected_bumps;
}
BENCHMARK(plan_given_table)
    ->ArgNames({"cylinders", "unknown"})
    ->ArgsProduct({{4, 6, 8, 12, 16}, {0, 1}})
    ->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace shutlane::testing

BENCHMARK_MAIN();
