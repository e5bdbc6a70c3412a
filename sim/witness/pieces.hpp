#pragma once
// The cycle cut at every end of a family of arc sets: on the pieces between, sets become bits.
#include <bitset>
#include <vector>

#include "sim/cycle/arc_set.hpp"

namespace shutlane {

class Pieces {
 public:
  static constexpr size_t kMost = 2048;
  using Bits = std::bitset<kMost>;

  explicit Pieces(const std::vector<ArcSet>& sets);
  size_t size() const { return from_deg_.size(); }
  bool whole() const { return whole_; }  ///< false: too many ends, some were left out
  Bits bits(const ArcSet& set) const;    ///< pieces whose middle lies in the set
  ArcSet arcs(const Bits& bits) const;
  /// Chance of every piece: by length, or by equal bins over the cycle (bin i centred at i * 720 / n). Sums
  /// to 1 over `within`, unless that holds no chance at all: then by length.
  std::vector<double> weights(const Bits& within, const std::vector<double>& chances) const;

 private:
  double to_deg(size_t i) const { return i + 1 < size() ? from_deg_[i + 1] : kCycle_deg; }
  std::vector<double> from_deg_;
  bool whole_ = true;
};

}  // namespace shutlane
