#pragma once
// What a drawing is drawn on: the screen (ImDrawList) or paper (Cairo: PDF, SVG, PNG). One drawing code for
// all. Units are the canvas's own (millimetres on paper, pixels on the screen); y grows downwards.
#include <cstdint>
#include <span>
#include <string_view>

namespace shutlane {

struct Point {
  double x = 0, y = 0;
};

struct Box {
  double x = 0, y = 0, w = 0, h = 0;
  double right() const { return x + w; }
  double bottom() const { return y + h; }
};

struct Colour {
  std::uint8_t r = 0, g = 0, b = 0, a = 255;
  friend bool operator==(const Colour&, const Colour&) = default;
};

struct Stroke {
  Colour colour;
  double width = 1;
  double dash = 0;  ///< length of a dash and of the gap after it; 0 = solid
};

enum class Weight { regular, bold };
enum class Align { left, centre, right };

class Canvas {
 public:
  virtual ~Canvas() = default;
  virtual void fill(std::span<const Point> polygon, Colour colour) = 0;  ///< simple polygon, may be concave
  virtual void fill_box(Box box, Colour colour, double corner = 0) = 0;
  virtual void line(std::span<const Point> points, Stroke stroke, bool closed = false) = 0;
  virtual void stroke_box(Box box, Stroke stroke, double corner = 0) = 0;
  virtual void fill_circle(Point centre, double radius, Colour colour) = 0;
  virtual void stroke_circle(Point centre, double radius, Stroke stroke) = 0;
  /// `at` is the left end, middle or right end of the baseline; `size` the height of a line of text.
  virtual void text(Point at, std::string_view utf8, double size, Colour colour, Align align = Align::left,
                    Weight weight = Weight::regular) = 0;
  virtual double text_width(std::string_view utf8, double size, Weight weight = Weight::regular) = 0;
  virtual void push_clip(Box box) = 0;
  virtual void pop_clip() = 0;
};

}  // namespace shutlane
