#pragma once
// Cranks for the tests of layouts: bank and pin angles of cylinders 1..n, and every way in which they can
// fire. cylinder TDC at (bank angle - pin angle) mod 360 in the direction of rotation, fired there or a turn
// later.
#include <algorithm>
#include <cmath>

#include "sim/mechanism/layout.hpp"
#include "tests/sim/some_engines.hpp"

namespace shutlane::test {

inline double mod(double a, double by) {
  const double r = std::fmod(std::fmod(a, by) + by, by);
  return r > by - 1e-9 ? 0 : r;
}

/// A crank and its banks: cylinders 1..n, bank angle and pin of each in the direction of rotation.
struct Crank {
  std::vector<double> bank_deg, pin_deg;
  size_t size() const { return pin_deg.size(); }
};

inline Crank row(std::vector<double> pins) {
  return {std::vector<double>(pins.size(), 0.0), std::move(pins)};
}

/// Left bank 0 (cylinders 1..h), right bank +B with each pin delta past its neighbour's.
inline Crank vee_crank(std::vector<double> pins_left, double angle_deg, double delta_deg) {
  Crank c = row(pins_left);
  for (const double pin : pins_left) {
    c.bank_deg.push_back(angle_deg);
    c.pin_deg.push_back(mod(pin + delta_deg, 360));
  }
  return c;
}

/// Odd numbers left, even right, neighbours on one pin.
inline Crank odd_even(const std::vector<double>& pins, double angle_deg) {
  Crank c;
  for (const double pin : pins)
    for (const double bank : {0.0, angle_deg}) {
      c.bank_deg.push_back(bank);
      c.pin_deg.push_back(pin);
    }
  return c;
}

inline EngineSpec spec_of(const Crank& crank, const std::vector<int>& order,
                          const std::vector<double>& intervals) {
  EngineSpec spec = in_line(order);
  spec.layout.firing_intervals_deg = intervals;
  spec.layout.banks.clear();
  for (size_t i = 0; i < crank.size(); ++i) {
    auto& banks = spec.layout.banks;
    const auto same = std::find_if(banks.begin(), banks.end(),
                                   [&](const BankSpec& b) { return b.tilt_deg == crank.bank_deg[i]; });
    const int number = static_cast<int>(i + 1);
    if (same != banks.end())
      same->cylinders.push_back(number);
    else
      banks.push_back({.name = "bank " + std::to_string(banks.size()),
                       .tilt_deg = crank.bank_deg[i],
                       .cylinders = {number},
                       .bore_offset_mm = {}});
    spec.layout.crank_pins_deg[number] = crank.pin_deg[i];
  }
  return spec;
}

inline bool fits(const Crank& crank, const std::vector<int>& order,
                 const std::vector<double>& intervals = {}) {
  return mistakes_in(spec_of(crank, order, intervals)).empty();
}

/// Every way to fire (each cylinder at its TDC or a turn later) whose intervals are `pattern`, begun
/// anywhere: an order and its intervals, cylinder 1 at 0.
struct Firing {
  std::vector<int> order;
  std::vector<double> intervals;
};
inline std::vector<Firing> firings(const Crank& crank, const std::vector<double>& pattern) {
  const size_t n = crank.size();
  std::vector<Firing> all;
  for (unsigned turns = 0; turns < (1U << n); turns += 2) {  // cylinder 1 fires at 0
    std::vector<std::pair<double, int>> at;
    for (size_t i = 0; i < n; ++i)
      at.push_back({mod(crank.bank_deg[i] - crank.pin_deg[i], 360) + (turns >> i & 1U ? 360 : 0),
                    static_cast<int>(i + 1)});
    std::sort(at.begin(), at.end());
    Firing f;
    for (size_t i = 0; i < n; ++i) {
      f.order.push_back(at[i].second);
      f.intervals.push_back(i + 1 < n ? at[i + 1].first - at[i].first : 720 - at[i].first + at[0].first);
    }
    for (size_t start = 0; start < pattern.size(); ++start) {
      bool same = true;
      for (size_t i = 0; i < n; ++i)
        same = same && std::abs(f.intervals[i] - pattern[(start + i) % pattern.size()]) < 1e-6;
      if (!same) continue;
      all.push_back(f);
      break;
    }
  }
  return all;
}

// Pins of cylinders 1.. of a row, or of a V's left bank.
inline const std::vector<double> kI4{0, 180, 180, 0}, kCross{0, 90, 270, 180}, kV6{0, 240, 120}, kV4{0, 180},
    kI6{0, 240, 120, 120, 240, 0}, kV10{0, 216, 144, 72, 288};

}  // namespace shutlane::test
