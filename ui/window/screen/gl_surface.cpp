#include <imgui_impl_opengl3.h>

#include <filesystem>
#include <optional>
#include <string>

#include "ui/window/screen/gl_letters.hpp"
#include "ui/window/screen/surface.hpp"

// The few calls beyond Dear ImGui's own backend, from the system's OpenGL library.
#include <SDL_opengl.h>

namespace shutlane {
namespace {

class GlSurface final : public Surface {
 public:
  GlSurface(SDL_Window* window, SDL_GLContext context) : window_(window), context_(context) {}
  ~GlSurface() override {
    letters_.reset();
    if (started_) ImGui_ImplOpenGL3_Shutdown();
    SDL_GL_DeleteContext(context_);
    SDL_DestroyWindow(window_);
  }
  SDL_Window* window() override { return window_; }
  const char* name() const override { return "gl"; }
  void size(int& width, int& height) override { SDL_GL_GetDrawableSize(window_, &width, &height); }

  void show(Viewer& viewer, ImU32 background) override {
    if (!started_) start();
    if (!started_) return;
    if (fonts_ != viewer.font_generation()) {
      fonts_ = viewer.font_generation();
      if (letters_) {
        letters_->take(viewer.atlas());
      } else {
        ImGui_ImplOpenGL3_DestroyFontsTexture();
        ImGui_ImplOpenGL3_CreateFontsTexture();
      }
    }
    int width = 0, height = 0;
    size(width, height);
    glViewport(0, 0, width, height);
    auto part = [background](int shift) { return static_cast<float>((background >> shift) & 255) / 255.0f; };
    glClearColor(part(0), part(8), part(16), 1);
    glClear(GL_COLOR_BUFFER_BIT);
    // The frame was built before the texture had its name.
    ImDrawData* data = ImGui::GetDrawData();
    for (int n = 0; n < data->CmdListsCount; ++n)
      for (ImDrawCmd& command : data->CmdLists[n]->CmdBuffer) command.TextureId = viewer.atlas().TexID;
    ImGui_ImplOpenGL3_RenderDrawData(data);
    SDL_GL_SwapWindow(window_);
  }

 private:
  void start() {
    started_ = ImGui_ImplOpenGL3_Init("#version 130");
    if (!started_) return;
    if (GlLetters::can()) letters_.emplace();
    if (letters_)
      GlLetters::start_backend();
    else
      ImGui_ImplOpenGL3_NewFrame();  // makes all it needs on its first call
  }

  SDL_Window* window_;
  SDL_GLContext context_;
  std::optional<GlLetters> letters_;
  bool started_ = false;
  int fonts_ = -1;
};

/// Where there is none, OpenGL runs by software; only to load it and hear so takes longer than a first frame.
bool a_gpu_is_there() {
  std::error_code unreadable;
  for (const char* place : {"/dev/dri", "/dev/nvidiactl", "/dev/dxg"})
    if (std::filesystem::exists(place, unreadable)) return true;
  return false;
}

/// OpenGL by software is slower than our own rasteriser.
bool by_software() {
  const GLubyte* renderer = glGetString(GL_RENDERER);
  if (!renderer) return true;
  const std::string name(reinterpret_cast<const char*>(renderer));
  return name.find("llvmpipe") != std::string::npos || name.find("softpipe") != std::string::npos ||
         name.find("swrast") != std::string::npos;
}

}  // namespace

std::unique_ptr<Surface> make_gl_surface(const char* title, int width, int height, bool even_by_software) {
  if (!even_by_software && !a_gpu_is_there()) return nullptr;
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_PROFILE_MASK, SDL_GL_CONTEXT_PROFILE_CORE);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
  SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 0);
  SDL_GL_SetAttribute(SDL_GL_DOUBLEBUFFER, 1);
  SDL_Window* window = SDL_CreateWindow(
      title, SDL_WINDOWPOS_UNDEFINED, SDL_WINDOWPOS_UNDEFINED, width, height,
      SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI | SDL_WINDOW_HIDDEN);
  if (!window) return nullptr;
  SDL_GLContext context = SDL_GL_CreateContext(window);
  if (!context || SDL_GL_MakeCurrent(window, context) != 0 || (by_software() && !even_by_software)) {
    if (context) SDL_GL_DeleteContext(context);
    SDL_DestroyWindow(window);
    return nullptr;
  }
  SDL_GL_SetSwapInterval(1);
  SDL_ShowWindow(window);
  return std::make_unique<GlSurface>(window, context);
}

}  // namespace shutlane
