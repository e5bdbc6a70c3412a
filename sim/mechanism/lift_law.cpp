#include "sim/mechanism/lift_law.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <numbers>

#include <boost/math/tools/toms748_solve.hpp>

namespace shutlane {

Rise rise(LiftLaw law, double u) {
  constexpr double pi = std::numbers::pi;
  u = std::clamp(u, 0.0, 1.0);
  switch (law) {
    case LiftLaw::polynomial_345:
      return {u * u * u * (10 + u * (-15 + 6 * u)), u * u * (30 + u * (-60 + 30 * u)),
              u * (60 + u * (-180 + 120 * u))};
    case LiftLaw::cycloidal: {
      const double turn = 2 * pi * u;
      return {u - std::sin(turn) / (2 * pi), 1 - std::cos(turn), 2 * pi * std::sin(turn)};
    }
    case LiftLaw::harmonic: {
      const double half = pi * u;
      return {(1 - std::cos(half)) / 2, pi / 2 * std::sin(half), pi * pi / 2 * std::cos(half)};
    }
    case LiftLaw::polynomial_4567:
    case LiftLaw::table:
      break;
  }
  const double u2 = u * u;
  return {u2 * u2 * (35 + u * (-84 + u * (70 - 20 * u))), u2 * u * (140 + u * (-420 + u * (420 - 140 * u))),
          u2 * (420 + u * (-1680 + u * (2100 - 840 * u)))};
}

double rise_inverse(LiftLaw law, double s) {
  if (s <= 0) return 0;
  if (s >= 1) return 1;
  // Near u = 1 rounding may leave s(1) short of s by an ulp: the end is the answer then.
  if (rise(law, 1.0).s <= s) return 1;
  std::uintmax_t steps = 200;
  const auto [low, high] = boost::math::tools::toms748_solve(
      [&](double u) { return rise(law, u).s - s; }, 0.0, 1.0, -s, rise(law, 1.0).s - s,
      boost::math::tools::eps_tolerance<double>(53), steps);
  return low + (high - low) / 2;
}

}  // namespace shutlane
