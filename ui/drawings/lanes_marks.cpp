// What lies over and under the lanes: the grid, the crank, the positions and the ranges of their turns.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "ui/drawings/lanes_parts.hpp"
#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"
#include "ui/drawings/words.hpp"

namespace shutlane {

namespace {

std::string commas(std::span<const int> numbers) {
  std::string text;
  for (const int n : numbers) text += (text.empty() ? "" : ", ") + std::to_string(n);
  return text;
}

/// A cycle angle as it is written, [0, 720).
double counted_deg(const LanesView& view, double crank_deg) {
  return view.count_from_start ? std::max(0.0, forward_or_same_deg(view.start_deg, crank_deg))
                               : wrap_deg(crank_deg);
}

double tick_step_deg(const LanesPen& pen) {
  const LanesGeometry& g = pen.geometry;
  constexpr std::array steps{1.0, 2.0, 5.0, 10.0, 15.0, 30.0, 45.0, 90.0, 180.0};
  for (const double step : steps)
    if (g.plot.w * step / (g.to_deg - g.from_deg) >= 5.0 * pen.u) return step;
  return kTurn_deg;
}

void needle(const LanesPen& pen, double x, double top, Stroke stroke) {
  const Point line[] = {{x, top}, {x, pen.geometry.plot.bottom() + 0.3 * pen.u}};
  pen.canvas.line(line, stroke);
}

// A disc on every lane that is worked at this position.
void draw_discs(const LanesPen& pen, const Position& position, const std::string& number, Colour colour) {
  const LanesGeometry& g = pen.geometry;
  for (size_t row = 0; row < g.cylinders.size(); ++row) {
    if (std::find(position.blast.begin(), position.blast.end(), g.cylinders[row]) == position.blast.end())
      continue;
    const Box track = g.track(row);
    const double r = std::min(std::max(0.46 * track.h, 0.2 * g.lane_height), 0.72 * pen.u);
    for (const double x : g.visible_x(position.at_deg)) {
      const Point centre{x, track.y + track.h / 2};
      pen.canvas.fill_circle(centre, r + 0.14 * pen.u, pen.colours.panel);
      pen.canvas.fill_circle(centre, r, colour);
      const double size = 1.6 * r;
      if (size >= 0.5 * pen.u)
        pen.canvas.text({x, centre.y + kHalfCapital * size}, number, size, pen.colours.on_fill, Align::centre,
                        Weight::bold);
    }
  }
}

struct Label {
  double x = 0;
  std::string text, brief;
  Colour fill;
};

// The labels under the axis, side by side; brief ones when the full ones do not fit.
void draw_labels(const LanesPen& pen, std::vector<Label> labels, Box box) {
  const LanesGeometry& g = pen.geometry;
  std::sort(labels.begin(), labels.end(), [](const Label& a, const Label& b) { return a.x < b.x; });
  const double size = pen.u;
  for (const bool brief : {false, true}) {
    std::vector<double> centres, widths;
    for (const Label& l : labels) {
      centres.push_back(l.x);
      widths.push_back(label_width(pen.canvas, brief ? l.brief : l.text, size));
    }
    if (!spread_labels(centres, widths, box.x, box.right(), 0.4 * size) && !brief) continue;
    const double y = box.bottom() - 0.5 * kLabelHeight * size - 0.1 * pen.u;
    for (size_t i = 0; i < labels.size(); ++i) {
      const Point tie[] = {{labels[i].x, g.plot.bottom() + 0.3 * pen.u}, {labels[i].x, y}};
      // Only a label right under its needle is tied to it; a moved one would draw its line through the
      // degrees.
      if (std::abs(centres[i] - labels[i].x) < 0.5 * widths[i] && !pen.view.axis)
        pen.canvas.line(tie, {labels[i].fill, pen.thin()});
      draw_label(pen.canvas, {centres[i], y}, brief ? labels[i].brief : labels[i].text, size, labels[i].fill,
                 pen.colours.on_fill);
    }
    return;
  }
}

}  // namespace

bool plan_is_what_if(const LanesView& view) {
  if (!view.plan || !view.what_if_deg) return false;
  return !view.crank_deg ||
         std::abs(std::remainder(*view.crank_deg - *view.what_if_deg, kCycle_deg)) > kSame_deg;
}

void draw_grid(const LanesPen& pen, Box) {
  const LanesGeometry& g = pen.geometry;
  const double step = tick_step_deg(pen);
  const double zero_deg =
      counted_deg(pen.view, g.start_deg) - g.start_deg;  // what is written less the crank's
  const double first = std::ceil((zero_deg + g.start_deg + g.from_deg) / step - 1e-9) * step;
  const double last = zero_deg + g.start_deg + g.to_deg + kSame_deg;
  const double y = g.plot.bottom() + (belief_lines(pen.view) + fan_lines(pen.view) + 1.35) * pen.u;
  for (double a = first; a <= last; a += step) {
    const double x = g.x_of(a - zero_deg - g.start_deg);
    const Point line[] = {{x, g.plot.y}, {x, g.plot.bottom() + 0.3 * pen.u}};
    pen.canvas.line(line, {pen.colours.grid, pen.hair()});
    if (!pen.view.axis) continue;
    // The right end of a whole cycle that began at 0 reads 720.
    const bool end = a > first + kCycle_deg - 1 && wrap_deg(a) == 0;
    pen.canvas.text({x, y}, end ? "720°" : fmt::format("{:.0f}°", wrap_deg(a)), pen.u, pen.colours.dim_text,
                    Align::centre);
  }
}

void draw_bands(const LanesPen& pen) {
  const LanesGeometry& g = pen.geometry;
  const auto band = [&](const ArcSet& where, Colour fill, Colour edge) {
    for (const Span& s : visible_spans(g, where)) {
      const double x0 = g.x_of(s.from_deg), x1 = g.x_of(s.to_deg);
      pen.canvas.fill_box({x0, g.plot.y, x1 - x0, g.plot.h}, fill);
      for (const auto& [x, real] : {std::pair{x0, s.real_from}, {x1, s.real_to}})
        if (real) {
          const Point line[] = {{x, g.plot.y}, {x, g.plot.bottom()}};
          pen.canvas.line(line, {edge, pen.hair()});
        }
    }
  };
  if (pen.view.belief) band(*pen.view.belief, pen.colours.crank_soft, pen.colours.crank);
  if (pen.view.crank_deg && pen.view.plus_minus_deg > 0)
    band(ArcSet({{*pen.view.crank_deg - pen.view.plus_minus_deg, 2 * pen.view.plus_minus_deg}}),
         pen.colours.crank_soft, pen.colours.crank);
}

void draw_positions(const LanesPen& pen, Box box) {
  const LanesView& view = pen.view;
  const LanesGeometry& g = pen.geometry;
  std::vector<Label> labels;
  const bool from_needle = plan_is_what_if(view);
  if (view.crank_deg && view.labels)
    for (const double x : g.visible_x(*view.crank_deg)) {
      const std::string now =
          view.plus_minus_deg > 0
              ? fmt::format("{} ± {}", degrees_in_words(counted_deg(view, *view.crank_deg)),
                            degrees_in_words(view.plus_minus_deg))
              : degrees_in_words(counted_deg(view, *view.crank_deg));
      const bool worked = view.plan && view.plan->possible() && !view.plan->positions.empty() && !from_needle;
      const std::string ports = worked && !view.plan->positions[0].blast.empty()
                                    ? (view.plan->positions[0].blast.size() == 1 ? ", port " : ", ports ") +
                                          commas(view.plan->positions[0].blast)
                                    : "";
      labels.push_back(
          {x, (worked ? "1: now " : "now ") + now + ports, worked ? "1" : "now", pen.colours.crank});
    }
  if (view.plan)
    for (size_t i = 1; i < view.plan->positions.size(); ++i) {
      const Position& p = view.plan->positions[i];
      const std::string number = std::to_string(i + 1);
      const double row_y = g.plot.y - 0.4 * pen.u - 1.5 * pen.u * (static_cast<double>(i) - 0.5);
      if (view.labels) {
        const Arc range{wrap_deg(view.plan->positions[i - 1].at_deg + p.turn_min_deg),
                        std::min(kCycle_deg, p.turn_max_deg - p.turn_min_deg)};
        for (const Span& s : visible_spans(g, range))
          draw_bracket(pen.canvas, g.x_of(s.from_deg), g.x_of(s.to_deg), row_y, 0.9 * pen.u,
                       {pen.colours.position, pen.thin()}, s.real_from, s.real_to);
      }
      for (const double x : g.visible_x(p.at_deg)) {
        needle(pen, x, view.labels ? row_y : g.plot.y, {pen.colours.position, pen.thick(), 0.45 * pen.u});
        if (view.labels) {
          draw_label(pen.canvas, {x, row_y}, number, 0.9 * pen.u, pen.colours.position, pen.colours.on_fill);
          labels.push_back({x,
                            fmt::format("{}{}: {} {}", number, from_needle ? " from the needle" : "",
                                        p.blast.size() == 1 ? "port" : "ports", commas(p.blast)),
                            number, pen.colours.position});
        }
      }
      draw_discs(pen, p, number, pen.colours.position);
    }
  if (view.labels) draw_labels(pen, std::move(labels), box);
}

void draw_needles(const LanesPen& pen) {
  const LanesView& view = pen.view;
  const LanesGeometry& g = pen.geometry;
  if (view.crank_deg) {
    for (const double x : g.visible_x(*view.crank_deg))
      needle(pen, x, g.plot.y - 0.3 * pen.u, {pen.colours.crank, 1.2 * pen.thick()});
    if (view.plan && !view.plan->positions.empty() && !plan_is_what_if(view))
      draw_discs(pen, view.plan->positions[0], "1", pen.colours.crank);
  }
  if (view.what_if_deg)
    for (const double x : g.visible_x(*view.what_if_deg)) {
      // Hollow: two lines and an empty diamond.
      const double half = 0.2 * pen.u, top = g.plot.y, head = 0.55 * pen.u;
      const Stroke stroke{pen.colours.what_if, pen.thin()};
      for (const double side : {-half, half}) {
        const Point line[] = {{x + side, top + head}, {x + side, g.plot.bottom() + 0.3 * pen.u}};
        pen.canvas.line(line, stroke);
      }
      const Point diamond[] = {{x, top - head}, {x + head, top}, {x, top + head}, {x - head, top}};
      pen.canvas.fill(diamond, pen.colours.panel);
      pen.canvas.line(diamond, stroke, true);
    }
  if (view.hover_deg)
    for (const double x : g.visible_x(*view.hover_deg)) {
      const Point line[] = {{x, g.plot.y}, {x, g.plot.bottom()}};
      pen.canvas.line(line, {pen.colours.dim_text, pen.hair(), 0.2 * pen.u});
    }
}

void draw_belief(const LanesPen& pen) {
  const LanesView& view = pen.view;
  const LanesGeometry& g = pen.geometry;
  const Box strip{g.plot.x, g.plot.bottom() + 0.4 * pen.u, g.plot.w, 0.8 * pen.u};
  if (view.belief)
    for (const Span& s : visible_spans(g, *view.belief)) {
      const Box box{g.x_of(s.from_deg), strip.y, g.x_of(s.to_deg) - g.x_of(s.from_deg), strip.h};
      pen.canvas.fill_box(box, pen.colours.crank, 0.2 * pen.u);
    }
  if (view.belief_weights.size() == static_cast<size_t>(kCycle_deg)) {
    const double most = *std::max_element(view.belief_weights.begin(), view.belief_weights.end());
    if (!(most > 0)) return;
    for (size_t i = 0; i < view.belief_weights.size(); ++i) {
      const double h = strip.h * view.belief_weights[i] / most;
      if (h <= 0) continue;
      for (const Span& s : visible_spans(g, Arc{static_cast<double>(i), 1.0}))
        pen.canvas.fill_box(
            {g.x_of(s.from_deg), strip.bottom() - h, g.x_of(s.to_deg) - g.x_of(s.from_deg), h},
            pen.colours.crank);
    }
  }
}

}  // namespace shutlane
