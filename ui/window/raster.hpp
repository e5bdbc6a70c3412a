#pragma once
// Draws Dear ImGui's triangles into memory: for pictures, for tests and for a window where OpenGL does not
// work. Deterministic: the same frame gives the same bytes with every compiler and build kind.
#include <imgui.h>

#include <cstdint>
#include <vector>

#include "ui/window/raster_tiles.hpp"

namespace shutlane {

class Raster {
 public:
  void resize(int width, int height);
  int width() const { return width_; }
  int height() const { return height_; }
  const std::uint32_t* pixels() const {
    return pixels_.data();
  }  ///< R, G, B, A bytes, row by row, always opaque

  /// Uses the atlas's alpha texture; call again whenever the atlas is rebuilt.
  void use_fonts(ImFontAtlas& atlas);
  /// Draws the whole frame anew.
  void draw(const ImDrawData& data, ImU32 background);
  /// Draws what differs from the frame before; the picture is the same as draw()'s. Gives the parts drawn,
  /// valid until the next call.
  const std::vector<PixelBox>& update(const ImDrawData& data, ImU32 background);

 private:
  Filler filler();

  int width_ = 0, height_ = 0;
  std::vector<std::uint32_t> pixels_;
  const unsigned char* texture_ = nullptr;
  int texture_width_ = 0, texture_height_ = 0;
  std::uint64_t textures_ = 0;  ///< how many there have been
  RasterTiles tiles_;
};

}  // namespace shutlane
