#include "sim/witness/eye.hpp"

#include <algorithm>

namespace shutlane {

double chance_called_shut(const Eye& eye, double lift_mm) {
  if (lift_mm <= 0) return 1 - eye.false_open;
  const double from_mm = eye.limit_mm / 2;
  const double x = eye.limit_mm > 0 ? std::clamp((lift_mm - from_mm) / eye.limit_mm, 0.0, 1.0) : 1.0;
  const double step = x * x * (3 - 2 * x);
  return (1 - eye.false_open) * (1 - step) + eye.missed * step;
}

}  // namespace shutlane
