#include "ui/drawings/lanes_legend.hpp"

#include <algorithm>
#include <functional>
#include <string>
#include <vector>

#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"

namespace shutlane {

namespace {

struct Entry {
  std::string words;
  double marks;                    ///< width of its mark, lines of text
  std::function<void(Box)> paint;  ///< into the mark's box, one line high
};

std::vector<Entry> entries(Canvas& canvas, const LanesView& view, double u) {
  const Palette& p = palette(view.theme);
  const double hair = std::max(0.045 * u, 0.5), thin = std::max(0.085 * u, 0.8);
  const auto bar = [](Box b) { return Box{b.x, b.y + 0.25 * b.h, b.w, 0.5 * b.h}; };
  std::vector<Entry> all;
  all.push_back({"surely shut", 1.6, [=, &canvas](Box b) { canvas.fill_box(bar(b), p.shut, 0.12 * u); }});
  all.push_back({"not surely shut", 1.6, [=, &canvas](Box b) {
                   canvas.fill_box(bar(b), p.shut_soft);
                   hatch_box(canvas, bar(b), Hatch::falling, 0.3 * u, {p.shut, hair}, bar(b));
                   canvas.stroke_box(bar(b), {p.shut, hair});
                 }});
  all.push_back({"open", 1.6, [=, &canvas](Box b) {
                   const Point hump[] = {{b.x, b.y + 0.75 * b.h},
                                         {b.x + 0.3 * b.w, b.y + 0.3 * b.h},
                                         {b.x + 0.5 * b.w, b.y + 0.2 * b.h},
                                         {b.x + 0.7 * b.w, b.y + 0.3 * b.h},
                                         {b.right(), b.y + 0.75 * b.h}};
                   canvas.fill(hump, p.open_soft);
                   hatch(canvas, hump, Hatch::rising, 0.3 * u, {p.open, hair}, b);
                   canvas.line(hump, {p.open, thin}, true);
                 }});
  if (view.exhaust)
    all.push_back({"exhaust lift", 1.6, [=, &canvas](Box b) {
                     const Point line[] = {{b.x, b.y + b.h / 2}, {b.right(), b.y + b.h / 2}};
                     canvas.line(line, {p.exhaust, thin, 0.3 * u});
                   }});
  all.push_back({"firing TDC", 1.0, [=, &canvas](Box b) {
                   canvas.fill_box(bar(b), p.shut, 0);
                   const double x = b.x + b.w / 2, y = bar(b).bottom();
                   const Point notch[] = {{x, y - 0.42 * b.h}, {x + 0.3 * b.h, y}, {x - 0.3 * b.h, y}};
                   canvas.fill(notch, p.panel);
                 }});
  if (view.plan && view.plan->turns() > 0)
    all.push_back(
        {plan_is_what_if(view) ? "position from the needle, range of its turn"
                               : "position, range of its turn",
         1.8, [=, &canvas](Box b) {
           draw_bracket(canvas, b.x, b.right(), b.y + b.h / 2, 0.6 * b.h, {p.position, thin}, true, true);
           canvas.fill_circle({b.x + b.w / 2, b.y + b.h / 2}, 0.32 * b.h, p.position);
         }});
  if (view.crank_deg)
    all.push_back({"crank", 0.4, [=, &canvas](Box b) {
                     canvas.fill_box({b.x + b.w / 2 - 0.1 * u, b.y + 0.1 * b.h, 0.2 * u, 0.8 * b.h}, p.crank);
                   }});
  if (view.what_if_deg)
    all.push_back({"what-if needle", 0.9, [=, &canvas](Box b) {
                     const double x = b.x + b.w / 2, y = b.y + b.h / 2, r = 0.36 * b.h;
                     const Point diamond[] = {{x, y - r}, {x + r, y}, {x, y + r}, {x - r, y}};
                     canvas.line(diamond, {p.what_if, thin}, true);
                   }});
  if (view.fan_from_deg)
    all.push_back(
        {"bump starts", 0.7, [=, &canvas](Box b) {
           const Point mark[] = {{b.x, b.y + 0.1 * b.h}, {b.right(), b.y + b.h / 2}, {b.x, b.y + 0.9 * b.h}};
           canvas.fill(mark, p.what_if);
         }});
  if (!view.fan_weights.empty())
    all.push_back(
        {"rests of bumps", 1.2, [=, &canvas](Box b) {
           for (const auto& [x, h] : {std::pair{0.0, 0.3}, {0.25, 0.8}, {0.5, 0.5}, {0.75, 0.2}})
             canvas.fill_box({b.x + x * b.w, b.bottom() - (0.1 + h) * b.h, 0.2 * b.w, h * b.h}, p.position);
         }});
  return all;
}

}  // namespace

void draw_lanes_legend(Canvas& canvas, Box box, const LanesView& view) {
  constexpr double after_mark = 0.35, between = 1.0;  // lines of text
  double size = 0.9 * view.text;
  const auto width = [&](double at) {
    double sum = 0;
    for (const Entry& e : entries(canvas, view, at))
      sum += (e.marks + after_mark + between) * at + canvas.text_width(e.words, at);
    return sum - between * at;
  };
  size = std::max(std::min(size, 7.0), size * std::min(1.0, 0.98 * box.w / width(size)));
  double x = box.x;
  const double y = box.y + (box.h - size) / 2;
  for (const Entry& e : entries(canvas, view, size)) {
    e.paint({x, y, e.marks * size, size});
    x += (e.marks + after_mark) * size;
    canvas.text({x, y + size / 2 + kHalfCapital * size}, e.words, size, palette(view.theme).dim_text);
    x += canvas.text_width(e.words, size) + between * size;
  }
}

}  // namespace shutlane
