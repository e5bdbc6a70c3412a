#pragma once
// What many bumps from one start say together: the fan of rest angles.
#include <array>
#include <vector>

namespace shutlane {

/// Width of the stretch in which most rests lie closest together.
inline constexpr double kLikeliest_deg = 10;

struct RestFan {
  int trials = 0;
  std::vector<double> weights;  ///< of rests at each degree of the cycle, [i] = in [i, i + 1), summing to 1
  double likeliest_deg = 0;     ///< advance: middle of the ten degrees in which most of them rest
  double likeliest_share = 0;   ///< how many of them rest there, 0..1
  double p25_deg = 0, p50_deg = 0, p75_deg = 0;  ///< of the advance: half of them rest between p25 and p75
};

/// `advance_deg`: one a bump, at least one, each rest less start; may be negative.
RestFan rest_fan(double from_deg, const std::vector<float>& advance_deg);

}  // namespace shutlane
