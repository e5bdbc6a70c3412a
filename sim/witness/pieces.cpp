#include "sim/witness/pieces.hpp"

#include <algorithm>

namespace shutlane {

Pieces::Pieces(const std::vector<ArcSet>& sets) {
  std::vector<double> ends{0};
  for (const ArcSet& set : sets)
    for (const Arc& arc : set.arcs()) {
      ends.push_back(wrap_deg(arc.from_deg));
      ends.push_back(wrap_deg(arc.to_deg()));
    }
  std::sort(ends.begin(), ends.end());
  for (const double end_deg : ends)
    if (from_deg_.empty() || (end_deg - from_deg_.back() >= kSame_deg && kCycle_deg - end_deg >= kSame_deg)) {
      if (from_deg_.size() == kMost) {
        whole_ = false;
        break;
      }
      from_deg_.push_back(end_deg);
    }
}

Pieces::Bits Pieces::bits(const ArcSet& set) const {
  Bits found;
  for (size_t i = 0; i < size(); ++i) found[i] = set.contains(from_deg_[i] + (to_deg(i) - from_deg_[i]) / 2);
  return found;
}

ArcSet Pieces::arcs(const Bits& bits) const {
  std::vector<Arc> arcs;
  for (size_t i = 0; i < size(); ++i)
    if (bits[i]) arcs.push_back({from_deg_[i], to_deg(i) - from_deg_[i]});
  return ArcSet(std::move(arcs));
}

std::vector<double> Pieces::weights(const Bits& within, const std::vector<double>& chances) const {
  std::vector<double> weight(size(), 0.0);
  double sum = 0;
  if (!chances.empty()) {
    const double step_deg = kCycle_deg / static_cast<double>(chances.size());
    // Chance from 0 to x, every bin spread evenly over the step around its angle; any x from 0 to 720.
    std::vector<double> up_to(chances.size() + 1, 0.0);
    for (size_t i = 0; i < chances.size(); ++i) up_to[i + 1] = up_to[i] + chances[i];
    auto before = [&](double x_deg) {
      const double place = x_deg / step_deg + 0.5;  // bin 0 reaches back across 0
      const size_t whole = std::min(static_cast<size_t>(place), chances.size());
      const double part = place - static_cast<double>(whole);
      const double next = whole < chances.size() ? chances[whole] : chances[0];
      return up_to[whole] + part * next;
    };
    for (size_t i = 0; i < size(); ++i) {
      if (within[i]) weight[i] = std::max(0.0, before(to_deg(i)) - before(from_deg_[i]));
      sum += weight[i];
    }
  }
  if (!(sum > 1e-12)) {
    sum = 0;
    for (size_t i = 0; i < size(); ++i) {
      weight[i] = within[i] ? to_deg(i) - from_deg_[i] : 0;
      sum += weight[i];
    }
  }
  if (sum > 0)
    for (double& w : weight) w /= sum;
  return weight;
}

}  // namespace shutlane
