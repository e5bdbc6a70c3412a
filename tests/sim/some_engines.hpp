#pragma once
// Engines for the tests: the contract's inline six, plain layouts by name, and seeded random ones.
#include "sim/mechanism/engine.hpp"
#include "tests/sim/dice.hpp"

namespace shutlane::test {

/// The engine, or an exception that lists the mistakes.
Engine built(const EngineSpec& spec);

/// Section 2 of the contract, number by number.
EngineSpec inline_six();

/// One bank "row" with the given order and even intervals; seat events 12/48 and 50/10, +-3 degrees.
EngineSpec in_line(const std::vector<int>& order);

/// Two banks, "left" (cylinders 1..n/2, tilt -angle/2) and "right"; valves as in_line.
EngineSpec vee(const std::vector<int>& order, double angle_deg);

/// A single with this valve as its intake.
EngineSpec one_cylinder(const ValveSpec& valve);

ValveSpec random_valve(Dice& dice,
                       ValveKind kind);  ///< a law, events at the seat or at a lift, maybe a phaser
ValveSpec random_table(Dice& dice);      ///< an intake lift table of 5 to 30 rows

struct RandomEngine {
  int cylinders_most = 16;
  bool phasers = true;  ///< some valves have a phase range
};
/// Any firing order and intervals, one to four banks, staggered lobes or a valve train of each bank's own.
EngineSpec random_engine(Dice& dice, const RandomEngine& wanted = {});

}  // namespace shutlane::test
