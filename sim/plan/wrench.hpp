#pragma once
// The wrench plan: the fewest turns, forward only, that bring every port left to a position where it is
// surely shut.
#include <vector>

#include "sim/plan/turning.hpp"
#include "sim/shut/windows.hpp"

namespace shutlane {

struct WrenchQuestion {
  double from_deg = 0;                         ///< where the crank is reckoned to stand
  double plus_minus_deg = 0;                   ///< 0..360, the start lies within this of from_deg
  double accuracy_deg = kDefaultAccuracy_deg;  ///< 0..360, how near an aimed position a turn ends
  std::vector<int> left;                       ///< cylinders still to be done
  std::vector<int> done;                       ///< ports blasted before (they may hold loose abrasive)
};

struct Position {
  double at_deg = 0;                                        ///< [0, 720)
  double turn_deg = 0, turn_min_deg = 0, turn_max_deg = 0;  ///< from the position before
  std::vector<int> blast, not_shut, suck_out_before;        ///< cylinder numbers, rising
};

struct WrenchPlan {
  std::vector<Position> positions;  ///< the start first, even with nothing to blast
  std::vector<int> no_plan;         ///< cylinders whose sure windows are too short; then positions is empty
  double total_turn_deg = 0;
  double narrowest_run_deg = 0;  ///< 0 without turns
  bool proven = true;            ///< false: the bound on the work was hit, fewer turns may do
  bool possible() const { return no_plan.empty(); }
  size_t turns() const { return positions.empty() ? 0 : positions.size() - 1; }
};

WrenchPlan plan_wrench(const std::vector<Windows>& windows, const WrenchQuestion& question);

/// Is one full turn, made to within the accuracy, right from every start? Then no angle need be known.
bool one_full_turn_always(const std::vector<Windows>& windows, double accuracy_deg,
                          double plus_minus_deg = 0);

}  // namespace shutlane
