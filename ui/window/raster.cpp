#include "ui/window/raster.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace shutlane {
namespace {

struct Shade {
  std::uint32_t r, g, b, a;
};

Shade shade_of(ImU32 c) { return {c & 255, (c >> 8) & 255, (c >> 16) & 255, c >> 24}; }

std::uint32_t opaque(Shade s) { return 0xff000000u | (s.b << 16) | (s.g << 8) | s.r; }

void blend(std::uint32_t& under, Shade s) {
  if (s.a == 0) return;
  if (s.a >= 255) {
    under = opaque(s);
    return;
  }
  auto mix = [a = s.a](std::uint32_t over, std::uint32_t below) {
    const std::uint32_t v = over * a + below * (255 - a) + 128;  // divided by 255, rounded
    return (v + (v >> 8)) >> 8;
  };
  const Shade u = shade_of(under);
  under = opaque({mix(s.r, u.r), mix(s.g, u.g), mix(s.b, u.b), 255});
}

void fill_span(std::uint32_t* row, int x0, int x1, Shade s) {
  if (s.a >= 255)
    std::fill(row + x0, row + x1, opaque(s));
  else
    for (int x = x0; x < x1; ++x) blend(row[x], s);
}

/// The first pixel whose middle lies at or after the edge.
int first_pixel(float edge) { return static_cast<int>(std::ceil(edge - 0.5f)); }

/// A value that changes evenly over the triangle.
struct Slope {
  float at = 0, per_x = 0, per_y = 0;
  float value(float dx, float dy) const { return at + per_x * dx + per_y * dy; }
};

float edge_x(const ImDrawVert& a, const ImDrawVert& b, float y) {
  const float dy = b.pos.y - a.pos.y;
  return dy <= 0 ? a.pos.x : a.pos.x + (b.pos.x - a.pos.x) * (y - a.pos.y) / dy;
}

bool same_uv(const ImDrawVert& a, const ImDrawVert& b) { return a.uv.x == b.uv.x && a.uv.y == b.uv.y; }

}  // namespace

void Raster::resize(int width, int height) {
  width_ = std::max(1, width);
  height_ = std::max(1, height);
  pixels_.assign(static_cast<size_t>(width_) * static_cast<size_t>(height_), 0xff000000u);
}

void Raster::use_fonts(ImFontAtlas& atlas) {
  unsigned char* bytes = nullptr;
  atlas.GetTexDataAsAlpha8(&bytes, &texture_width_, &texture_height_);
  texture_ = bytes;
}

/// Bilinear: glyphs are held at twice their width and come out half as wide.
float Raster::texel(float u, float v) const {
  const int u0 = std::clamp(static_cast<int>(std::floor(u)), 0, texture_width_ - 2);
  const int v0 = std::clamp(static_cast<int>(std::floor(v)), 0, texture_height_ - 2);
  const float fu = std::clamp(u - static_cast<float>(u0), 0.0f, 1.0f);
  const float fv = std::clamp(v - static_cast<float>(v0), 0.0f, 1.0f);
  const unsigned char* t = texture_ + static_cast<ptrdiff_t>(v0) * texture_width_ + u0;
  const unsigned char* below = t + texture_width_;
  const float upper = static_cast<float>(t[0]) + (static_cast<float>(t[1]) - static_cast<float>(t[0])) * fu;
  const float lower =
      static_cast<float>(below[0]) + (static_cast<float>(below[1]) - static_cast<float>(below[0])) * fu;
  return upper + (lower - upper) * fv;
}

/// Two triangles that make an upright rectangle of one colour, as text and boxes come: a b c, a c d.
bool Raster::draw_rectangle(const ImDrawVert* v, const ImDrawIdx* i) {
  if (i[3] != i[0] || i[4] != i[2]) return false;
  const ImDrawVert &a = v[i[0]], &b = v[i[1]], &c = v[i[2]], &d = v[i[5]];
  const bool upright = a.pos.y == b.pos.y && b.pos.x == c.pos.x && c.pos.y == d.pos.y && d.pos.x == a.pos.x;
  const bool even = a.uv.y == b.uv.y && b.uv.x == c.uv.x && c.uv.y == d.uv.y && d.uv.x == a.uv.x;
  const bool plain = a.col == b.col && a.col == c.col && a.col == d.col;
  if (!upright || !even || !plain || c.pos.x < a.pos.x || c.pos.y < a.pos.y) return false;

  const int x0 = std::max(clip_.x0, first_pixel(a.pos.x)), x1 = std::min(clip_.x1, first_pixel(c.pos.x));
  const int y0 = std::max(clip_.y0, first_pixel(a.pos.y)), y1 = std::min(clip_.y1, first_pixel(c.pos.y));
  if (x0 >= x1 || y0 >= y1) return true;
  const Shade s = shade_of(a.col);
  if (same_uv(a, c)) {
    for (int y = y0; y < y1; ++y) fill_span(row(y), x0, x1, s);
    return true;
  }
  const float tw = static_cast<float>(texture_width_), th = static_cast<float>(texture_height_);
  const float du = (c.uv.x - a.uv.x) * tw / (c.pos.x - a.pos.x),
              dv = (c.uv.y - a.uv.y) * th / (c.pos.y - a.pos.y);
  for (int y = y0; y < y1; ++y) {
    std::uint32_t* line = row(y);
    const float tv = a.uv.y * th + (static_cast<float>(y) + 0.5f - a.pos.y) * dv - 0.5f;
    for (int x = x0; x < x1; ++x) {
      const float tu = a.uv.x * tw + (static_cast<float>(x) + 0.5f - a.pos.x) * du - 0.5f;
      const float alpha = texel(tu, tv) * static_cast<float>(s.a) / 255.0f;
      blend(line[x], {s.r, s.g, s.b, static_cast<std::uint32_t>(alpha + 0.5f)});
    }
  }
  return true;
}

void Raster::draw_triangle(const ImDrawVert& p, const ImDrawVert& q, const ImDrawVert& r) {
  const float area = (q.pos.x - p.pos.x) * (r.pos.y - p.pos.y) - (q.pos.y - p.pos.y) * (r.pos.x - p.pos.x);
  if (!(std::fabs(area) > 1e-6f)) return;
  std::array<const ImDrawVert*, 3> v{&p, &q, &r};
  std::sort(v.begin(), v.end(), [](const ImDrawVert* a, const ImDrawVert* b) { return a->pos.y < b->pos.y; });
  const int y0 = std::max(clip_.y0, first_pixel(v[0]->pos.y)),
            y1 = std::min(clip_.y1, first_pixel(v[2]->pos.y));
  if (y0 >= y1) return;

  auto slope = [&](float at_p, float at_q, float at_r) {
    return Slope{at_p, ((at_q - at_p) * (r.pos.y - p.pos.y) - (at_r - at_p) * (q.pos.y - p.pos.y)) / area,
                 ((at_r - at_p) * (q.pos.x - p.pos.x) - (at_q - at_p) * (r.pos.x - p.pos.x)) / area};
  };
  const bool plain = p.col == q.col && p.col == r.col;
  const bool untextured = same_uv(p, q) && same_uv(p, r);
  std::array<Slope, 4> channel;
  for (size_t k = 0; k < 4; ++k) {
    auto part = [k](ImU32 c) { return static_cast<float>((c >> (8 * k)) & 255); };
    channel[k] = plain ? Slope{part(p.col), 0, 0} : slope(part(p.col), part(q.col), part(r.col));
  }
  const float tw = static_cast<float>(texture_width_), th = static_cast<float>(texture_height_);
  const Slope u = slope(p.uv.x * tw, q.uv.x * tw, r.uv.x * tw),
              w = slope(p.uv.y * th, q.uv.y * th, r.uv.y * th);

  for (int y = y0; y < y1; ++y) {
    const float middle = static_cast<float>(y) + 0.5f;
    float left = edge_x(*v[0], *v[2], middle);
    float right = middle < v[1]->pos.y ? edge_x(*v[0], *v[1], middle) : edge_x(*v[1], *v[2], middle);
    if (left > right) std::swap(left, right);
    const int x0 = std::max(clip_.x0, first_pixel(left)), x1 = std::min(clip_.x1, first_pixel(right));
    if (x0 >= x1) continue;
    if (plain && untextured) {
      fill_span(row(y), x0, x1, shade_of(p.col));
      continue;
    }
    std::uint32_t* line = row(y);
    const float dy = middle - p.pos.y;
    for (int x = x0; x < x1; ++x) {
      const float dx = static_cast<float>(x) + 0.5f - p.pos.x;
      auto whole = [&](size_t k) {
        return static_cast<std::uint32_t>(std::clamp(channel[k].value(dx, dy), 0.0f, 255.0f) + 0.5f);
      };
      float alpha = std::clamp(channel[3].value(dx, dy), 0.0f, 255.0f);
      if (!untextured) alpha *= texel(u.value(dx, dy) - 0.5f, w.value(dx, dy) - 0.5f) / 255.0f;
      blend(line[x], {whole(0), whole(1), whole(2), static_cast<std::uint32_t>(alpha + 0.5f)});
    }
  }
}

void Raster::draw(const ImDrawData& data, ImU32 background) {
  std::fill(pixels_.begin(), pixels_.end(), background | 0xff000000u);
  for (int n = 0; n < data.CmdListsCount; ++n) {
    const ImDrawList& list = *data.CmdLists[n];
    for (const ImDrawCmd& command : list.CmdBuffer) {
      if (command.UserCallback) continue;
      clip_ = {std::max(0, static_cast<int>(command.ClipRect.x)),
               std::max(0, static_cast<int>(command.ClipRect.y)),
               std::min(width_, static_cast<int>(command.ClipRect.z)),
               std::min(height_, static_cast<int>(command.ClipRect.w))};
      if (clip_.x0 >= clip_.x1 || clip_.y0 >= clip_.y1) continue;
      const ImDrawVert* v = list.VtxBuffer.Data + command.VtxOffset;
      const ImDrawIdx* i = list.IdxBuffer.Data + command.IdxOffset;
      for (unsigned k = 0; k + 2 < command.ElemCount;) {
        if (k + 5 < command.ElemCount && draw_rectangle(v, i + k)) {
          k += 6;
          continue;
        }
        draw_triangle(v[i[k]], v[i[k + 1]], v[i[k + 2]]);
        k += 3;
      }
    }
  }
}

}  // namespace shutlane
