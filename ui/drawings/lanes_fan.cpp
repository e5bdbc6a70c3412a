// Where a bump may leave the crank: the fan of rest angles.
#include <algorithm>

#include "sim/cycle/angle.hpp"
#include "ui/drawings/lanes_parts.hpp"
#include "ui/drawings/text.hpp"

namespace shutlane {
namespace {

double greatest(std::span<const double> weights) {
  return weights.size() == static_cast<size_t>(kCycle_deg) ? *std::max_element(weights.begin(), weights.end())
                                                           : 0;
}

/// Degrees in a row whose weight is above a share of the greatest, as arcs. Gaps of a few degrees are chance
/// and make no stripes.
ArcSet stretches_above(std::span<const double> weights, double limit) {
  constexpr double kGap_deg = 6;
  std::vector<Arc> arcs;
  for (size_t i = 0; i < weights.size(); ++i)
    if (weights[i] > limit) arcs.push_back({static_cast<double>(i), 1.0});
  for (size_t i = 0, n = arcs.size(); i < n; ++i) {
    const double gap_deg = forward_deg(arcs[i].from_deg, arcs[(i + 1) % n].from_deg) - 1;
    if (gap_deg > 0 && gap_deg <= kGap_deg) arcs.push_back({arcs[i].from_deg, gap_deg + 1});
  }
  return ArcSet(arcs);
}

}  // namespace

void draw_fan_bands(const LanesPen& pen) {
  const LanesGeometry& g = pen.geometry;
  const double most = greatest(pen.view.fan_weights);
  if (!(most > 0) || pen.view.fan_stale) return;
  for (const Span& s : visible_spans(g, stretches_above(pen.view.fan_weights, kFanShown * most)))
    pen.canvas.fill_box({g.x_of(s.from_deg), g.plot.y, g.x_of(s.to_deg) - g.x_of(s.from_deg), g.plot.h},
                        pen.colours.position_soft);
}

void draw_fan(const LanesPen& pen) {
  const LanesGeometry& g = pen.geometry;
  const std::span<const double> weights = pen.view.fan_weights;
  const double most = greatest(weights);
  if (!(most > 0)) return;
  const Box strip{g.plot.x, g.plot.bottom() + (0.4 + belief_lines(pen.view)) * pen.u, g.plot.w,
                  (fan_lines(pen.view) - 0.5) * pen.u};
  const Colour colour = pen.view.fan_stale ? pen.colours.exhaust : pen.colours.position;
  for (size_t i = 0; i < weights.size(); ++i) {
    if (!(weights[i] > 0)) continue;
    // Never thinner than a hair, so that a rare rest is seen too.
    const double h = std::max(pen.hair(), strip.h * weights[i] / most);
    for (const Span& s : visible_spans(g, Arc{static_cast<double>(i), 1.0}))
      pen.canvas.fill_box({g.x_of(s.from_deg), strip.bottom() - h, g.x_of(s.to_deg) - g.x_of(s.from_deg), h},
                          colour);
  }
  const Point foot[] = {{strip.x, strip.bottom()}, {strip.right(), strip.bottom()}};
  pen.canvas.line(foot, {colour, pen.hair()});
  const double size = 0.8 * pen.u;
  pen.canvas.text({strip.x - 0.5 * pen.u, strip.bottom()}, "rests", size, pen.colours.dim_text, Align::right);
  if (!pen.view.fan_from_deg) return;
  for (const double x : g.visible_x(*pen.view.fan_from_deg)) {
    const double h = 0.8 * pen.u;
    const Point mark[] = {
        {x, strip.bottom() - h}, {x + 0.8 * h, strip.bottom() - h / 2}, {x, strip.bottom()}};
    pen.canvas.fill(mark, pen.colours.what_if);
  }
}

}  // namespace shutlane
