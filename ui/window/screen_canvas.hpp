#pragma once
// The canvas on the screen: drawings come out as Dear ImGui's triangles. Units are pixels.
#include <imgui.h>

#include "ui/drawings/canvas.hpp"
#include "ui/window/font_book.hpp"

namespace shutlane {

inline ImU32 packed(Colour c) { return IM_COL32(c.r, c.g, c.b, c.a); }
inline ImVec2 vec(Point p) { return {static_cast<float>(p.x), static_cast<float>(p.y)}; }

class ScreenCanvas final : public Canvas {
 public:
  ScreenCanvas(ImDrawList& list, FontBook& fonts) : list_(list), fonts_(fonts) {}

  void fill(std::span<const Point> polygon, Colour colour) override;
  void fill_box(Box box, Colour colour, double corner = 0) override;
  void line(std::span<const Point> points, Stroke stroke, bool closed = false) override;
  void stroke_box(Box box, Stroke stroke, double corner = 0) override;
  void fill_circle(Point centre, double radius, Colour colour) override;
  void stroke_circle(Point centre, double radius, Stroke stroke) override;
  void text(Point at, std::string_view utf8, double size, Colour colour, Align align = Align::left,
            Weight weight = Weight::regular) override;
  double text_width(std::string_view utf8, double size, Weight weight = Weight::regular) override;
  void push_clip(Box box) override;
  void pop_clip() override;

  /// Text drawn narrower than it is set: `squeeze` 0.85..1 of its width. Aligned as text().
  void squeezed_text(Point at, std::string_view utf8, double size, Colour colour, Align align, Weight weight,
                     double squeeze);
  double mono_width(std::string_view utf8, double size);
  void mono_text(Point at, std::string_view utf8, double size, Colour colour,
                 Align align);  ///< tabular digits

 private:
  void put(Point at, std::string_view utf8, double size, Colour colour, Align align, Typeface face,
           double squeeze);
  double width(std::string_view utf8, double size, Typeface face);
  ImDrawList& list_;
  FontBook& fonts_;
};

}  // namespace shutlane
