#pragma once
// One cylinder's intake port under every tolerance, by trying: lift_oracle's valves with their events moved.
#include "sim/mechanism/engine.hpp"
#include "tests/sim/dice.hpp"
#include "tests/sim/lift_oracle.hpp"

namespace shutlane::test {

/// How far a valve's two seat events are moved (positive: later).
struct Moved {
  double opening_deg = 0, closing_deg = 0;
};

class PortOracle {
 public:
  PortOracle(const Engine& engine, int cylinder);

  bool shut(double crank_deg) const;                     ///< events as stated, phaser at 0
  std::vector<double> lifts_mm(double crank_deg) const;  ///< one per valve, file order
  std::vector<Moved> sampled(Dice& dice) const;  ///< an allowed tolerance for each entry, often a corner
  double lift_mm(double crank_deg, const std::vector<Moved>& moved) const;  ///< the highest valve's
  bool lifted(double crank_deg, const std::vector<Moved>& moved) const {
    return lift_mm(crank_deg, moved) > 0;
  }
  /// Some allowed tolerance lifts a valve: events outwards as far as they go, the phaser swept in small
  /// steps.
  bool may_be_lifted(double crank_deg) const;
  /// No allowed tolerance lifts a valve anywhere on [from, to]: the hulls of the openings stay outside.
  bool never_lifted_between(double from_deg, double to_deg) const;
  /// The lift that one valve at least has under every tolerance: for each valve the least over its corners
  /// (events inwards, phaser at both ends), then the greatest over the valves.
  double least_lift_mm(double crank_deg) const;
  /// Angles where any of the answers above changes, for one eye: seat events and reaches at their corners.
  std::vector<double> breakpoints_deg(double eye_mm) const;

 private:
  struct Entry {
    ValveOracle valve;
    int per_cylinder;
    double first_deg, last_deg, timing_deg, seat_deg;
  };
  double local(double crank_deg) const { return crank_deg - tdc_deg_; }
  std::vector<Entry> entries_;
  double tdc_deg_ = 0;
};

}  // namespace shutlane::test
