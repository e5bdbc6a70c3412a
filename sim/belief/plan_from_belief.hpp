#pragma once
// What a belief recommends. Nothing here permits blasting: that takes two witnesses
// (sim/belief/evidence.hpp).
#include "sim/belief/belief.hpp"
#include "sim/belief/plan_from_looks.hpp"

namespace shutlane {

struct PortChances {
  int cylinder = 0;
  double shut_here = 0;  ///< really shut where the crank stands
  double served = 0;     ///< surely shut here, or surely shut after the turn
};

struct BeliefPlan {
  double turn_deg = 0;             ///< the one turn that serves most ports left; 0: none left
  double served_ports = 0;         ///< how many ports left it serves, on average, those of here included
  bool hand_turn = false;          ///< a full turn, half a turn or one and a half
  std::vector<PortChances> ports;  ///< ports left
  std::optional<int> next_look;    ///< fewest further looks until a port can be blasted, over the belief
  double doubt = 0;                ///< chance that not all is as told
};

/// A full turn, half a turn or one and a half is taken when it serves nearly as many (within 1 in 100 ports).
BeliefPlan plan_from_belief(const Engine& engine, const Belief& belief, const Evidence& evidence,
                            const LooksPlanQuestion& question);

}  // namespace shutlane
