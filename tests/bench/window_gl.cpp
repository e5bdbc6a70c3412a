// The same frames through OpenGL, on a real or virtual screen (xvfb-run -a -s "-screen 0 1600x1000x24"
// window_bench). A frame is all of it, the swap at its end included. Time is processor time of the whole
// process: OpenGL by software draws on several threads. With a graphics card that is not what the eye sees;
// `wall_ms` stands beside it.
#include <SDL.h>
#include <SDL_opengl.h>
#include <benchmark/benchmark.h>
#include <imgui_impl_opengl3.h>

#include <cstdio>

#include "tests/bench/window_scene.hpp"
#include "ui/window/screen/surface.hpp"

namespace shutlane::bench {

void register_gl();

namespace {

/// On the surface of the window that is timed.
class EmptyGl {
 public:
  EmptyGl(SDL_Window* window, bool filling) : layout_(filling), window_(window) {
    ImGui_ImplOpenGL3_Init("#version 130");
    context_ = ImGui::GetCurrentContext();
  }
  ~EmptyGl() {
    ImGui::SetCurrentContext(context_);
    ImGui_ImplOpenGL3_Shutdown();
  }
  void draw() {
    ImGui::SetCurrentContext(context_);
    ImGui_ImplOpenGL3_NewFrame();
    ImDrawData& data = layout_.lay_out();
    glViewport(0, 0, kSize.width_px, kSize.height_px);
    glClearColor(0.1f, 0.1f, 0.1f, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(&data);
    SDL_GL_SwapWindow(window_);
    glFinish();
  }

 private:
  EmptyLayout layout_;
  SDL_Window* window_;
  ImGuiContext* context_ = nullptr;
};

void gl_frame(benchmark::State& state, const SceneSpec& spec) {
  std::unique_ptr<Surface> surface =
      make_gl_surface("window_bench", kSize.width_px, kSize.height_px, /*even_by_software=*/true);
  if (!surface) {
    state.SkipWithError("no OpenGL here");
    return;
  }
  SDL_GL_SetSwapInterval(0);
  const std::string renderer = reinterpret_cast<const char*>(glGetString(GL_RENDERER));
  {
    Scene scene(spec);
    EmptyGl small(surface->window(), false), filling(surface->window(), true);
    int turn = 0;
    auto frame = [&] {
      scene.change(++turn);
      scene.lay_out();
      surface->show(scene.viewer(), scene.background());
      glFinish();  // else its work is counted into the next frame
    };
    for (int n = 0; n < 4; ++n) frame(), small.draw(), filling.draw();
    double ours_s = 0, wall_s = 0, small_s = 0, whole_s = 0;
    for (auto _ : state) {
      double took_s = 0;
      wall_s += seconds_of(CLOCK_MONOTONIC, [&] { took_s = seconds_of(CLOCK_PROCESS_CPUTIME_ID, frame); });
      ours_s += took_s;
      state.SetIterationTime(took_s);
      small_s += seconds_of(CLOCK_PROCESS_CPUTIME_ID, [&] { small.draw(); });
      whole_s += seconds_of(CLOCK_PROCESS_CPUTIME_ID, [&] { filling.draw(); });
    }
    const double frames = static_cast<double>(state.iterations());
    state.SetLabel(renderer);
    scene.lay_out();  // makes its context the current one, for the vertices and the surface's end
    state.counters["over_empty"] = ours_s / small_s;
    state.counters["over_empty_filling"] = ours_s / whole_s;
    state.counters["empty_ms"] = 1e3 * small_s / frames;
    state.counters["wall_ms"] = 1e3 * wall_s / frames;
    state.counters["vertices"] = scene.viewer().drawn().TotalVtxCount;
    surface.reset();
  }
}

}  // namespace

void register_gl() {
  SDL_SetMainReady();
  if (!SDL_getenv("DISPLAY") || SDL_Init(SDL_INIT_VIDEO) != 0) {
    std::fprintf(stderr, "without a display there are no frames through OpenGL\n");
    return;
  }
  for (const SceneSpec& spec : all_scenes())
    benchmark::RegisterBenchmark(("gl_frame/" + spec.name()).c_str(),
                                 [spec](benchmark::State& s) { gl_frame(s, spec); })
        ->UseManualTime()
        ->Unit(benchmark::kMillisecond);
}

}  // namespace shutlane::bench
