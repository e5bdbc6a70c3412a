#include "ui/window/screen_canvas.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "ui/drawings/text.hpp"
#include "ui/window/concave_fill.hpp"

namespace shutlane {
namespace {

constexpr size_t kMostPoints = 8000;  // one polyline's indices are 16 bits wide

ImVec2 f(double x, double y) { return {static_cast<float>(x), static_cast<float>(y)}; }

/// Dear ImGui 1.86 divides by zero on arcs of less than a millionth of a pixel, of which it makes the corners
/// of a box of nearly two pixels itself.
constexpr double kLeastRadius = 0.1;

float corner_of(Box b, double corner) {
  const double drawn = std::min({corner, std::fabs(b.w) / 2 - 1, std::fabs(b.h) / 2 - 1});
  return drawn < kLeastRadius ? 0.0f : static_cast<float>(corner);
}

/// Dear ImGui 1.86 loses a stroke where it nearly doubles back, and wraps its indices on very long ones: such
/// lines are drawn in pieces.
void stroke(ImDrawList& list, const std::vector<ImVec2>& points, ImU32 colour, float width, bool closed) {
  size_t from = 0;
  bool whole = true;
  for (size_t i = 1; i + 1 < points.size(); ++i) {
    const ImVec2 d1{points[i].x - points[i - 1].x, points[i].y - points[i - 1].y};
    const ImVec2 d2{points[i + 1].x - points[i].x, points[i + 1].y - points[i].y};
    const float dot = d1.x * d2.x + d1.y * d2.y;
    const bool back =
        dot < 0 && dot * dot > 0.25f * (d1.x * d1.x + d1.y * d1.y) * (d2.x * d2.x + d2.y * d2.y);
    if (!back && i - from < kMostPoints) continue;
    list.AddPolyline(points.data() + from, static_cast<int>(i - from + 1), colour, 0, width);
    from = i;
    whole = false;
  }
  list.AddPolyline(points.data() + from, static_cast<int>(points.size() - from), colour,
                   closed && whole ? ImDrawFlags_Closed : 0, width);
  if (closed && !whole) list.AddLine(points.back(), points.front(), colour, width);
}

void dashed(ImDrawList& list, const std::vector<ImVec2>& points, ImU32 colour, float width, float dash,
            bool closed) {
  float along = 0;  // since the last dash began
  const size_t legs = closed ? points.size() : points.size() - 1;
  for (size_t i = 0; i < legs; ++i) {
    const ImVec2 a = points[i], b = points[(i + 1) % points.size()];
    const float length = std::hypot(b.x - a.x, b.y - a.y);
    if (length <= 0) continue;
    auto at = [&](float s) { return ImVec2{a.x + (b.x - a.x) * s / length, a.y + (b.y - a.y) * s / length}; };
    for (float s = 0; s < length;) {
      const float in_pair = std::fmod(along, 2 * dash);
      const bool on = in_pair < dash;
      const float step = std::max(0.05f, std::min((on ? dash : 2 * dash) - in_pair, length - s));
      if (on) list.AddLine(at(s), at(std::min(length, s + step)), colour, width);
      s += step;
      along += step;
    }
  }
}

std::vector<ImVec2> to_vec(std::span<const Point> points) {
  std::vector<ImVec2> out;
  out.reserve(points.size());
  for (const Point& p : points) out.push_back(vec(p));
  return out;
}

}  // namespace

void ScreenCanvas::fill(std::span<const Point> polygon, Colour colour) {
  fill_polygon(list_, to_vec(polygon), packed(colour));
}

void ScreenCanvas::fill_box(Box b, Colour colour, double corner) {
  list_.AddRectFilled(f(b.x, b.y), f(b.right(), b.bottom()), packed(colour), corner_of(b, corner));
}

void ScreenCanvas::line(std::span<const Point> points, Stroke s, bool closed) {
  if (points.size() < 2) return;
  const std::vector<ImVec2> at = to_vec(points);
  if (s.dash > 0)
    dashed(list_, at, packed(s.colour), static_cast<float>(s.width), static_cast<float>(s.dash), closed);
  else
    stroke(list_, at, packed(s.colour), static_cast<float>(s.width), closed);
}

void ScreenCanvas::stroke_box(Box b, Stroke s, double corner) {
  if (s.dash > 0) {
    const std::vector<ImVec2> at{f(b.x, b.y), f(b.right(), b.y), f(b.right(), b.bottom()),
                                 f(b.x, b.bottom())};
    dashed(list_, at, packed(s.colour), static_cast<float>(s.width), static_cast<float>(s.dash), true);
    return;
  }
  list_.AddRect(f(b.x, b.y), f(b.right(), b.bottom()), packed(s.colour), corner_of(b, corner), 0,
                static_cast<float>(s.width));
}

void ScreenCanvas::fill_circle(Point c, double radius, Colour colour) {
  if (!(radius >= kLeastRadius)) return;
  list_.AddCircleFilled(vec(c), static_cast<float>(radius), packed(colour));
}

void ScreenCanvas::stroke_circle(Point c, double radius, Stroke s) {
  if (!(radius >= kLeastRadius)) return;
  if (s.dash <= 0) {
    list_.AddCircle(vec(c), static_cast<float>(radius), packed(s.colour), 0, static_cast<float>(s.width));
    return;
  }
  // Whole pairs of dash and gap, so that the ring closes evenly.
  const double round = 2 * std::numbers::pi * radius;
  const double dash = round / (2 * std::max(3.0, std::round(round / (2 * s.dash))));
  const double n = std::round(round / (2 * dash));
  for (int i = 0; i < static_cast<int>(n); ++i) {
    const float from = static_cast<float>(2 * std::numbers::pi * i / n);
    list_.PathArcTo(vec(c), static_cast<float>(radius), from, from + static_cast<float>(std::numbers::pi / n),
                    8);
    list_.PathStroke(packed(s.colour), 0, static_cast<float>(s.width));
  }
}

double ScreenCanvas::width(std::string_view utf8, double size, Typeface face) {
  return fonts_.width(face, utf8, size);
}

void ScreenCanvas::put(Point at, std::string_view utf8, double size, Colour colour, Align align,
                       Typeface face, double squeeze) {
  const double w = width(utf8, size, face) * squeeze;
  if (align == Align::centre) at.x -= w / 2;
  if (align == Align::right) at.x -= w;
  ImFont* font = fonts_.at(face, size);
  const float px = static_cast<float>(std::lround(size));
  const float ascent = font->Ascent * px / font->FontSize;
  const ImVec2 top_left{std::round(static_cast<float>(at.x)), std::round(static_cast<float>(at.y) - ascent)};
  const int first = list_.VtxBuffer.Size;
  list_.AddText(font, px, top_left, packed(colour), utf8.data(), utf8.data() + utf8.size());
  if (squeeze == 1) return;
  for (int i = first; i < list_.VtxBuffer.Size; ++i) {
    float& x = list_.VtxBuffer[i].pos.x;
    x = top_left.x + (x - top_left.x) * static_cast<float>(squeeze);
  }
}

void ScreenCanvas::text(Point at, std::string_view utf8, double size, Colour colour, Align align,
                        Weight weight) {
  put(at, utf8, size, colour, align, weight == Weight::bold ? Typeface::bold : Typeface::regular, 1);
}

void ScreenCanvas::squeezed_text(Point at, std::string_view utf8, double size, Colour colour, Align align,
                                 Weight weight, double squeeze) {
  put(at, utf8, size, colour, align, weight == Weight::bold ? Typeface::bold : Typeface::regular, squeeze);
}

double ScreenCanvas::text_width(std::string_view utf8, double size, Weight weight) {
  return width(utf8, size, weight == Weight::bold ? Typeface::bold : Typeface::regular);
}

double ScreenCanvas::mono_width(std::string_view utf8, double size) {
  return width(utf8, size, Typeface::mono);
}

void ScreenCanvas::mono_text(Point at, std::string_view utf8, double size, Colour colour, Align align) {
  put(at, utf8, size, colour, align, Typeface::mono, 1);
}

void ScreenCanvas::push_clip(Box b) { list_.PushClipRect(f(b.x, b.y), f(b.right(), b.bottom()), true); }
void ScreenCanvas::pop_clip() { list_.PopClipRect(); }

}  // namespace shutlane
