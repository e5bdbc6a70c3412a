#pragma once
// Many bumps side by side: fixed steps of the crank instead of steps of time, lanes of single-precision
// numbers.
//
// Over a step the gas work is exact for a fixed amount of gas, friction and starter are linear in speed, so
// that the energy balance is a quadratic in the speed at the step's end; the leak follows step by step. The
// powered phase is run once for all presses of one trial. Error against the reference path: see
// tests/bench/bump.cpp.
#include <vector>

#include "sim/cranking/fast_tables.hpp"

namespace shutlane {

inline constexpr double kFastStep_deg = 1.0;

/// One crank, one hand: several presses from the same start.
struct FastTrial {
  double start_deg = 0;
  CrankingDraw draw;  ///< draw.press is not used here
  const float* drives_s =
      nullptr;  ///< how long the starter drives in each press, rising; <= 0: does not move
  int presses = 0;
};

class FastKernel {
 public:
  /// The model's exponent and, when polytropic_spread > 0, the two that lie sqrt(3) spreads off (the nodes of
  /// a three-point Gauss-Hermite rule); a draw is given the nearest of them.
  explicit FastKernel(const CrankingModel& model, double step_deg = kFastStep_deg);

  /// advance_deg gets trial after trial, press after press. Pure: the answer for a trial does not depend on
  /// the trials beside it.
  void run(const std::vector<FastTrial>& trials, std::vector<float>& advance_deg) const;

  const CrankingModel& model() const { return model_; }
  const FastTables& tables() const { return tables_[1]; }

 private:
  CrankingModel model_;
  std::vector<FastTables> tables_;  // below, at, above the model's exponent
};

}  // namespace shutlane
