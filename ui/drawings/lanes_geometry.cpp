#include <algorithm>
#include <cmath>

#include "ui/drawings/lanes_parts.hpp"

namespace shutlane {

namespace {

// Parts of the box around the plot, in lines of text.
constexpr double kGutter = 2.6;      // the cylinder numbers
constexpr double kRight = 1.3;       // half the last degree label
constexpr double kBracketRow = 1.5;  // one range of a turn
constexpr double kAxis = 1.7;
constexpr double kBelief = 1.1;
constexpr double kFan = 3.2;
constexpr double kLabels = 2.0;

size_t turns_shown(const LanesView& view) { return view.plan && view.labels ? view.plan->turns() : 0; }

}  // namespace

double start_deg(const Engine& engine, int cylinder, StartAt at) {
  const Cylinder* c = engine.find(cylinder);
  if (!c) return 0;
  return wrap_deg(c->firing_tdc_deg + (at == StartAt::overlap_tdc ? kTurn_deg : 0.0));
}

double belief_lines(const LanesView& view) {
  return view.belief || !view.belief_weights.empty() ? kBelief : 0;
}

double fan_lines(const LanesView& view) { return view.fan_weights.empty() ? 0 : kFan; }

LanesGeometry lay_out_lanes(const LanesView& view, Box box) {
  const double u = view.text;
  const double above = 0.4 * u + kBracketRow * u * static_cast<double>(turns_shown(view));
  double below = 0.3 * u;
  below += (belief_lines(view) + fan_lines(view)) * u;
  if (view.axis) below += kAxis * u;
  if (view.labels) below += kLabels * u;

  LanesGeometry g;
  g.plot = {box.x + kGutter * u, box.y + above, std::max(1.0, box.w - (kGutter + kRight) * u),
            std::max(1.0, box.h - above - below)};
  g.text = u;
  g.start_deg = view.start_deg;
  g.from_deg = view.from_deg;
  g.to_deg = view.to_deg;
  if (view.order == LaneOrder::firing)
    for (const size_t i : view.engine->firing) g.cylinders.push_back(view.engine->cylinders[i].number);
  else
    for (const Cylinder& c : view.engine->cylinders) g.cylinders.push_back(c.number);
  g.lane_height = g.plot.h / static_cast<double>(std::max<size_t>(1, g.cylinders.size()));
  return g;
}

double LanesGeometry::x_of(double after_start_deg) const {
  return plot.x + plot.w * (after_start_deg - from_deg) / (to_deg - from_deg);
}

double LanesGeometry::crank_deg_at(double x) const {
  return wrap_deg(start_deg + from_deg + (to_deg - from_deg) * (x - plot.x) / plot.w);
}

Box LanesGeometry::lane(size_t row) const {
  return {plot.x, plot.y + lane_height * static_cast<double>(row), plot.w, lane_height};
}

Box LanesGeometry::track(size_t row) const {
  const Box all = lane(row);
  const double h = std::min(0.38 * lane_height, 2.4 * text), gap = std::min(0.10 * lane_height, 0.6 * text);
  return {all.x, all.bottom() - gap - h, all.w, h};
}

std::optional<int> LanesGeometry::cylinder_at(double y) const {
  if (y < plot.y || y >= plot.bottom()) return std::nullopt;
  const auto row = static_cast<size_t>((y - plot.y) / lane_height);
  return cylinders[std::min(row, cylinders.size() - 1)];
}

std::vector<double> LanesGeometry::visible_x(double crank_deg) const {
  std::vector<double> xs;
  const double first = forward_deg(start_deg, crank_deg);
  const double k0 = std::ceil((from_deg - first) / kCycle_deg - 1e-9);
  for (double a = first + k0 * kCycle_deg; a <= to_deg + kSame_deg; a += kCycle_deg) xs.push_back(x_of(a));
  return xs;
}

std::vector<Span> visible_spans(const LanesGeometry& g, const Arc& arc) {
  if (arc.length_deg >= kCycle_deg) return {{g.from_deg, g.to_deg, false, false}};
  std::vector<Span> spans;
  const double first = forward_deg(g.start_deg, arc.from_deg);
  const double k0 = std::floor((g.from_deg - first - arc.length_deg) / kCycle_deg);
  for (double a = first + k0 * kCycle_deg; a < g.to_deg; a += kCycle_deg) {
    const double end = a + arc.length_deg;
    const double from = std::max(a, g.from_deg), to = std::min(end, g.to_deg);
    if (to - from >= kSame_deg) spans.push_back({from, to, a >= g.from_deg, end <= g.to_deg});
  }
  return spans;
}

std::vector<Span> visible_spans(const LanesGeometry& g, const ArcSet& set) {
  std::vector<Span> spans;
  for (const Arc& arc : set.arcs())
    for (const Span& s : visible_spans(g, arc)) spans.push_back(s);
  std::sort(spans.begin(), spans.end(), [](const Span& a, const Span& b) { return a.from_deg < b.from_deg; });
  return spans;
}

}  // namespace shutlane
