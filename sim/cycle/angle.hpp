#pragma once
// Cycle angles: crank degrees over one four-stroke cycle, 0 <= a < 720, growing in the direction of rotation.
#include <cmath>

namespace shutlane {

inline constexpr double kCycle_deg = 720.0;
inline constexpr double kTurn_deg = 360.0;
inline constexpr double kSame_deg = 1e-6;  // angles, widths and lengths closer than this are equal

/// Any finite angle brought to [0, 720). fmod is exact, so quadrant angles stay exact.
inline double wrap_deg(double a_deg) {
  double r = std::fmod(a_deg, kCycle_deg);
  if (r < 0) r += kCycle_deg;
  return r >= kCycle_deg ? 0.0 : r + 0.0;  // a tiny negative rounds up to 720; + 0.0 turns -0 into 0
}

/// Degrees forward from one angle to another, [0, 720).
inline double forward_deg(double from_deg, double to_deg) { return wrap_deg(to_deg - from_deg); }

/// forward_deg that takes an angle just before `from` for `from` itself: (-kSame, 720 - kSame].
inline double forward_or_same_deg(double from_deg, double to_deg) {
  const double d = forward_deg(from_deg, to_deg);
  return d > kCycle_deg - kSame_deg ? d - kCycle_deg : d;
}

}  // namespace shutlane
