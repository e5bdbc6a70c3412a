#pragma once
// Lift of one valve over the local angle of its cylinder (0 = firing TDC, 360 = gas-exchange TDC).
#include <memory>
#include <vector>

#include "sim/mechanism/lift_law.hpp"

namespace shutlane {

struct LiftRow {
  double from_peak_deg = 0;  ///< crank degrees from peak lift, strictly rising over the table
  double lift_mm = 0;        ///< the valve's own lift
  friend bool operator==(const LiftRow&, const LiftRow&) = default;
};

struct Lift {
  double lift_mm = 0;
  double velocity_mm_per_deg = 0;
  double acceleration_mm_per_deg2 = 0;
};

/// A lift curve. Its seat events bound the one stretch of the cycle where the valve is off its seat; outside
/// them the lift is exactly 0. Angles are not wrapped: seat_opens_deg() < peak < seat_closes_deg().
class LiftProfile {
 public:
  /// The valve's lift is `at_lift_mm` at both `opens_deg` and `closes_deg` (at 0 it just leaves and touches
  /// the seat there). Needs opens < closes, 0 <= at_lift < peak_lift, 0 <= clearance. Check seat_span_deg() <
  /// 720 afterwards.
  static LiftProfile from_law(LiftLaw law, double opens_deg, double closes_deg, double at_lift_mm,
                              double peak_lift_mm, double clearance_mm);
  /// PCHIP (Fritsch and Butland) through the rows, flat at both ends and at the peak.
  static LiftProfile from_table(const std::vector<LiftRow>& rows, double peak_deg);

  double seat_opens_deg() const { return seat_opens_deg_; }
  double seat_closes_deg() const { return seat_closes_deg_; }
  double seat_span_deg() const { return seat_closes_deg_ - seat_opens_deg_; }
  double peak_deg() const { return peak_deg_; }
  double peak_lift_mm() const { return peak_lift_mm_; }

  Lift at(double local_deg) const;  ///< any angle; wrapped into the lift's own cycle
  double lift_mm(double local_deg) const { return at(local_deg).lift_mm; }
  /// How far inside the seat events the valve reaches `lift_mm`: opening and closing side, degrees >= 0.
  /// {inf, inf} when the peak is not above it.
  struct Reach {
    double after_opening_deg = 0;
    double before_closing_deg = 0;
  };
  Reach reach(double lift_mm) const;

 private:
  struct Table;
  Lift off_seat(double from_peak_deg) const;
  LiftLaw law_ = LiftLaw::polynomial_4567;
  double peak_deg_ = 0, peak_lift_mm_ = 0, clearance_mm_ = 0;
  double half_span_deg_ = 0;  ///< from the foot of the profile (clearance and all) to its peak
  double seat_opens_deg_ = 0, seat_closes_deg_ = 0;
  std::shared_ptr<const Table> table_;
};

}  // namespace shutlane
