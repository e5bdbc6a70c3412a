#include "sim/cranking/spread.hpp"

#include <cmath>

#include "sim/cranking/random.hpp"

namespace shutlane {

CrankingDraw car_draw(const CrankingSpec& spec, double u_starter, double u_friction) {
  CrankingDraw d;
  d.starter = std::exp(spec.starter_torque_spread * normal_from(u_starter));
  d.friction = std::exp(spec.friction_spread * normal_from(u_friction));
  return d;
}

CrankingDraw bump_draw(const CrankingSpec& spec, const CrankingDraw& car, const DrawNumbers& u) {
  CrankingDraw d = car;
  d.press = std::exp(spec.press_spread * normal_from(u[0]));
  d.engage_s = spec.engage_delay_spread_s * normal_from(u[1]);
  d.starter *= std::exp(kBumpShare * spec.starter_torque_spread * normal_from(u[2]));
  d.friction *= std::exp(kBumpShare * spec.friction_spread * normal_from(u[3]));
  d.leak *= std::exp(spec.leak_spread * normal_from(u[4]));
  d.inertia *= std::exp(spec.inertia_spread * normal_from(u[5]));
  // The fast path knows three exponents; a third of the weight lies on the outer two.
  const double off = std::sqrt(3.0) * spec.polytropic_spread;
  d.polytropic = u[6] < 1.0 / 6 ? -off : u[6] > 5.0 / 6 ? off : 0;
  return d;
}

std::vector<CarSample> car_samples(const CrankingSpec& spec) {
  static constexpr double weight[3] = {1.0 / 6, 2.0 / 3, 1.0 / 6};
  const double node = std::sqrt(3.0);
  std::vector<CarSample> cars;
  for (int s = 0; s < 3; ++s)
    for (int f = 0; f < 3; ++f) {
      CarSample c;
      c.draw.starter = std::exp(spec.starter_torque_spread * node * (s - 1));
      c.draw.friction = std::exp(spec.friction_spread * node * (f - 1));
      c.weight = weight[s] * weight[f];
      cars.push_back(c);
    }
  return cars;
}

}  // namespace shutlane
