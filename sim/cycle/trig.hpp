#pragma once
// Sine and cosine of degrees, exact at every multiple of 90.
#include <cmath>
#include <numbers>

namespace shutlane {

inline constexpr double kRad_per_deg = std::numbers::pi / 180.0;

/// Reduced to the nearest quadrant first (remquo is exact), so that dead centres carry no rounding.
inline double sin_deg(double a_deg) {
  int quadrant = 0;
  const double r = std::remquo(a_deg, 90.0, &quadrant) * kRad_per_deg;
  switch (quadrant & 3) {
    case 0:
      return std::sin(r);
    case 1:
      return std::cos(r);
    case 2:
      return -std::sin(r) + 0.0;
    default:
      return -std::cos(r);
  }
}

inline double cos_deg(double a_deg) {
  int quadrant = 0;
  const double r = std::remquo(a_deg, 90.0, &quadrant) * kRad_per_deg;
  switch (quadrant & 3) {
    case 0:
      return std::cos(r);
    case 1:
      return -std::sin(r) + 0.0;
    case 2:
      return -std::cos(r);
    default:
      return std::sin(r);
  }
}

}  // namespace shutlane
