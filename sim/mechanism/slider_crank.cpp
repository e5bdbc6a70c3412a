#include "sim/mechanism/slider_crank.hpp"

#include <cmath>
#include <numbers>

#include "sim/cycle/trig.hpp"

namespace shutlane {

double SliderCrank::top_dead_centre_deg() const {
  return std::asin(offset_mm / (rod_mm + crank_radius_mm)) / kRad_per_deg;
}

namespace {
double height_mm(double reach_mm, double offset_mm) {
  return std::sqrt(reach_mm * reach_mm - offset_mm * offset_mm);
}
double bore_area_cm2(const SliderCrank& c) { return std::numbers::pi / 400.0 * c.bore_mm * c.bore_mm; }
}  // namespace

double SliderCrank::travel_mm() const {
  return height_mm(rod_mm + crank_radius_mm, offset_mm) - height_mm(rod_mm - crank_radius_mm, offset_mm);
}

double SliderCrank::swept_cm3() const { return bore_area_cm2(*this) * travel_mm() / 10.0; }

double SliderCrank::clearance_cm3() const { return swept_cm3() / (compression_ratio - 1.0); }

SliderCrank::Motion SliderCrank::at_pin(double pin_deg) const {
  const double up_mm = crank_radius_mm * cos_deg(pin_deg);
  const double side_mm = crank_radius_mm * sin_deg(pin_deg);
  const double lean_mm = side_mm - offset_mm;  // of the rod, across the bore
  const double rise_mm = height_mm(rod_mm, lean_mm);
  const double lean_per_rise = lean_mm * up_mm / rise_mm;
  return {
      height_mm(rod_mm + crank_radius_mm, offset_mm) - (up_mm + rise_mm),
      side_mm + lean_per_rise,
      up_mm + (up_mm * up_mm - lean_mm * side_mm + lean_per_rise * lean_per_rise) / rise_mm,
  };
}

SliderCrank::Motion SliderCrank::at_local(double local_deg) const {
  return at_pin(offset_mm == 0 ? local_deg : local_deg + top_dead_centre_deg());
}

double SliderCrank::volume_cm3(double local_deg) const {
  return clearance_cm3() + bore_area_cm2(*this) * at_local(local_deg).below_top_mm / 10.0;
}

}  // namespace shutlane
