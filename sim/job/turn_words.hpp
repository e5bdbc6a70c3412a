#pragma once
// A turn as the hand feels it: quarters, else eighths or twelfths, degrees only when nothing else fits.
#include <string>

#include "sim/plan/wrench.hpp"

namespace shutlane {

struct ToldTurn {
  double aim_deg = 0;               ///< what is asked for
  double min_deg = 0, max_deg = 0;  ///< what is said to do as well; equal when no range is told
  /// What is logged when the turn is reported as made: all that was said to do, and the accuracy about the
  /// aim.
  double logged_min_deg = 0, logged_max_deg = 0;
};

/// Rounds inwards: whatever is told lies within [min_deg, max_deg] of the planned position.
ToldTurn tell_turn(const Position& planned, double accuracy_deg);

/// "half a turn", "one full turn", "one and a quarter turns", "five twelfths of a turn", "217°".
std::string turn_in_words(double turn_deg);

}  // namespace shutlane
