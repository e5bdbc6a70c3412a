#pragma once
// What a frame is shown on: OpenGL where it works, the window's own memory otherwise.
#include <SDL.h>

#include <memory>

#include "ui/window/viewer.hpp"

namespace shutlane {

class Surface {
 public:
  virtual ~Surface() = default;
  virtual SDL_Window* window() = 0;
  virtual const char* name() const = 0;
  /// The size of a frame in pixels.
  virtual void size(int& width, int& height) = 0;
  virtual void show(Viewer& viewer, ImU32 background) = 0;
  /// The screen may have lost what was shown: the next show() puts all of it there.
  virtual void exposed() {}
};

/// Null where it does not work, and where it would be done by software unless that is wanted too.
std::unique_ptr<Surface> make_gl_surface(const char* title, int width, int height, bool even_by_software);
std::unique_ptr<Surface> make_cpu_surface(const char* title, int width, int height);  ///< null: no display

}  // namespace shutlane
