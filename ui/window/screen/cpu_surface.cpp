#include "ui/window/screen/surface.hpp"

namespace shutlane {
namespace {

class CpuSurface final : public Surface {
 public:
  explicit CpuSurface(SDL_Window* window) : window_(window) {}
  ~CpuSurface() override { SDL_DestroyWindow(window_); }
  SDL_Window* window() override { return window_; }
  const char* name() const override { return "cpu"; }
  void size(int& width, int& height) override { SDL_GetWindowSize(window_, &width, &height); }

  void show(Viewer& viewer, ImU32 background) override {
    int width = 0, height = 0;
    size(width, height);
    SDL_Surface* screen = SDL_GetWindowSurface(window_);  // anew after every change of size
    if (!screen) return;
    if (raster_.width() != width || raster_.height() != height) raster_.resize(width, height);
    if (fonts_ != viewer.font_generation()) {
      raster_.use_fonts(viewer.atlas());
      fonts_ = viewer.font_generation();
    }
    raster_.draw(viewer.drawn(), background);
    SDL_Surface* frame = SDL_CreateRGBSurfaceWithFormatFrom(
        const_cast<std::uint32_t*>(raster_.pixels()), width, height, 32, width * 4, SDL_PIXELFORMAT_RGBA32);
    if (!frame) return;
    SDL_SetSurfaceBlendMode(frame, SDL_BLENDMODE_NONE);
    SDL_BlitSurface(frame, nullptr, screen, nullptr);
    SDL_FreeSurface(frame);
    SDL_UpdateWindowSurface(window_);
  }

 private:
  SDL_Window* window_;
  Raster raster_;
  int fonts_ = -1;
};

}  // namespace

std::unique_ptr<Surface> make_cpu_surface(const char* title, int width, int height) {
  // Otherwise SDL takes the picture through OpenGL, which is slower than our own where there is no graphics
  // card.
  SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, "0");
  SDL_Window* window = SDL_CreateWindow(title, SDL_WINDOWPOS_UNDEFINED, SDL_WINDOWPOS_UNDEFINED, width,
                                        height, SDL_WINDOW_RESIZABLE);
  if (!window) return nullptr;
  return std::make_unique<CpuSurface>(window);
}

}  // namespace shutlane
