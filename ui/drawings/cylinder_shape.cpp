#include "ui/drawings/cylinder_shape.hpp"

#include <algorithm>
#include <cmath>

#include "sim/cycle/trig.hpp"
#include "ui/drawings/crank_train.hpp"

namespace shutlane {

namespace {

constexpr double kSquish_mm = 1.0;
constexpr double kSteepestRoof = 0.42;  // rise over half a bore: 23 degrees
constexpr double kFlattestRoof = 0.07;

/// Outwards to the right of the bore for positive tilt is the outside of a V; the intake lies inside, in the
/// valley.
int intake_side(double tilt_deg) {
  const double lean = std::remainder(tilt_deg, 360.0);
  return lean < 0 ? 1 : -1;
}

double highest_lift_mm(const Engine& engine) {
  double lift_mm = 0;
  for (const ValveTrain& train : engine.trains) lift_mm = std::max(lift_mm, train.profile.peak_lift_mm());
  return lift_mm;
}

}  // namespace

CylinderShape shape_of(const Engine& engine, const Cylinder& cylinder) {
  const SliderCrank& c = cylinder.crank;
  const double b = c.bore_mm;
  CylinderShape s;
  s.bore_mm = b;
  s.axis_mm = turning(engine) * c.offset_mm;
  s.wall_mm = 0.07 * b;
  s.crown_mm = 0.38 * b;
  s.skirt_mm = 0.30 * b;
  const double reach_mm = c.rod_mm + c.crank_radius_mm;
  const double pin_top_mm = std::sqrt(reach_mm * reach_mm - c.offset_mm * c.offset_mm);
  s.deck_mm = pin_top_mm + s.crown_mm + kSquish_mm;
  s.wall_foot_mm = pin_top_mm - c.travel_mm() - 0.08 * b;
  // A roof over the whole bore has half the volume of a box of its height.
  const double clearance_mm = c.travel_mm() / (c.compression_ratio - 1);
  s.roof_mm = std::clamp(2 * clearance_mm, kFlattestRoof * b / 2, kSteepestRoof * b / 2);
  s.roof_deg = std::atan2(s.roof_mm, b / 2) / kRad_per_deg;
  s.head_half_mm = 0.84 * b;
  s.head_height_mm = 0.66 * b;
  s.lobe_mm = 0.15 * b;
  s.intake_side = intake_side(cylinder.tilt_deg);
  const double valve_mm = 0.95 * b;
  s.top_mm = s.deck_mm + s.roof_mm / 2 + cos_deg(s.roof_deg) * (valve_mm + s.lobe_mm) + s.lobe_mm +
             highest_lift_mm(engine);
  s.foot_mm = -1.55 * c.crank_radius_mm;
  return s;
}

std::vector<ValveShape> valves_of(const Engine& engine, const Cylinder& cylinder, const CylinderShape& shape,
                                  double local_deg) {
  std::vector<ValveShape> valves;
  const double d = turning(engine);
  const double facet_mm = shape.bore_mm / 2 / cos_deg(shape.roof_deg);
  for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {
    const int side = kind == ValveKind::intake ? shape.intake_side : -shape.intake_side;
    for (const size_t i : kind == ValveKind::intake ? cylinder.intake : cylinder.exhaust) {
      const LiftProfile& profile = engine.trains[i].profile;
      ValveShape v;
      v.kind = kind;
      v.train = i;
      v.lift_mm = profile.lift_mm(local_deg);
      v.away = {side * sin_deg(shape.roof_deg), cos_deg(shape.roof_deg)};
      v.seat = {shape.axis_mm + side * shape.bore_mm / 4, shape.deck_mm + shape.roof_mm / 2};
      v.radius_mm = (kind == ValveKind::intake ? 0.42 : 0.37) * facet_mm;
      v.length_mm = 0.95 * shape.bore_mm;
      v.cam_centre = v.seat + (v.length_mm + shape.lobe_mm) * v.away;
      // The cam turns the crank's way at half its speed, so what comes later in the cycle lies behind.
      const double contact_deg = std::atan2(-v.away.x, -v.away.y) / kRad_per_deg;
      constexpr double step_deg = 3;
      for (double ahead_deg = 0; ahead_deg < 360; ahead_deg += step_deg) {
        const double r_mm = shape.lobe_mm + profile.lift_mm(local_deg + 2 * ahead_deg);
        v.lobe.push_back(v.cam_centre + r_mm * clock_direction(contact_deg - d * ahead_deg));
      }
      valves.push_back(std::move(v));
    }
  }
  return valves;
}

}  // namespace shutlane
