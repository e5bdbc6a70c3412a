#pragma once
// Keeps a picture of the window up to date by tiles and compares it with the same frame drawn whole.
#include "ui/window/viewer.hpp"

namespace shutlane {

/// Index of the first pixel that differs; -1: none.
inline long first_difference(const Raster& a, const Raster& b) {
  const long count = static_cast<long>(a.width()) * a.height();
  for (long i = 0; i < count; ++i)
    if (a.pixels()[i] != b.pixels()[i]) return i;
  return -1;
}

class TileWatch {
 public:
  long first_difference(const Viewer& viewer, const Session& session) {
    const ImVec2 size = viewer.drawn().DisplaySize;
    const int width = static_cast<int>(size.x), height = static_cast<int>(size.y);
    if (kept_.width() != width || kept_.height() != height)
      kept_.resize(width, height), whole_.resize(width, height);
    if (fonts_ != viewer.font_generation()) {
      fonts_ = viewer.font_generation();
      kept_.use_fonts(viewer.atlas()), whole_.use_fonts(viewer.atlas());
    }
    kept_.update(viewer.drawn(), viewer.background(session));
    whole_.draw(viewer.drawn(), viewer.background(session));
    return shutlane::first_difference(kept_, whole_);
  }

 private:
  Raster kept_, whole_;
  int fonts_ = -1;
};

}  // namespace shutlane
