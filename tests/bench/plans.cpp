// Wrench plan of every bundled engine (aim: under 100 us each), the start moved a little each time.
#include "tests/bench/bench_shared.hpp"

namespace shutlane::bench {
namespace {

void plan_of(benchmark::State& state, std::string_view name) {
  const auto windows = shut_windows(bundled(name));
  WrenchQuestion q = whole_job(windows);
  for (auto _ : state) {
    q.from_deg = wrap_deg(q.from_deg + 7.5);
    benchmark::DoNotOptimize(plan_wrench(windows, q));
  }
  ResultHash hash;
  size_t most_turns = 0;
  for (int i = 0; i < 96; ++i) {
    q.from_deg = 7.5 * i + 0.123;
    const WrenchPlan plan = plan_wrench(windows, q);
    hash.add(plan);
    most_turns = std::max(most_turns, plan.turns());
  }
  state.counters["cylinders"] = static_cast<double>(windows.size());
  state.counters["most_turns"] = static_cast<double>(most_turns);
  state.SetLabel(hash.label());
}

[[maybe_unused]] const bool kRegistered = [] {
  for (const BundledFile& file : bundled_files())
    benchmark::RegisterBenchmark(("plan/" + std::string(file.name)).c_str(), plan_of, file.name)
        ->Unit(benchmark::kMicrosecond);
  return true;
}();

}  // namespace
}  // namespace shutlane::bench
