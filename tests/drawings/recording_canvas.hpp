#pragma once
// A canvas that keeps what was drawn: how far it reached, and the words.
#include <algorithm>
#include <string>
#include <vector>

#include "ui/drawings/canvas.hpp"

namespace shutlane {

class RecordingCanvas final : public Canvas {
 public:
  double left = 1e12, top = 1e12, right = -1e12, bottom = -1e12;
  std::vector<std::string> words;
  std::vector<Colour> fills;
  size_t shapes = 0;

  void fill(std::span<const Point> polygon, Colour colour) override { all(polygon), fills.push_back(colour); }
  void fill_box(Box box, Colour colour, double) override { hold(box), fills.push_back(colour); }
  void line(std::span<const Point> points, Stroke, bool) override { all(points); }
  void stroke_box(Box box, Stroke, double) override { hold(box); }
  void fill_circle(Point c, double r, Colour colour) override {
    hold({c.x - r, c.y - r, 2 * r, 2 * r}), fills.push_back(colour);
  }
  void stroke_circle(Point c, double r, Stroke) override { hold({c.x - r, c.y - r, 2 * r, 2 * r}); }
  void text(Point at, std::string_view utf8, double size, Colour, Align align, Weight weight) override {
    words.emplace_back(utf8);
    const double w = text_width(utf8, size, weight);
    const double x = at.x - (align == Align::left ? 0 : align == Align::right ? w : w / 2);
    hold({x, at.y - 0.8 * size, w, size});
  }
  double text_width(std::string_view utf8, double size, Weight) override {
    return 0.5 * size * static_cast<double>(utf8.size());
  }
  void push_clip(Box) override {}
  void pop_clip() override {}

  bool inside(Box box, double slack) const {
    return left >= box.x - slack && top >= box.y - slack && right <= box.right() + slack &&
           bottom <= box.bottom() + slack;
  }
  bool said(std::string_view word) const {
    return std::find(words.begin(), words.end(), word) != words.end();
  }

 private:
  void all(std::span<const Point> points) {
    for (const Point& p : points) hold({p.x, p.y, 0, 0});
  }
  void hold(Box box) {
    ++shapes;
    left = std::min(left, box.x);
    top = std::min(top, box.y);
    right = std::max(right, box.right());
    bottom = std::max(bottom, box.bottom());
  }
};

}  // namespace shutlane
