#pragma once
// Fills the triangles and upright rectangles of Dear ImGui's lists inside a clip. What a pixel becomes does
// not hang on where the clip's edges lie, so a picture drawn in parts is the picture drawn at once, bit for
// bit.
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace shutlane {

/// Whole pixels, the far edges not included.
struct PixelBox {
  int x0, y0, x1, y1;
  bool empty() const { return x0 >= x1 || y0 >= y1; }
};

inline PixelBox common(const PixelBox& a, const PixelBox& b) {
  return {std::max(a.x0, b.x0), std::max(a.y0, b.y0), std::min(a.x1, b.x1), std::min(a.y1, b.y1)};
}

/// The first pixel whose middle lies at or after the edge: a ceil(), which would be a call where the
/// processor's rounding instruction is not taken for granted.
inline int first_pixel(float edge) {
  const float shifted = edge - 0.5f;
  const int whole = static_cast<int>(shifted);
  return whole + (static_cast<float>(whole) < shifted ? 1 : 0);
}

/// The pixels whose middles lie between two corners.
inline PixelBox box_of(ImVec2 a, ImVec2 c) {
  return {first_pixel(a.x), first_pixel(a.y), first_pixel(c.x), first_pixel(c.y)};
}

/// What a command may draw on, inside the picture.
inline PixelBox clip_of(const ImDrawCmd& command, int width, int height) {
  const ImVec4& c = command.ClipRect;
  return common({0, 0, width, height},
                {static_cast<int>(c.x), static_cast<int>(c.y), static_cast<int>(c.z), static_cast<int>(c.w)});
}

/// Two triangles that make an upright rectangle of one colour, as text and boxes come: a b c, a c d.
inline bool is_rectangle(const ImDrawVert* v, const ImDrawIdx* i) {
  if (i[3] != i[0] || i[4] != i[2]) return false;
  const ImDrawVert &a = v[i[0]], &b = v[i[1]], &c = v[i[2]], &d = v[i[5]];
  const bool upright = a.pos.y == b.pos.y && b.pos.x == c.pos.x && c.pos.y == d.pos.y && d.pos.x == a.pos.x;
  const bool even = a.uv.y == b.uv.y && b.uv.x == c.uv.x && c.uv.y == d.uv.y && d.uv.x == a.uv.x;
  const bool plain = a.col == b.col && a.col == c.col && a.col == d.col;
  return upright && even && plain && !(c.pos.x < a.pos.x || c.pos.y < a.pos.y);
}

/// Calls shape(indices, rectangle) for each triangle (three indices) and each rectangle (six), in drawing
/// order.
template <class Shape>
void each_shape(const ImDrawVert* vertices, const ImDrawIdx* indices, unsigned count, Shape shape) {
  for (unsigned k = 0; k + 2 < count;) {
    const bool rectangle = k + 5 < count && is_rectangle(vertices, indices + k);
    shape(indices + k, rectangle);
    k += rectangle ? 6 : 3;
  }
}

/// Twice the triangle's area, with a sign.
inline float area_of(const ImDrawVert& p, const ImDrawVert& q, const ImDrawVert& r) {
  return (q.pos.x - p.pos.x) * (r.pos.y - p.pos.y) - (q.pos.y - p.pos.y) * (r.pos.x - p.pos.x);
}

/// True of triangles so thin that nothing is filled.
inline bool is_flat(const ImDrawVert& p, const ImDrawVert& q, const ImDrawVert& r) {
  return !(std::fabs(area_of(p, q, r)) > 1e-6f);
}

class Filler {
 public:
  std::uint32_t* pixels = nullptr;
  int stride = 0;  ///< pixels from one row to the next
  const unsigned char* texture = nullptr;
  int texture_width = 0, texture_height = 0;
  PixelBox clip{};

  void rectangle(const ImDrawVert* vertices, const ImDrawIdx* six_indices) const;
  void triangle(const ImDrawVert& a, const ImDrawVert& b, const ImDrawVert& c) const;

 private:
  void glyph(const ImDrawVert& a, const ImDrawVert& c, const PixelBox& box) const;
  float texel(float u, float v) const;
  std::uint32_t* row(int y) const { return pixels + static_cast<ptrdiff_t>(y) * stride; }
};

}  // namespace shutlane
