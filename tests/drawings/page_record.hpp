#pragma once
// A canvas that draws nothing and remembers everything, measuring text as paper does.
#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "ui/drawings/cairo_canvas.hpp"
#include "ui/drawings/canvas.hpp"

namespace shutlane {

struct DrawnText {
  std::string words;
  Box box;   ///< from the top of the capitals to the foot of the descenders
  Box clip;  ///< what of the page could be seen when it was drawn
  Colour colour;
};
struct DrawnBox {
  Box box;
  Colour colour;
};
struct DrawnLine {
  std::vector<Point> points;
  Stroke stroke;
  bool closed = false;
};
struct DrawnCircle {
  Point centre;
  double radius = 0;
  Colour colour;
};

class PageRecord : public Canvas {
 public:
  PageRecord() { clips_.push_back({-1e6, -1e6, 2e6, 2e6}); }
  std::vector<DrawnText> texts;
  std::vector<DrawnBox> boxes, outlines;
  std::vector<DrawnLine> lines, polygons;
  std::vector<DrawnCircle> circles;
  int open_clips() const { return static_cast<int>(clips_.size()) - 1; }

  void fill(std::span<const Point> p, Colour c) override {
    polygons.push_back({{p.begin(), p.end()}, {c}, true});
  }
  void fill_box(Box box, Colour c, double) override { boxes.push_back({box, c}); }
  void line(std::span<const Point> p, Stroke s, bool closed) override {
    lines.push_back({{p.begin(), p.end()}, s, closed});
  }
  void stroke_box(Box box, Stroke s, double) override { outlines.push_back({box, s.colour}); }
  void fill_circle(Point at, double r, Colour c) override { circles.push_back({at, r, c}); }
  void stroke_circle(Point, double, Stroke) override {}
  void text(Point at, std::string_view words, double size, Colour colour, Align align,
            Weight weight) override {
    const double w = text_width(words, size, weight);
    const double x = at.x - (align == Align::left ? 0 : align == Align::right ? w : w / 2);
    // Inter's capitals are 2048 of 2816 units high, a line 3408 units: 0.60; descenders reach 0.16 below.
    texts.push_back({std::string(words), {x, at.y - 0.60 * size, w, 0.76 * size}, clips_.back(), colour});
  }
  double text_width(std::string_view words, double size, Weight weight) override {
    const auto key = std::tuple(std::string(words), weight);
    auto found = widths_.find(key);
    if (found == widths_.end()) found = widths_.emplace(key, paper_text_width(words, 1, weight)).first;
    return found->second * size;
  }
  void push_clip(Box box) override {
    const Box& in = clips_.back();
    const double x = std::max(in.x, box.x), y = std::max(in.y, box.y);
    clips_.push_back({x, y, std::max(0.0, std::min(in.right(), box.right()) - x),
                      std::max(0.0, std::min(in.bottom(), box.bottom()) - y)});
  }
  void pop_clip() override { clips_.pop_back(); }

 private:
  std::vector<Box> clips_;
  std::map<std::tuple<std::string, Weight>, double> widths_;
};

}  // namespace shutlane
