#include <vector>

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
    if (raster_.width() != width || raster_.height() != height) {
      raster_.resize(width, height);
      whole_ = true;
    }
    if (fonts_ != viewer.font_generation()) {
      raster_.use_fonts(viewer.atlas());
      fonts_ = viewer.font_generation();
    }
    const std::vector<PixelBox>& parts = raster_.update(viewer.drawn(), background);
    rectangles_.clear();
    if (whole_)
      rectangles_.push_back({0, 0, width, height});
    else
      for (const PixelBox& p : parts) rectangles_.push_back({p.x0, p.y0, p.x1 - p.x0, p.y1 - p.y0});
    if (!rectangles_.empty()) put_on(screen);
  }
  void exposed() override { whole_ = true; }

 private:
  void put_on(SDL_Surface* screen) {
    SDL_Surface* frame =
        SDL_CreateRGBSurfaceWithFormatFrom(const_cast<std::uint32_t*>(raster_.pixels()), raster_.width(),
                                           raster_.height(), 32, raster_.width() * 4, SDL_PIXELFORMAT_RGBA32);
    if (!frame) return;
    SDL_SetSurfaceBlendMode(frame, SDL_BLENDMODE_NONE);
    for (const SDL_Rect& from : rectangles_) {
      SDL_Rect to = from;  // it is written to
      SDL_BlitSurface(frame, &from, screen, &to);
    }
    SDL_FreeSurface(frame);
    whole_ =
        SDL_UpdateWindowSurfaceRects(window_, rectangles_.data(), static_cast<int>(rectangles_.size())) != 0;
  }

  SDL_Window* window_;
  Raster raster_;
  std::vector<SDL_Rect> rectangles_;
  int fonts_ = -1;
  bool whole_ = true;  ///< nothing of the frame before is on the screen
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
