// A frame of the window through the CPU rasteriser against a frame of an empty Dear ImGui window through the
// same rasteriser, taken in turn in the same run (aim: 2x when only the needle moved, 4x else). A frame is:
// the commands applied, the widgets laid out, the triangles filled; what the display does with it is not in
// it.
#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include <chrono>
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

  void frame() {
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
    raster_.draw(*ImGui::GetDrawData(), IM_COL32(20, 20, 20, 255));
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

using Clock = std::chrono::steady_clock;
double seconds_since(Clock::time_point begun) {
  return std::chrono::duration<double>(Clock::now() - begun).count();
}

void window_frame(benchmark::State& state, const std::string& engine, Bench bench, bool full_change) {
  EmptyWindow small(false), filling(true);
  Session session([] { return 2520.0; }, find_engine);
  Viewer viewer;
  const Document documents[] = {document(engine, bench, false), document(engine, bench, true)};
  for (const int i : {1, 0}) {  // letters of both are in the atlas before the clock starts
    session.restore(documents[i]);
    settled_picture(viewer, session, kSize);
  }
  small.frame(), filling.frame();
  viewer.frame(session, kSize, kFrame_s);
  Raster raster;
  raster.resize(kSize.width_px, kSize.height_px);
  raster.use_fonts(viewer.atlas());
  const int fonts = viewer.font_generation();

  double ours_s = 0, raster_s = 0, small_s = 0, whole_s = 0;
  int turn = 0;
  for (auto _ : state) {
    ++turn;
    const auto begun = Clock::now();
    if (full_change) {
      session.restore(documents[turn % 2]);
    } else {
      session.queue(MoveWhatIf{turn * 7 % 720 + 0.5});
      session.apply();
    }
    viewer.frame(session, kSize, kFrame_s);
    const auto laid_out = Clock::now();
    raster.draw(viewer.drawn(), viewer.background(session));
    benchmark::DoNotOptimize(raster.pixels());
    raster_s += seconds_since(laid_out);
    const double took_s = seconds_since(begun);
    ours_s += took_s;
    state.SetIterationTime(took_s);
    if (viewer.font_generation() != fonts) {
      state.SkipWithError("a font size was missing in the middle of the run");
      break;
    }
    const auto then = Clock::now();
    small.frame();
    small_s += seconds_since(then);
    const auto after = Clock::now();
    filling.frame();
    whole_s += seconds_since(after);
  }
  // The picture is of one state, however many frames were taken.
  session.restore(documents[full_change ? 1 : 0]);
  session.queue(MoveWhatIf{123.0});
  session.apply();
  state.SetLabel(hash_of(settled_picture(viewer, session, kSize)));
  const double frames = static_cast<double>(state.iterations());
  state.counters["over_empty"] = ours_s / small_s;
  state.counters["over_empty_filling"] = ours_s / whole_s;
  state.counters["empty_ms"] = 1e3 * small_s / frames;
  state.counters["raster_ms"] = 1e3 * raster_s / frames;
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
