#pragma once
// Every clause of the contract's section on `plan`, checked on a finished plan without any of the planner's
// code.
#include "sim/plan/wrench.hpp"

namespace shutlane::test {

/// The run of a position: the longest stretch of angles, holding x, over which all these stay surely shut.
struct Run {
  double from_deg = 0, to_deg = 0;  ///< not wrapped: from <= x <= to
  double length_deg() const { return to_deg - from_deg; }
};
Run run_at(const std::vector<Windows>& windows, const std::vector<int>& blast, double x_deg);

/// All but the two objectives: start rule, [x - a, x + a], runs, aims, ranges, lists, sum. Reports by EXPECT.
void check_clauses(const std::vector<Windows>& windows, const WrenchQuestion& question,
                   const WrenchPlan& plan);

/// The two objectives by GLPK: no plan with fewer turns, and with this many none whose narrowest run is
/// wider.
void check_objectives(const std::vector<Windows>& windows, const WrenchQuestion& question,
                      const WrenchPlan& plan);

const Windows& window_of(const std::vector<Windows>& windows, int cylinder);

/// The whole closed stretch lies in one arc (contract: within 1e-6 of an end belongs to it).
bool covers(const ArcSet& set, double from_deg, double to_deg);

}  // namespace shutlane::test
