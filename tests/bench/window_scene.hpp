#pragma once
// What both renderers are timed on: the window with the needle moved or everything changed, and an empty
// Dear ImGui window beside it.
#include <time.h>

#include <memory>
#include <string>

#include "engines/catalog.hpp"
#include "ui/window/viewer.hpp"

namespace shutlane::bench {

inline constexpr Viewer::Size kSize{1600, 1000, 0};
inline constexpr double kFrame_s = 1.0 / 60;

/// Seconds by one of the system's clocks that the work takes.
template <class Work>
double seconds_of(clockid_t clock, Work work) {
  auto now_s = [clock] {
    timespec t{};
    clock_gettime(clock, &t);
    return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
  };
  const double begun_s = now_s();
  work();
  return now_s() - begun_s;
}

/// A context of its own with an empty window, as Dear ImGui places it or over the whole frame.
class EmptyLayout {
 public:
  explicit EmptyLayout(bool filling) : context_(ImGui::CreateContext()), filling_(filling) {
    ImGui::SetCurrentContext(context_);
    ImGui::GetIO().IniFilename = nullptr;
    ImGui::GetIO().BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
    ImGui::GetStyle().AntiAliasedLinesUseTex = false;  // as in ours
  }
  ~EmptyLayout() { ImGui::DestroyContext(context_); }
  EmptyLayout(const EmptyLayout&) = delete;
  EmptyLayout& operator=(const EmptyLayout&) = delete;

  /// Makes its context the current one.
  ImDrawData& lay_out() {
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
    return *ImGui::GetDrawData();
  }

 private:
  ImGuiContext* context_;
  bool filling_;
};

struct SceneSpec {
  std::string engine;
  Bench bench = Bench::work;
  bool full_change = false;
  std::string name() const {
    const char* word = bench == Bench::work ? "work" : bench == Bench::teach ? "teach" : "explore";
    return std::string(word) + "/" + engine + (full_change ? "/full_change" : "/needle");
  }
};

/// Six bench and engine pairs, each with the needle moved and with everything changed.
inline std::vector<SceneSpec> all_scenes() {
  std::vector<SceneSpec> out;
  for (const char* engine : {"inline-six", "w12"})
    for (const Bench bench : {Bench::work, Bench::teach, Bench::explore})
      for (const bool full : {false, true}) out.push_back({engine, bench, full});
  return out;
}

/// All letters are in the atlas when it is made.
class Scene {
 public:
  explicit Scene(SceneSpec spec)
      : spec_(std::move(spec)),
        session_([] { return 2520.0; }, find_engine),
        documents_{document(false), document(true)} {
    session_.restore(documents_[0]);
    for (int turn = 0; turn < (spec_.full_change ? 2 : kPlaces); ++turn) {
      change(turn);
      viewer_.wake(3);
      for (int n = 0; n < 50 && viewer_.unsettled(); ++n) lay_out();
    }
    fonts_ = viewer_.font_generation();
  }

  void change(int turn) {
    if (spec_.full_change) {
      session_.restore(documents_[turn % 2]);
    } else {
      session_.queue(MoveWhatIf{turn % kPlaces * 360.0 * 2 / kPlaces + 0.5});
      session_.apply();
    }
  }
  void lay_out() { viewer_.frame(session_, kSize, kFrame_s); }
  bool letters_missing() const { return viewer_.font_generation() != fonts_; }
  ImU32 background() const { return viewer_.background(session_); }
  Viewer& viewer() { return viewer_; }
  /// Of one state, however many frames were taken.
  Raster picture() {
    session_.restore(documents_[spec_.full_change ? 1 : 0]);
    session_.queue(MoveWhatIf{123.0});
    session_.apply();
    return settled_picture(viewer_, session_, kSize);
  }

 private:
  static constexpr int kPlaces = 60;  // of the needle

  /// Two jobs on one engine that share no colour and no shut window: every reading and every pixel changes.
  Document document(bool second) const {
    Document d;
    d.engine_name = spec_.engine;
    d.bench = spec_.bench;
    Engine engine = std::get<Engine>(find_engine(spec_.engine));
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

  SceneSpec spec_;
  Session session_;
  Viewer viewer_;
  Document documents_[2];
  int fonts_ = 0;
};

}  // namespace shutlane::bench
