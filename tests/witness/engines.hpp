#pragma once
// Engines for these tests, invented; the bundled ones are told by their own files.
#include <gtest/gtest.h>

#include <algorithm>
#include <ostream>

#include "sim/mechanism/engine.hpp"

namespace shutlane::test {

struct Shape {
  std::vector<int> order;
  std::vector<double> intervals_deg = {};
  double opens_deg = 12, closes_deg = 48, timing_deg = 3;
  double at_lift_mm = 0;
  std::array<double, 2> phase_deg{0, 0};
  bool two_banks = false;  ///< odd numbers left, even numbers right
};

inline Engine engine_of(const Shape& shape) {
  EngineSpec spec;
  spec.name = "test";
  spec.source = "invented";
  spec.cylinder = {84, 89.6, 141, 0, 10.2};
  spec.layout.firing_order = shape.order;
  spec.layout.firing_intervals_deg = shape.intervals_deg;
  BankSpec row{"row", 0, {}, {}}, other{"other", 0, {}, {}};
  std::vector<int> sorted = shape.order;
  std::sort(sorted.begin(), sorted.end());
  for (const int n : sorted) (shape.two_banks && n % 2 == 0 ? other : row).cylinders.push_back(n);
  spec.layout.banks = {row};
  if (shape.two_banks) spec.layout.banks.push_back(other);
  ValveSpec intake;
  intake.opens_deg = shape.opens_deg;
  intake.closes_deg = shape.closes_deg;
  intake.at_lift_mm = shape.at_lift_mm;
  intake.peak_lift_mm = 9.7;
  intake.lift_law = LiftLaw::polynomial_4567;
  intake.phase_range_deg = shape.phase_deg;
  ValveSpec exhaust;
  exhaust.kind = ValveKind::exhaust;
  exhaust.opens_deg = 50;
  exhaust.closes_deg = 10;
  exhaust.peak_lift_mm = 9.5;
  exhaust.lift_law = LiftLaw::polynomial_4567;
  spec.valves = {intake, exhaust};
  spec.tolerance.timing_deg = shape.timing_deg;
  auto built = build_engine(spec);
  if (const auto* mistakes = std::get_if<std::vector<Mistake>>(&built)) {
    for (const Mistake& m : *mistakes) ADD_FAILURE() << m.key << ": " << m.wrong << "; " << m.expected;
    return {};
  }
  return std::get<Engine>(built);
}

struct Named {
  const char* name;
  Shape shape;
  friend void PrintTo(const Named& named, std::ostream* out) { *out << named.name; }
};

inline std::vector<Named> engines() {
  return {
      {"single", {{1}}},
      {"twin 360", {{1, 2}}},
      {"three", {{1, 3, 2}}},
      {"four", {{1, 3, 4, 2}}},
      {"four, phaser", {{1, 3, 4, 2}, {}, 12, 48, 5, 1.0, {0, 40}}},
      {"five", {{1, 2, 4, 5, 3}}},
      {"six", {{1, 5, 3, 6, 2, 4}}},
      {"six, wide", {{1, 5, 3, 6, 2, 4}, {}, 30, 70, 5}},
      {"vee six, uneven", {{1, 6, 5, 4, 3, 2}, {90, 150, 90, 150, 90, 150}, 12, 48, 5, 0, {0, 0}, true}},
      {"vee eight", {{1, 5, 4, 2, 6, 3, 7, 8}, {}, 12, 48, 5, 0, {0, 0}, true}},
      {"vee ten", {{1, 6, 5, 10, 2, 7, 3, 8, 4, 9}, {}, 12, 48, 5, 0, {0, 0}, true}},
      {"vee twelve", {{1, 7, 5, 11, 3, 9, 6, 12, 2, 8, 4, 10}, {}, 12, 48, 5, 0, {0, 0}, true}},
      {"sixteen", {{1, 9, 2, 10, 3, 11, 4, 12, 5, 13, 6, 14, 7, 15, 8, 16}, {}, 12, 48, 5, 0, {0, 0}, true}}};
}

}  // namespace shutlane::test
