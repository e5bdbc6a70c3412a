#pragma once
// Draws Dear ImGui's triangles into memory: for pictures, for tests and for a window where OpenGL does not
// work. Deterministic: the same frame gives the same bytes with every compiler and build kind.
#include <imgui.h>

#include <cstdint>
#include <vector>

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
  void draw(const ImDrawData& data, ImU32 background);

 private:
  struct Clip {
    int x0, y0, x1, y1;
  };
  bool draw_rectangle(const ImDrawVert* vertices, const ImDrawIdx* indices);
  void draw_triangle(const ImDrawVert& a, const ImDrawVert& b, const ImDrawVert& c);
  float texel(float u, float v) const;
  std::uint32_t* row(int y) { return pixels_.data() + static_cast<size_t>(y) * static_cast<size_t>(width_); }

  int width_ = 0, height_ = 0;
  std::vector<std::uint32_t> pixels_;
  const unsigned char* texture_ = nullptr;
  int texture_width_ = 0, texture_height_ = 0;
  Clip clip_{};
};

}  // namespace shutlane
