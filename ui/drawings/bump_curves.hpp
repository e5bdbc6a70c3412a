#pragma once
// One bump over time: crank speed, how far the crank has turned, cylinder pressures, torques on the crank.
// Four plots over the same seconds, two by two, with a line at an instant.
#include <array>
#include <optional>
#include <vector>

#include "sim/cranking/heaps.hpp"
#include "sim/cranking/record.hpp"
#include "ui/drawings/canvas.hpp"
#include "ui/drawings/palette.hpp"

namespace shutlane {

struct BumpCurvesView {
  const BumpRecord* record = nullptr;
  const CrankingModel* model = nullptr;  ///< that the record was made with
  std::vector<int> cylinders;            ///< numbers, in the model's order
  std::optional<int> cylinder;           ///< whose pressure is drawn strongest; without it all are alike
  std::vector<Heap> rests;      ///< where most bumps of this press rest: brackets at the angle's right end
  std::optional<double> now_s;  ///< the line, and the values in the headings
  bool us_units = false;        ///< psi and lb ft, otherwise bar and N m
  bool stale = false;           ///< drawn faintly: of an earlier question
  Theme theme = Theme::light;
  double text = 12;  ///< height of a line of text
};

struct BumpCurvesGeometry {
  enum Plot { speed, turned, pressure, torque };
  std::array<Box, 4> plots;
  double to_s = 1;  ///< every plot begins at 0
  double x_of(Plot plot, double time_s) const { return plots[plot].x + plots[plot].w * time_s / to_s; }
  /// The time under a place, taken to 0..to_s; nullopt left and right of the plots.
  std::optional<double> time_at(Point at) const;
};

BumpCurvesGeometry lay_out_bump_curves(const BumpCurvesView& view, Box box);
void draw_bump_curves(Canvas& canvas, Box box, const BumpCurvesView& view);

}  // namespace shutlane
