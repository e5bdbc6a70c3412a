#include "ui/window/raster_fill.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "ui/window/raster_blend.hpp"

namespace shutlane {
namespace {

bool same_uv(const ImDrawVert& a, const ImDrawVert& b) { return a.uv.x == b.uv.x && a.uv.y == b.uv.y; }

/// A value that changes evenly over the triangle.
struct Slope {
  float at = 0, per_x = 0, per_y = 0;
  float value(float dx, float dy) const { return at + per_x * dx + per_y * dy; }
};

/// An edge of a triangle from its upper end to its lower one.
struct Edge {
  float x, y, width, height;
  Edge(const ImDrawVert& a, const ImDrawVert& b)
      : x(a.pos.x), y(a.pos.y), width(b.pos.x - a.pos.x), height(b.pos.y - a.pos.y) {
    if (height <= 0) width = 0, height = 1;
  }
  float at(float row_middle) const { return x + width * (row_middle - y) / height; }
};

/// The triangle's rows inside the clip, each as row(y, x0, x1).
template <class Row>
void each_row(std::array<const ImDrawVert*, 3> v, const PixelBox& clip, Row row) {
  auto in_order = [](const ImDrawVert*& upper, const ImDrawVert*& lower) {  // without a jump
    const ImDrawVert *a = upper, *b = lower;
    const bool turn = b->pos.y < a->pos.y;
    upper = turn ? b : a;
    lower = turn ? a : b;
  };
  in_order(v[0], v[1]), in_order(v[1], v[2]), in_order(v[0], v[1]);
  const int y0 = std::max(clip.y0, first_pixel(v[0]->pos.y)),
            y1 = std::min(clip.y1, first_pixel(v[2]->pos.y)),
            bend = std::clamp(first_pixel(v[1]->pos.y), y0, std::max(y0, y1));
  const Edge whole(*v[0], *v[2]);
  auto rows = [&](int from, int to, const Edge& other) {
    for (int y = from; y < to; ++y) {
      const float middle = static_cast<float>(y) + 0.5f;
      const float a = whole.at(middle), b = other.at(middle);
      const int x0 = std::max(clip.x0, first_pixel(std::min(a, b)));
      const int x1 = std::min(clip.x1, first_pixel(std::max(a, b)));
      if (x0 < x1) row(y, x0, x1);
    }
  };
  rows(y0, bend, Edge(*v[0], *v[1]));
  rows(bend, y1, Edge(*v[1], *v[2]));
}

std::uint32_t to_byte(float value) {
  return static_cast<std::uint32_t>(std::clamp(value, 0.0f, 255.0f) + 0.5f);
}

}  // namespace

/// Bilinear: glyphs are held at twice their width and come out half as wide.
float Filler::texel(float u, float v) const {
  const int u0 = std::clamp(static_cast<int>(std::floor(u)), 0, texture_width - 2);
  const int v0 = std::clamp(static_cast<int>(std::floor(v)), 0, texture_height - 2);
  const float fu = std::clamp(u - static_cast<float>(u0), 0.0f, 1.0f);
  const float fv = std::clamp(v - static_cast<float>(v0), 0.0f, 1.0f);
  const unsigned char* t = texture + static_cast<ptrdiff_t>(v0) * texture_width + u0;
  const unsigned char* below = t + texture_width;
  const float upper = static_cast<float>(t[0]) + (static_cast<float>(t[1]) - static_cast<float>(t[0])) * fu;
  const float lower =
      static_cast<float>(below[0]) + (static_cast<float>(below[1]) - static_cast<float>(below[0])) * fu;
  return upper + (lower - upper) * fv;
}

void Filler::glyph(const ImDrawVert& a, const ImDrawVert& c, const PixelBox& box) const {
  const float tw = static_cast<float>(texture_width), th = static_cast<float>(texture_height);
  const float du = (c.uv.x - a.uv.x) * tw / (c.pos.x - a.pos.x),
              dv = (c.uv.y - a.uv.y) * th / (c.pos.y - a.pos.y);
  const float alpha = static_cast<float>(a.col >> 24);
  // Columns are the same in every row: where each lies in the texture is reckoned once.
  constexpr int kColumns = 64;
  std::array<int, kColumns> column;
  std::array<float, kColumns> share;
  for (int left = box.x0; left < box.x1; left += kColumns) {
    const int count = std::min(kColumns, box.x1 - left);
    for (int k = 0; k < count; ++k) {
      const float u = a.uv.x * tw + (static_cast<float>(left + k) + 0.5f - a.pos.x) * du - 0.5f;
      const auto n = static_cast<size_t>(k);
      column[n] = std::clamp(static_cast<int>(std::floor(u)), 0, texture_width - 2);
      share[n] = std::clamp(u - static_cast<float>(column[n]), 0.0f, 1.0f);
    }
    for (int y = box.y0; y < box.y1; ++y) {
      const float v = a.uv.y * th + (static_cast<float>(y) + 0.5f - a.pos.y) * dv - 0.5f;
      const int v0 = std::clamp(static_cast<int>(std::floor(v)), 0, texture_height - 2);
      const float fv = std::clamp(v - static_cast<float>(v0), 0.0f, 1.0f);
      const unsigned char* upper_row = texture + static_cast<ptrdiff_t>(v0) * texture_width;
      const unsigned char* lower_row = upper_row + texture_width;
      std::uint32_t* out = row(y) + left;
      for (int k = 0; k < count; ++k) {
        const auto n = static_cast<size_t>(k);
        const unsigned char *t = upper_row + column[n], *below = lower_row + column[n];
        if ((t[0] | t[1] | below[0] | below[1]) == 0) continue;
        const float t0 = static_cast<float>(t[0]), b0 = static_cast<float>(below[0]);
        const float upper = t0 + (static_cast<float>(t[1]) - t0) * share[n];
        const float lower = b0 + (static_cast<float>(below[1]) - b0) * share[n];
        const float shown = (upper + (lower - upper) * fv) * alpha / 255.0f;
        blend(out[k], a.col, static_cast<std::uint32_t>(shown + 0.5f));
      }
    }
  }
}

void Filler::rectangle(const ImDrawVert* v, const ImDrawIdx* i) const {
  const ImDrawVert &a = v[i[0]], &c = v[i[2]];
  const PixelBox box = common(clip, box_of(a.pos, c.pos));
  if (box.empty()) return;
  if (!same_uv(a, c)) return glyph(a, c, box);
  for (int y = box.y0; y < box.y1; ++y) blend_span(row(y) + box.x0, row(y) + box.x1, a.col);
}

void Filler::triangle(const ImDrawVert& p, const ImDrawVert& q, const ImDrawVert& r) const {
  if (is_flat(p, q, r)) return;
  const bool untextured = same_uv(p, q) && same_uv(p, r);
  if (untextured && p.col == q.col && p.col == r.col) {
    each_row({&p, &q, &r}, clip, [&](int y, int x0, int x1) { blend_span(row(y) + x0, row(y) + x1, p.col); });
    return;
  }
  const float area = area_of(p, q, r);
  auto slope = [&](float at_p, float at_q, float at_r) {
    return Slope{at_p, ((at_q - at_p) * (r.pos.y - p.pos.y) - (at_r - at_p) * (q.pos.y - p.pos.y)) / area,
                 ((at_r - at_p) * (q.pos.x - p.pos.x) - (at_q - at_p) * (r.pos.x - p.pos.x)) / area};
  };
  auto channel = [&](int shift) {
    auto part = [shift](ImU32 c) { return static_cast<float>((c >> shift) & 255); };
    return slope(part(p.col), part(q.col), part(r.col));
  };
  const Slope alpha = channel(24);
  const bool one_colour = ((p.col ^ q.col) | (p.col ^ r.col)) << 8 == 0;
  if (untextured && one_colour) {  // the soft edge of a line or a shape
    each_row({&p, &q, &r}, clip, [&](int y, int x0, int x1) {
      const float dy = static_cast<float>(y) + 0.5f - p.pos.y;
      std::uint32_t* line = row(y);
      for (int x = x0; x < x1; ++x)
        line[x] = blended(line[x], p.col, to_byte(alpha.value(static_cast<float>(x) + 0.5f - p.pos.x, dy)));
    });
    return;
  }
  const Slope red = channel(0), green = channel(8), blue = channel(16);
  const float tw = static_cast<float>(texture_width), th = static_cast<float>(texture_height);
  const Slope u = slope(p.uv.x * tw, q.uv.x * tw, r.uv.x * tw),
              w = slope(p.uv.y * th, q.uv.y * th, r.uv.y * th);
  each_row({&p, &q, &r}, clip, [&](int y, int x0, int x1) {
    const float dy = static_cast<float>(y) + 0.5f - p.pos.y;
    std::uint32_t* line = row(y);
    for (int x = x0; x < x1; ++x) {
      const float dx = static_cast<float>(x) + 0.5f - p.pos.x;
      float shown = std::clamp(alpha.value(dx, dy), 0.0f, 255.0f);
      if (!untextured) shown *= texel(u.value(dx, dy) - 0.5f, w.value(dx, dy) - 0.5f) / 255.0f;
      const std::uint32_t colour = to_byte(red.value(dx, dy)) | (to_byte(green.value(dx, dy)) << 8) |
                                   (to_byte(blue.value(dx, dy)) << 16);
      blend(line[x], colour, static_cast<std::uint32_t>(shown + 0.5f));
    }
  });
}

}  // namespace shutlane
