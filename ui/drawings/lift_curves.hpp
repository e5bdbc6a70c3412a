#pragma once
// Lift and lift velocity of one cylinder's valves over the crank angle from overlap TDC, with the seat events
// as stated and as far as every tolerance may move them.
#include <optional>
#include <vector>

#include "ui/drawings/events.hpp"
#include "ui/drawings/lanes.hpp"

namespace shutlane {

struct LiftView {
  const Engine* engine = nullptr;
  int cylinder = 1;
  std::optional<double> from_deg, to_deg;  ///< crank degrees from overlap TDC; default: all of both lifts
  std::optional<double> crank_deg, what_if_deg, hover_deg;  ///< cycle angles
  Theme theme = Theme::light;
  double text = 12;     ///< height of a line of text
  bool inches = false;  ///< otherwise millimetres
};

/// Where things lie. Local angles are not wrapped: 360 is overlap TDC.
struct LiftGeometry {
  Box lift, strips, velocity;       ///< three plots over the same angles, top to bottom
  double from_deg = 0, to_deg = 0;  ///< from overlap TDC
  double most_lift_mm = 0;          ///< top of the lift plot
  double most_velocity = 0;         ///< mm per crank degree, both ways
  double x_of(double from_overlap_deg) const;
  double y_of(double lift_mm) const;
  double y_of_velocity(double mm_per_deg) const;
  /// The places of a local crank angle within the plots, from overlap TDC: none where no valve moves, at most
  /// three.
  std::vector<double> places_of(double local_deg) const;
};

LiftGeometry lay_out_lift(const LiftView& view, Box box);
void draw_lift(Canvas& canvas, Box box, const LiftView& view);

}  // namespace shutlane
