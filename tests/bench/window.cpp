// A frame of the window through the CPU rasteriser against a frame of an empty Dear ImGui window, drawn whole
// by the same rasteriser, taken in turn in the same run (aim: 2x when only the needle moved, 4x else). A
// frame is: the commands applied, the widgets laid out, the tiles that changed filled; what the display does
// with it is not in it. Times are processor time of this one thread, so that other programs disturb them
// less.
#include <benchmark/benchmark.h>
#include <sys/resource.h>
#include <time.h>

#include <cstdio>
#include <memory>

#include "engines/catalog.hpp"
#include "ui/window/viewer.hpp"

namespace shutlane::bench {
namespace {

constexpr Viewer::Size kSize{1600, 1000, 0};
constexpr double kFrame_s = 1.0 / 60;

/// An empty window in a context of its own, as Dear ImGui places it or over the whole frame.
class EmptyWindow {
 public:
  explicit EmptyWindow(bool filling) : context_(ImGui::CreateContext()), filling_(filling) {
    ImGui::SetCurrentContext(context_);
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    ImGui::GetStyle().AntiAliasedLinesUseTex = false;  // as in ours
    raster_.resize(kSize.width_px, kSize.height_px);
    raster_.use_fonts(*io.Fonts);
  }
  ~EmptyWindow() { ImGui::DestroyContext(context_); }
  EmptyWindow(const EmptyWindow&) = delete;
  EmptyWindow& operator=(const EmptyWindow&) = delete;

  void frame(bool whole = true) {
    ImGui::SetCurrentContext(context_);
    ImGuiIO& io = ImGui::GetIO();
    io.DisplaySize = {static_cast<float>(kSize.width_px), static_cast<float>(kSize.height_px)};
    io.DeltaTime = static_cast<float>(kFrame_s);
    ImGui::NewFrame();
    if (filling_) {
      ImGui::SetNextWindowPos({0, 0});
      ImGui::SetNextWindowSize(io.DisplaySize);
    }
    ImGui::Begin("Empty");
    ImGui::End();
    ImGui::Render();
    if (whole)
      raster_.draw(*ImGui::GetDrawData(), IM_COL32(20, 20, 20, 255));
    else
      raster_.update(*ImGui::GetDrawData(), IM_COL32(20, 20, 20, 255));
    benchmark::DoNotOptimize(raster_.pixels());
  }

 private:
  ImGuiContext* context_;
  bool filling_;
  Raster raster_;
};

/// Two jobs on one engine that share no colour and no shut window: every reading and every pixel changes.
Document document(const std::string& name, Bench bench, bool second) {
  Document d;
  d.engine_name = name;
  d.bench = bench;
  Engine engine = std::get<Engine>(find_engine(name));
  if (second) {
    EngineSpec spec = engine.spec;
    spec.tolerance.timing_deg += 1;
    engine = std::get<Engine>(build_engine(std::move(spec)));
    d.preferences.theme = Theme::light;
    d.preferences.turned_round = true;
  }
  d.engine = std::make_shared<const Engine>(std::move(engine));
  return d;
}

/// 64-bit FNV-1a over the pixels.
std::string hash_of(const Raster& picture) {
  std::uint64_t sum = 0xcbf29ce484222325;
  const size_t count = static_cast<size_t>(picture.width()) * static_cast<size_t>(picture.height());
  for (size_t i = 0; i < count; ++i) sum = (sum ^ picture.pixels()[i]) * 0x100000001b3;
  char text[40];
  std::snprintf(text, sizeof text, "hash %016llx", static_cast<unsigned long long>(sum));
  return text;
}

/// Processor time of this thread.
double now_s() {
  timespec t{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

template <class Work>
double seconds_of(Work work) {
  const double begun_s = now_s();
  work();
  return now_s() - begun_s;
}

constexpr int kPlaces = 60;  // of the needle, 12 degrees apart
MoveWhatIf needle(int turn) { return {turn % kPlaces * 12 + 0.5}; }

void window_frame(benchmark::State& state, const std::string& engine, Bench bench, bool full_change) {
  EmptyWindow small(false), filling(true), kept(false);
  Session session([] { return 2520.0; }, find_engine);
  Viewer viewer;
  const Document documents[] = {document(engine, bench, false), document(engine, bench, true)};
  auto change = [&](int turn) {
    if (full_change) {
      session.restore(documents[turn % 2]);
    } else {
      session.queue(needle(turn));
      session.apply();
    }
  };
  session.restore(documents[0]);
  for (int turn = 0; turn < (full_change ? 2 : kPlaces); ++turn) {  // all letters are in the atlas then
    change(turn);
    viewer.wake(3);
    for (int n = 0; n < 50 && viewer.unsettled(); ++n) viewer.frame(session, kSize, kFrame_s);
  }
  small.frame(), filling.frame(), kept.frame(false);
  viewer.frame(session, kSize, kFrame_s);
  Raster raster;
  raster.resize(kSize.width_px, kSize.height_px);
  raster.use_fonts(viewer.atlas());
  raster.update(viewer.drawn(), viewer.background(session));
  const int fonts = viewer.font_generation();

  double layout_s = 0, raster_s = 0, small_s = 0, whole_s = 0, kept_s = 0, drawn_px = 0;
  int turn = 0;
  for (auto _ : state) {
    ++turn;
    const double layout = seconds_of([&] {
      change(turn);
      viewer.frame(session, kSize, kFrame_s);
    });
    const std::vector<PixelBox>* parts = nullptr;
    const double filled = seconds_of([&] {
      parts = &raster.update(viewer.drawn(), viewer.background(session));
      benchmark::DoNotOptimize(raster.pixels());
    });
    for (const PixelBox& p : *parts) drawn_px += static_cast<double>(p.x1 - p.x0) * (p.y1 - p.y0);
    layout_s += layout;
    raster_s += filled;
    state.SetIterationTime(layout + filled);
    if (viewer.font_generation() != fonts) {
      state.SkipWithError("a font size was missing in the middle of the run");
      break;
    }
    small_s += seconds_of([&] { small.frame(); });
    whole_s += seconds_of([&] { filling.frame(); });
    kept_s += seconds_of([&] { kept.frame(false); });
  }
  // The picture is of one state, however many frames were taken.
  session.restore(documents[full_change ? 1 : 0]);
  session.queue(MoveWhatIf{123.0});
  session.apply();
  state.SetLabel(hash_of(settled_picture(viewer, session, kSize)));
  const double frames = static_cast<double>(state.iterations());
  state.counters["over_empty"] = (layout_s + raster_s) / small_s;
  state.counters["over_empty_filling"] = (layout_s + raster_s) / whole_s;
  state.counters["empty_ms"] = 1e3 * small_s / frames;
  state.counters["empty_kept_ms"] = 1e3 * kept_s / frames;  // by tiles: nothing of it changes
  state.counters["layout_ms"] = 1e3 * layout_s / frames;
  state.counters["raster_ms"] = 1e3 * raster_s / frames;
  state.counters["drawn_share"] = drawn_px / frames / (kSize.width_px * kSize.height_px);
  state.counters["vertices"] = viewer.drawn().TotalVtxCount;
}

void register_all() {
  const std::pair<const char*, Bench> benches[] = {
      {"work", Bench::work}, {"teach", Bench::teach}, {"explore", Bench::explore}};
  for (const char* engine : {"inline-six", "w12"})
    for (const auto& [word, bench] : benches)
      for (const bool full : {false, true}) {
        const std::string name =
            "window_frame/" + std::string(word) + "/" + engine + (full ? "/full_change" : "/needle");
        benchmark::RegisterBenchmark(
            name.c_str(),
            [engine, bench = bench, full](benchmark::State& s) { window_frame(s, engine, bench, full); })
            ->UseManualTime()
            ->Unit(benchmark::kMillisecond);
      }
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
  register_all();
  benchmark::Initialize(&argc, argv);
  if (benchmark::ReportUnrecognizedArguments(argc, argv)) return 1;
  benchmark::RunSpecifiedBenchmarks();
  std::printf("peak memory: %.1f MiB, %.1f MiB of it before the first frame\n", peak_mb(), before_mb);
  return 0;
}
