#pragma once
// Spread: what differs from car to car and is not known (starter, friction, leak, inertia, exponent), and
// what differs from bump to bump on the same car (press, delay, a share of starter and friction).
#include <array>
#include <cstdint>
#include <vector>

#include "sim/cranking/model.hpp"

namespace shutlane {

/// Share of the starter's and friction's spread that a car shows from bump to bump (battery recovering, oil
/// film); an estimate, no source.
inline constexpr double kBumpShare = 0.3;

inline constexpr int kDrawDimensions = 8;
using DrawNumbers = std::array<double, kDrawDimensions>;  ///< uniform in (0, 1)

/// A bump's draw on a car: the car's starter and friction are `car`'s; everything else is drawn.
CrankingDraw bump_draw(const CrankingSpec& spec, const CrankingDraw& car, const DrawNumbers& numbers);
/// A car drawn from what is stated: starter and friction.
CrankingDraw car_draw(const CrankingSpec& spec, double u_starter, double u_friction);

/// Starter's drive in a press, s; <= 0: it does not engage.
inline double drive_s(const CrankingModel& model, double press_s, const CrankingDraw& draw) {
  return press_s * draw.press + model.release_delay_s - model.engage_delay_s - draw.engage_s;
}

/// One of a small set of cars that stands for all that may have been meant.
struct CarSample {
  CrankingDraw draw;
  double weight = 0;  ///< the weights of a set sum to 1
};
/// Three starters by three frictions, at the nodes and weights of the three-point Gauss-Hermite rule.
std::vector<CarSample> car_samples(const CrankingSpec& spec);

}  // namespace shutlane
