#include "sim/plan/bump_learn.hpp"

#include <algorithm>
#include <utility>

namespace shutlane {
namespace {

template <typename Fits>
std::vector<double> by_bayes(const RestTable& table, const std::vector<double>& weights, int start_bin,
                             int press, double by_slip, const Fits& fits) {
  const int phase = table.phase_of(start_bin);
  std::vector<double> out;
  double sum = 0;
  for (size_t car = 0; car < table.cars.size(); ++car) {
    const int16_t* moved = table.trials(phase, press, int(car));
    int hits = 0;
    for (int t = 0; t < table.trials_per_car; ++t) hits += fits(int(moved[t]));
    const double chance = (1 - kSlip) * hits / table.trials_per_car + kSlip * by_slip;
    out.push_back(weights[car] * chance);
    sum += out.back();
  }
  if (sum <= 0) return weights;
  for (double& w : out) w /= sum;
  return out;
}

}  // namespace

ReckonedAdvance reckoned_advance(const RestTable& table, const std::vector<double>& weights, int start_bin,
                                 int press) {
  const int phase = table.phase_of(start_bin);
  std::vector<std::pair<int, double>> all;
  for (size_t car = 0; car < table.cars.size(); ++car) {
    const int16_t* moved = table.trials(phase, press, int(car));
    for (int t = 0; t < table.trials_per_car; ++t)
      all.push_back({moved[t], weights[car] / table.trials_per_car});
  }
  std::sort(all.begin(), all.end());
  const auto quantile = [&](double p) {
    double sum = 0;
    for (const auto& [moved, weight] : all) {
      sum += weight;
      if (sum >= p) return double(moved);
    }
    return double(all.back().first);
  };
  return {quantile(0.25), quantile(0.75)};
}

std::vector<double> learned(const RestTable& table, const std::vector<double>& weights, int start_bin,
                            int press, Went went) {
  const ReckonedAdvance r = reckoned_advance(table, weights, start_bin, press);
  return by_bayes(table, weights, start_bin, press, 1.0 / 3, [&](int moved) {
    const Went w = moved < r.low_deg    ? Went::less_far
                   : moved > r.high_deg ? Went::further
                                        : Went::as_reckoned;
    return w == went;
  });
}

std::vector<double> learned(const RestTable& table, const std::vector<double>& weights, int start_bin,
                            int press, const ArcSet& rests_within) {
  return by_bayes(table, weights, start_bin, press, rests_within.total_deg() / kBins, [&](int moved) {
    return rests_within.contains(((start_bin + moved) % kBins + kBins) % kBins + 0.5);
  });
}

}  // namespace shutlane
