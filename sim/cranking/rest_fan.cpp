#include "sim/cranking/rest_fan.hpp"

#include <algorithm>
#include <cmath>

#include "sim/cycle/angle.hpp"

namespace shutlane {

RestFan rest_fan(double from_deg, const std::vector<float>& advance_deg) {
  RestFan fan;
  std::vector<double> sorted(advance_deg.begin(), advance_deg.end());
  std::sort(sorted.begin(), sorted.end());
  fan.trials = int(sorted.size());
  fan.weights.assign(size_t(kCycle_deg), 0.0);
  for (const double a : sorted) {
    const size_t bin = size_t(wrap_deg(from_deg + a));
    fan.weights[std::min(bin, fan.weights.size() - 1)] += 1.0 / fan.trials;
  }
  // The fullest stretch begins at a rest: sliding it on to one loses none.
  size_t end = 0, most = 0;
  for (size_t i = 0; i < sorted.size(); ++i) {
    while (end < sorted.size() && sorted[end] <= sorted[i] + kLikeliest_deg) ++end;
    if (end - i <= most) continue;
    most = end - i;
    fan.likeliest_deg = (sorted[i] + sorted[end - 1]) / 2;
  }
  fan.likeliest_share = double(most) / fan.trials;
  const auto quantile = [&](double p) {  // the smallest advance that at least a share p does not exceed
    return sorted[size_t(std::max(0.0, std::ceil(p * double(sorted.size())) - 1))];
  };
  fan.p25_deg = quantile(0.25);
  fan.p50_deg = quantile(0.50);
  fan.p75_deg = quantile(0.75);
  return fan;
}

}  // namespace shutlane
