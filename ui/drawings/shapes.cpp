#include "ui/drawings/shapes.hpp"

#include <algorithm>
#include <cmath>

#include "ui/drawings/text.hpp"

namespace shutlane {

std::vector<Point> corners(Box box) {
  return {{box.x, box.y}, {box.right(), box.y}, {box.right(), box.bottom()}, {box.x, box.bottom()}};
}

Box overlap(Box a, Box b) {
  const double x = std::max(a.x, b.x), y = std::max(a.y, b.y);
  return {x, y, std::max(0.0, std::min(a.right(), b.right()) - x),
          std::max(0.0, std::min(a.bottom(), b.bottom()) - y)};
}

void hatch(Canvas& canvas, std::span<const Point> polygon, Hatch direction, double spacing, Stroke stroke,
           Box visible) {
  if (polygon.size() < 3 || !(spacing > 0)) return;
  // A hatch line is x + s*y = c; rising lines (/) have s = +1 because y grows downwards.
  const double s = direction == Hatch::rising ? 1 : -1;
  double lowest = polygon[0].x + s * polygon[0].y, highest = lowest;
  for (const Point& p : polygon) {
    lowest = std::min(lowest, p.x + s * p.y);
    highest = std::max(highest, p.x + s * p.y);
  }
  const double seen_low = std::min(visible.x + s * visible.y, visible.x + s * visible.bottom());
  const double seen_high = std::max(visible.right() + s * visible.y, visible.right() + s * visible.bottom());
  lowest = std::max(lowest, seen_low);
  highest = std::min(highest, seen_high);

  const double step = spacing * std::sqrt(2.0);
  std::vector<double> crossings;  // x of the polygon's edges along the line
  for (double c = std::ceil(lowest / step) * step; c <= highest; c += step) {
    crossings.clear();
    for (size_t i = 0; i < polygon.size(); ++i) {
      const Point a = polygon[i], b = polygon[(i + 1) % polygon.size()];
      const double ca = a.x + s * a.y - c, cb = b.x + s * b.y - c;
      if ((ca < 0) == (cb < 0)) continue;
      crossings.push_back(a.x + (b.x - a.x) * ca / (ca - cb));
    }
    std::sort(crossings.begin(), crossings.end());
    for (size_t i = 0; i + 1 < crossings.size(); i += 2) {
      const double x0 = std::max(crossings[i], visible.x), x1 = std::min(crossings[i + 1], visible.right());
      if (x1 - x0 < 0.02 * spacing) continue;
      const Point line[] = {{x0, (c - x0) * s}, {x1, (c - x1) * s}};
      canvas.line(line, stroke);
    }
  }
}

void hatch_box(Canvas& canvas, Box box, Hatch direction, double spacing, Stroke stroke, Box visible) {
  hatch(canvas, corners(box), direction, spacing, stroke, visible);
}

double label_width(Canvas& canvas, std::string_view utf8, double size, Weight weight) {
  return canvas.text_width(utf8, size, weight) + 1.1 * size;
}

Box draw_label(Canvas& canvas, Point centre, std::string_view utf8, double size, Colour fill, Colour text,
               Weight weight) {
  const double w = label_width(canvas, utf8, size, weight), h = kLabelHeight * size;
  const Box box{centre.x - w / 2, centre.y - h / 2, w, h};
  canvas.fill_box(box, fill, 0.28 * size);
  canvas.text({centre.x, centre.y + kHalfCapital * size}, utf8, size, text, Align::centre, weight);
  return box;
}

void draw_bracket(Canvas& canvas, double x0, double x1, double y, double upright, Stroke stroke,
                  bool real_start, bool real_end) {
  const Point bar[] = {{x0, y}, {x1, y}};
  canvas.line(bar, stroke);
  for (const auto& [x, real] : {std::pair{x0, real_start}, {x1, real_end}})
    if (real) {
      const Point end[] = {{x, y - upright / 2}, {x, y + upright / 2}};
      canvas.line(end, stroke);
    }
}

bool spread_labels(std::span<double> centres, std::span<const double> widths, double from, double to,
                   double gap) {
  double needed = -gap;
  for (const double w : widths) needed += w + gap;
  double free_from = from;
  for (size_t i = 0; i < centres.size(); ++i) {
    centres[i] = std::max(centres[i], free_from + widths[i] / 2);
    free_from = centres[i] + widths[i] / 2 + gap;
  }
  double free_to = to;
  for (size_t i = centres.size(); i-- > 0;) {
    centres[i] = std::min(centres[i], free_to - widths[i] / 2);
    free_to = centres[i] - widths[i] / 2 - gap;
  }
  return needed <= to - from;
}

}  // namespace shutlane
