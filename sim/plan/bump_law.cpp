#include "sim/plan/bump_law.hpp"

#include <array>

namespace shutlane {

RestLaw::RestLaw(const RestTable& table, const std::vector<double>& weights)
    : presses_(int(table.presses_s.size())), phases_(table.phases) {
  for (int b = 0; b < kBins; ++b) phase_of_.push_back(table.phase_of(b));
  std::array<double, kBins> sum{};
  begin_.reserve(size_t(phases_ * presses_) + 1);
  begin_.push_back(0);
  for (int phase = 0; phase < phases_; ++phase)
    for (int press = 0; press < presses_; ++press) {
      sum.fill(0);
      for (size_t car = 0; car < table.cars.size(); ++car) {
        if (weights[car] <= 0) continue;
        const double each = weights[car] / table.trials_per_car;
        const int16_t* moved = table.trials(phase, press, int(car));
        for (int t = 0; t < table.trials_per_car; ++t) {
          int bin = moved[t] % kBins;
          if (bin < 0) bin += kBins;
          sum[size_t(bin)] += each;
        }
      }
      for (int bin = 0; bin < kBins; ++bin)
        if (sum[size_t(bin)] > 0) chances_.push_back({uint16_t(bin), float(sum[size_t(bin)])});
      begin_.push_back(chances_.size());
    }
  chances_.push_back({});  // so that the address of the end is an element's
}

}  // namespace shutlane
