#include "sim/cranking/heaps.hpp"

#include <algorithm>
#include <cmath>

namespace shutlane {

std::vector<Heap> heaps_of(std::span<const float> advance_deg) {
  constexpr double kBin_deg = 10, kNextToNothing = 0.01, kLeastShare = 0.1;
  constexpr size_t kEmptyBins = 2;
  std::vector<double> sorted(advance_deg.begin(), advance_deg.end());
  std::sort(sorted.begin(), sorted.end());
  std::vector<Heap> heaps;
  if (sorted.empty()) return heaps;
  const double all = static_cast<double>(sorted.size());
  const double first_deg = std::floor(sorted.front() / kBin_deg) * kBin_deg;
  const auto bin_of = [&](double deg) { return static_cast<size_t>((deg - first_deg) / kBin_deg); };
  std::vector<double> shares(bin_of(sorted.back()) + 1, 0.0);
  for (const double deg : sorted) shares[bin_of(deg)] += 1 / all;
  size_t empty = kEmptyBins;  // bins since the last that holds something
  std::vector<std::pair<size_t, size_t>> runs;
  for (size_t bin = 0; bin < shares.size(); ++bin) {
    if (shares[bin] < kNextToNothing) {
      ++empty;
      continue;
    }
    if (empty >= kEmptyBins) runs.push_back({bin, bin});
    runs.back().second = bin;
    empty = 0;
  }
  for (const auto& [first, last] : runs) {
    const auto begin =
        std::lower_bound(sorted.begin(), sorted.end(), first_deg + kBin_deg * static_cast<double>(first));
    const auto end =
        std::lower_bound(begin, sorted.end(), first_deg + kBin_deg * static_cast<double>(last + 1));
    const auto count = end - begin;
    if (static_cast<double>(count) / all < kLeastShare) continue;
    const auto tail = count / 20;
    heaps.push_back({*(begin + tail), *(end - 1 - tail), static_cast<double>(count - 2 * tail) / all});
  }
  return heaps;
}

std::vector<Heap> rests_of(const TrialsAnswer& answer) {
  const std::vector<Heap> heaps = heaps_of(answer.advance_deg);
  return heaps.size() > 1 ? heaps : std::vector<Heap>{{answer.p05_deg, answer.p95_deg, 0.9}};
}

}  // namespace shutlane
