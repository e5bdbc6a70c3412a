#pragma once
// The lift of a valve worked out again from the contract's words (section 2, "Lift"), by plain bisection:
// the yardstick of the tests, sharing no code with sim.
#include "sim/mechanism/engine.hpp"

namespace shutlane::test {

/// s(u) as the contract writes it, u in [0, 1].
double law(LiftLaw law, double u);

/// The smallest u in [0, 1] with s(u) >= s, by 200 halvings.
double law_inverse(LiftLaw law, double s);

/// One valve of an entry: lift over the local angle (not wrapped: it opens before `closes`), events as
/// stated.
class ValveOracle {
 public:
  explicit ValveOracle(const ValveSpec& spec);

  double opens_deg() const { return opens_deg_; }  ///< seat events
  double closes_deg() const { return closes_deg_; }
  /// Lift with the two seat events moved by so much (positive: later): the flanks move with their events, and
  /// the lower of the two counts. Local angle wrapped into the valve's own cycle.
  double lift_mm(double local_deg, double opening_moved_deg = 0, double closing_moved_deg = 0) const;
  /// How far after its opening (before its closing) event a flank reaches a lift, by bisection on the lift.
  double rise_deg(double lift_mm) const;
  double fall_deg(double lift_mm) const;

 private:
  double flank_mm(double from_peak_deg) const;
  LiftLaw law_ = LiftLaw::polynomial_4567;
  double peak_deg_ = 0, half_deg_ = 0, peak_mm_ = 0, clearance_mm_ = 0, opens_deg_ = 0, closes_deg_ = 0;
  std::vector<LiftRow> table_;
  std::vector<double> slope_;
};

}  // namespace shutlane::test
