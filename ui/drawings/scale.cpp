#include "ui/drawings/scale.hpp"

#include <cmath>
#include <initializer_list>

namespace shutlane {

double nice_step(double span, int most) {
  const double rough = span / most;
  const double ten = std::pow(10, std::floor(std::log10(rough)));
  for (const double k : {1.0, 2.0, 5.0})
    if (k * ten >= rough * (1 - 1e-9)) return k * ten;
  return 10 * ten;
}

}  // namespace shutlane
