// A frame of the window against a frame of an empty Dear ImGui window, taken in turn in the same run (aim: 2x
// when only the needle moved, 4x else). Here through the CPU rasteriser; through OpenGL in window_gl.cpp. A
// frame is: the commands applied, the widgets laid out, the tiles that changed filled; what the display does
// with it is not in it. The empty window is drawn whole each time. Times are processor time of this one
// thread, so that other programs disturb them less.
#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include <cstdio>

#include "tests/bench/window_scene.hpp"

namespace shutlane::bench {

/// Registers the benchmarks through OpenGL; says why not where there is no display.
void register_gl();

namespace {

class EmptyWindow {
 public:
  explicit EmptyWindow(bool filling) : layout_(filling) {
    raster_.resize(kSize.width_px, kSize.height_px);
    raster_.use_fonts(*ImGui::GetIO().Fonts);
  }
  void draw() {
    raster_.draw(layout_.lay_out(), kBackground);
    benchmark::DoNotOptimize(raster_.pixels());
  }
  void update() {
    raster_.update(layout_.lay_out(), kBackground);
    benchmark::DoNotOptimize(raster_.pixels());
  }

 private:
  static constexpr ImU32 kBackground = IM_COL32(20, 20, 20, 255);
  EmptyLayout layout_;
  Raster raster_;
};

/// 64-bit FNV-1a over the pixels.
std::string hash_of(const Raster& picture) {
  std::uint64_t sum = 0xcbf29ce484222325;
  const size_t count = static_cast<size_t>(picture.width()) * static_cast<size_t>(picture.height());
  for (size_t i = 0; i < count; ++i) sum = (sum ^ picture.pixels()[i]) * 0x100000001b3;
  char text[40];
  std::snprintf(text, sizeof text, "hash %016llx", static_cast<unsigned long long>(sum));
  return text;
}

template <class Work>
double thread_s(Work work) {
  return seconds_of(CLOCK_THREAD_CPUTIME_ID, work);
}

void window_frame(benchmark::State& state, const SceneSpec& spec) {
  EmptyWindow small(false), filling(true), kept(false);
  Scene scene(spec);
  small.draw(), filling.draw(), kept.update();
  scene.change(0);
  scene.lay_out();
  Raster raster;
  raster.resize(kSize.width_px, kSize.height_px);
  raster.use_fonts(scene.viewer().atlas());
  raster.update(scene.viewer().drawn(), scene.background());

  double layout_s = 0, raster_s = 0, small_s = 0, whole_s = 0, kept_s = 0, drawn_px = 0;
  int turn = 0;
  for (auto _ : state) {
    ++turn;
    const double layout = thread_s([&] {
      scene.change(turn);
      scene.lay_out();
    });
    const std::vector<PixelBox>* parts = nullptr;
    const double filled = thread_s([&] {
      parts = &raster.update(scene.viewer().drawn(), scene.background());
      benchmark::DoNotOptimize(raster.pixels());
    });
    for (const PixelBox& p : *parts) drawn_px += static_cast<double>(p.x1 - p.x0) * (p.y1 - p.y0);
    layout_s += layout;
    raster_s += filled;
    state.SetIterationTime(layout + filled);
    if (scene.letters_missing()) {
      state.SkipWithError("a font size was missing in the middle of the run");
      break;
    }
    small_s += thread_s([&] { small.draw(); });
    whole_s += thread_s([&] { filling.draw(); });
    kept_s += thread_s([&] { kept.update(); });
  }
  state.SetLabel(hash_of(scene.picture()));
  const double frames = static_cast<double>(state.iterations());
  state.counters["over_empty"] = (layout_s + raster_s) / small_s;
  state.counters["over_empty_filling"] = (layout_s + raster_s) / whole_s;
  state.counters["empty_ms"] = 1e3 * small_s / frames;
  state.counters["empty_kept_ms"] = 1e3 * kept_s / frames;  // by tiles: nothing of it changes
  state.counters["layout_ms"] = 1e3 * layout_s / frames;
  state.counters["raster_ms"] = 1e3 * raster_s / frames;
  state.counters["drawn_share"] = drawn_px / frames / (kSize.width_px * kSize.height_px);
  state.counters["vertices"] = scene.viewer().drawn().TotalVtxCount;
}

void register_cpu() {
  for (const SceneSpec& spec : all_scenes())
    benchmark::RegisterBenchmark(("window_frame/" + spec.name()).c_str(),
                                 [spec](benchmark::State& s) { window_frame(s, spec); })
        ->UseManualTime()
        ->Unit(benchmark::kMillisecond);
}

double peak_mb() {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  return static_cast<double>(used.ru_maxrss) / 1024;  // Linux counts in KiB
}

}  // namespace
}  // namespace shutlane::bench

int main(int argc, char** argv) {
  using namespace shutlane::bench;
  const double before_mb = peak_mb();
  register_cpu();
  register_gl();
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  benchmark::RunSpecifiedBenchmarks();
  std::fprintf(stderr, "peak memory: %.1f MiB, %.1f MiB of it before the first frame\n", peak_mb(),
               before_mb);
  return 0;
}
