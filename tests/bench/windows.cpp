// Windows of a V12 (aim: under 50 us), and from the engine's text to its windows.
#include "tests/bench/bench_shared.hpp"

namespace shutlane::bench {
namespace {

void windows_v12(benchmark::State& state) {
  const Engine engine = bundled("v12");
  std::vector<Windows> windows;
  for (auto _ : state) benchmark::DoNotOptimize(windows = shut_windows(engine));
  ResultHash hash;
  hash.add(windows);
  state.counters["cylinders"] = static_cast<double>(windows.size());
  state.SetLabel(hash.label());
}
BENCHMARK(windows_v12)->Unit(benchmark::kMicrosecond);

void engine_from_text_v12(benchmark::State& state) {
  std::vector<Windows> windows;
  for (auto _ : state) benchmark::DoNotOptimize(windows = shut_windows(bundled("v12")));
  ResultHash hash;
  hash.add(windows);
  state.SetLabel(hash.label());
}
BENCHMARK(engine_from_text_v12)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace shutlane::bench
