#pragma once
// What the fast path looks up instead of computing: gas work and leak over each small step of the crank.
//
// A sealed cylinder is carried as k = (p/pa) (V/Vref)^n, which only the leak changes. Over a step of the
// crank from one node to the next its work on the crank is then exactly k * work - pa * (V2 - V1), with work
// = pa * integral of (Vref/V)^n dV.
#include <vector>

#include "sim/cranking/model.hpp"

namespace shutlane {

struct FastTables {
  struct Cell {
    float work = 0;    ///< J for k = 1 over the forward step; 0 while the cylinder is open
    float gap = 0;     ///< n (Vref/V)^n / (2 V), 1/m3, middle of the step; 0 while it is open
    float calm = 1;    ///< k at ambient pressure, middle of the step
    float opened = 1;  ///< k that an open cylinder takes: ambient at the seat event next to it
  };
  int nodes = 0;        ///< steps in a period
  int slots = 0;        ///< cylinders that may be sealed together
  bool shifts = false;  ///< a period is one firing interval, and slots move on at its end
  double step_deg = 1;
  double origin_deg = 0;    ///< cycle angle of node 0
  std::vector<Cell> cells;  ///< [node * slots + slot]
  std::vector<float>
      air;  ///< J of the ambient pressure over the forward step of a node, all sealed cylinders
  /// N m s: with the plugs out the pressure follows the piston within a millisecond, p - pa = -pa w dV/dangle
  /// / C, which brakes in proportion to the speed. Cells are then all open.
  std::vector<float> brake;
  std::vector<float> calm_edge;  ///< k at ambient at the node itself, [node * slots + slot], one node more
  std::vector<float> before, after;  ///< per slot: `opened` at the intake's end and at the exhaust's end

  double period_deg() const { return nodes * step_deg; }
};

/// `step_deg` is rounded so that a whole number of steps makes a period; 0.1..5.
FastTables fast_tables(const CrankingModel& model, double step_deg);

}  // namespace shutlane
