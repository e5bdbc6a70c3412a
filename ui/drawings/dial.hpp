#pragma once
// The valve-timing circle of one cylinder over both turns of its cycle: the lane rolled up. The inner turn is
// power and exhaust, the outer one intake and compression; it runs the way the crank turns, seen from the
// pulley end.
#include <optional>

#include "ui/drawings/events.hpp"
#include "ui/drawings/lanes.hpp"

namespace shutlane {

struct DialView {
  const Engine* engine = nullptr;
  const Windows* windows = nullptr;  ///< of the cylinder shown
  std::optional<double> crank_deg;   ///< the job's crank: a solid needle
  double plus_minus_deg = 0;
  std::optional<double> what_if_deg;  ///< a hollow needle
  bool labels = true;                 ///< events in words round the circle
  Theme theme = Theme::light;
  double text = 12;  ///< height of a line of text
};

struct DialGeometry {
  Point centre;
  double radius = 0;     ///< of the outermost edge
  double direction = 1;  ///< +1 clockwise on the page

  /// Middle of the track at a local angle in [0, 720]; `out` moves it outwards, as a part of the radius.
  Point at(double local_deg, double out = 0) const;
  Point ray(double local_deg, double part) const;  ///< at this part of the radius
};

DialGeometry lay_out_dial(const DialView& view, Box box);
void draw_dial(Canvas& canvas, Box box, const DialView& view);

}  // namespace shutlane
