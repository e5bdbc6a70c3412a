#pragma once
// The stochastic shortest path over (crank angle, ports left): the fewest bumps to be expected, exactly.
//
// Ports are only ever done, so each set of ports left is a fixed point of its own whose exits are smaller
// sets. Bound: every bump costs 1. If |TV - V| <= d < 1 everywhere (T: one step of value iteration), then
// V/(1-d) is a super-solution and V/(1+d) a sub-solution, so V/(1+d) <= V* <= V/(1-d): for a policy with
// stage cost c >= 1 and chances Q, c + QV/(1-d) <= V/(1-d) follows from c + QV <= V + d. The relative errors
// of nested sets multiply. (The idea of stopping on a checked super-solution is that of interval iteration,
// Haddad and Monmege, TCS 735, 2018; a small change between sweeps alone proves nothing.)
#include <array>
#include <cstdint>
#include <functional>
#include <limits>
#include <unordered_map>
#include <vector>

#include "sim/plan/bump_law.hpp"

namespace shutlane {

using PortSet = uint32_t;  ///< bit i: cylinder at place i of the firing order
inline constexpr double kNever = std::numeric_limits<double>::infinity();

/// What the solver knows of an engine.
struct SureBins {
  std::array<PortSet, kBins> sure{};  ///< surely shut over the whole bin
  int ports = 0;
  int period =
      kBins;  ///< bins after which the picture repeats with every port one place on; kBins: it does not
};

class BumpSolver {
 public:
  /// Only the presses named by `allowed` (indices of the law; empty: all) may be used. `stop` per (ports
  /// left) may offer another way to finish at a cost in bumps; kNever: none. The law must outlive the solver.
  BumpSolver(const RestLaw& law, const SureBins& bins, std::vector<int> allowed = {},
             std::function<double(PortSet)> stop = {});

  /// Bumps to be expected from a bin with these ports left, those surely shut there done first. 0 when none
  /// is left; kNever when no sequence of presses is certain to end.
  double bumps(int bin, PortSet left);
  /// The same when the first press is given; ports surely shut at the start are NOT done first.
  double bumps_with(int bin, PortSet left, int press);
  double bumps_with(const RestLaw& law, int bin, PortSet left, int press);
  int best_press(int bin, PortSet left);  ///< index of the law; -1: stop, or nothing to do, or never

  const std::vector<int>& allowed() const { return allowed_; }
  double relative_error() const { return error_; }  ///< of every value given so far
  size_t sets_solved() const { return solved_.size(); }

 private:
  struct Solved {
    std::vector<double> value;  // per bin
    std::vector<int8_t> press;
    double error = 0;
  };
  struct Turned {
    PortSet set;
    int bins;  // to add to a bin
  };
  Turned canonical(PortSet left) const;
  const Solved& solved(PortSet left);  // canonical, not empty
  Solved solve(PortSet left);
  void prove_ends(const std::vector<int>& open, std::vector<char>& ends) const;

  const RestLaw* law_;
  SureBins bins_;
  std::vector<int> allowed_;
  std::function<double(PortSet)> stop_;
  std::unordered_map<PortSet, Solved> solved_;
  double error_ = 0;

  // scratch of solve(), kept to spare the allocations
  struct Inside {
    uint16_t at;
    float chance;
  };
  std::vector<Inside> inside_;
  std::vector<size_t> inside_begin_;
  std::vector<double> exit_;
};

}  // namespace shutlane
