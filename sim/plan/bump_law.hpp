#pragma once
// The rest table read as chances: from a start bin, with a press, the chance of each rest bin.
#include <cstdint>
#include <vector>

#include "sim/cranking/rest_table.hpp"

namespace shutlane {

/// One car, or a mixture of cars by weight.
class RestLaw {
 public:
  struct Chance {
    uint16_t bin = 0;  ///< rest bin less the phase's own bin, modulo 720
    float chance = 0;
  };
  struct Span {
    const Chance* first;
    const Chance* last;
    const Chance* begin() const { return first; }
    const Chance* end() const { return last; }
  };

  /// `weights` one a car of the table, summing to 1.
  RestLaw(const RestTable& table, const std::vector<double>& weights);

  int presses() const { return presses_; }
  int phases() const { return phases_; }
  int phase_of(int bin) const { return phase_of_[size_t(bin)]; }
  Span from_phase(int phase, int press) const {
    const size_t cell = size_t(phase * presses_ + press);
    return {&chances_[begin_[cell]], &chances_[begin_[cell + 1]]};
  }
  /// Calls take(rest bin, chance) for every rest bin that is possible.
  template <typename Take>
  void rests(int bin, int press, const Take& take) const {
    for (const Chance& c : from_phase(phase_of(bin), press)) {
      const int at = bin + c.bin;
      take(at >= kBins ? at - kBins : at, double(c.chance));
    }
  }

 private:
  int presses_ = 0, phases_ = 0;
  std::vector<int> phase_of_;
  std::vector<size_t> begin_;
  std::vector<Chance> chances_;
};

}  // namespace shutlane
