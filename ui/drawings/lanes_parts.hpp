#pragma once
// The parts of the lanes drawing that more than one of its files needs.
#include <vector>

#include "ui/drawings/lanes.hpp"

namespace shutlane {

/// A visible stretch, degrees after the view's start. An end is real when the thing ends there, and is not
/// merely cut off by the view.
struct Span {
  double from_deg = 0, to_deg = 0;
  bool real_from = true, real_to = true;
};

std::vector<Span> visible_spans(const LanesGeometry& geometry, const Arc& arc);
std::vector<Span> visible_spans(const LanesGeometry& geometry, const ArcSet& set);

struct LanesPen {
  Canvas& canvas;
  const LanesView& view;
  const LanesGeometry& geometry;
  const Palette& colours;
  double u;  ///< height of a line of text

  double hair() const { return 0.045 * u; }
  double thin() const { return 0.085 * u; }
  double thick() const { return 0.17 * u; }
};

void draw_grid(const LanesPen& pen, Box box);
/// Soft bands behind the lanes: where the crank may stand.
void draw_bands(const LanesPen& pen);
/// One row; words are written where no needle (their x in `needles`) crosses them.
void draw_lane(const LanesPen& pen, size_t row, std::span<const double> needles);
void draw_positions(const LanesPen& pen, Box box);
void draw_needles(const LanesPen& pen);
void draw_belief(const LanesPen& pen);

// Where a bump may leave the crank. kFanShown of the greatest weight makes a band through the lanes.
inline constexpr double kFanShown = 0.05;
void draw_fan_bands(const LanesPen& pen);
void draw_fan(const LanesPen& pen);

/// Room that the strips between the lanes and their axis take, in lines of text.
double belief_lines(const LanesView& view);
double fan_lines(const LanesView& view);

}  // namespace shutlane
