#pragma once
// Windows made up directly: sure arcs anywhere on the cycle, with wider ones around them.
#include "sim/shut/windows.hpp"
#include "tests/sim/dice.hpp"

namespace shutlane::test {

inline Windows window(int cylinder, const ArcSet& sure, double around_deg = 10) {
  return {.cylinder = cylinder,
          .shut = sure.grown(2 * around_deg),
          .within_tolerance = sure.grown(around_deg),
          .sure = sure};
}

struct RandomWindows {
  int cylinders = 8;
  int arcs_least = 1;
  bool whole_degrees = false;
  double shortest_deg = 10;
};

/// One or two disjoint arcs a cylinder, from short to more than half the cycle.
inline std::vector<Windows> random_windows(Dice& dice, const RandomWindows& wanted) {
  std::vector<Windows> all;
  const double longest = dice.pick<double>({60, 150, 300, 500});
  for (int k = 1; k <= wanted.cylinders; ++k) {
    std::vector<Arc> arcs;
    const int count = dice.whole(wanted.arcs_least, 2);
    double at = dice.between(0, 720);
    for (int i = 0; i < count; ++i) {
      Arc arc{at, dice.between(wanted.shortest_deg, longest / count)};
      if (wanted.whole_degrees) arc = {std::floor(arc.from_deg), std::floor(arc.length_deg)};
      at = arc.to_deg() + dice.between(30, 100);
      arcs.push_back(arc);
    }
    all.push_back(window(k, ArcSet(arcs)));
  }
  return all;
}

}  // namespace shutlane::test
