#pragma once
// One press from one start, many times over: where does the crank come to rest?
#include <array>
#include <cstdint>
#include <functional>
#include <vector>

#include "sim/cranking/fast.hpp"
#include "sim/cranking/spread.hpp"

namespace shutlane {

struct TrialsQuestion {
  double from_deg = 0;
  double press_s = 0.3;
  int trials = 10000;   ///< 1..10,000,000
  int first_trial = 0;  ///< of the seed's endless row of trials, so that a long run can be asked for in parts
  uint64_t seed = 1;
  int threads = 1;  ///< the answer does not depend on it
  /// 0..1, from any thread, one call at a time; false gives up.
  std::function<bool(double done)> progress{};
};

struct TrialsAnswer {
  std::vector<float> advance_deg;                                          ///< one a trial
  double mean_deg = 0, sd_deg = 0, p05_deg = 0, p50_deg = 0, p95_deg = 0;  ///< of the advance
  std::array<int, 720> rest_histogram{};  ///< [i] = rests in [i, i + 1) of the cycle
  bool given_up = false;                  ///< then there is nothing else in it
};

/// Every trial is another car and another hand, drawn from the model's spreads.
TrialsAnswer bump_trials(const FastKernel& kernel, const TrialsQuestion& question);
/// The same car every time, another hand.
TrialsAnswer bump_trials(const FastKernel& kernel, const TrialsQuestion& question, const CrankingDraw& car);
/// One of a set of cars every time, as often as it weighs (the weights sum to 1; at least one car).
TrialsAnswer bump_trials(const FastKernel& kernel, const TrialsQuestion& question,
                         const std::vector<CarSample>& cars);

}  // namespace shutlane
