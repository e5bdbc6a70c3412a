#include "sim/mechanism/lift_profile.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/cycle/angle.hpp"
#include "sim/mechanism/lift_table.hpp"

namespace shutlane {

struct LiftProfile::Table {
  LiftTable curve;
};

LiftProfile LiftProfile::from_law(LiftLaw law, double opens_deg, double closes_deg, double at_lift_mm,
                                  double peak_lift_mm, double clearance_mm) {
  LiftProfile p;
  p.law_ = law;
  p.peak_deg_ = (opens_deg + closes_deg) / 2;
  p.peak_lift_mm_ = peak_lift_mm;
  p.clearance_mm_ = clearance_mm;
  const double half_deg = (closes_deg - opens_deg) / 2;
  const double whole_mm = peak_lift_mm + clearance_mm;
  p.half_span_deg_ = half_deg / (1 - rise_inverse(law, (at_lift_mm + clearance_mm) / whole_mm));
  if (at_lift_mm == 0) {  // stated at the seat: exact
    p.seat_opens_deg_ = opens_deg;
    p.seat_closes_deg_ = closes_deg;
  } else {
    const double seat_half_deg = p.half_span_deg_ * (1 - rise_inverse(law, clearance_mm / whole_mm));
    p.seat_opens_deg_ = p.peak_deg_ - seat_half_deg;
    p.seat_closes_deg_ = p.peak_deg_ + seat_half_deg;
  }
  return p;
}

LiftProfile LiftProfile::from_table(const std::vector<LiftRow>& rows, double peak_deg) {
  LiftProfile p;
  p.law_ = LiftLaw::table;
  p.table_ = std::make_shared<const Table>(Table{LiftTable(rows)});
  p.peak_deg_ = peak_deg;
  p.peak_lift_mm_ = p.table_->curve.peak_lift_mm();
  p.seat_opens_deg_ = peak_deg + p.table_->curve.seat_opens_deg();
  p.seat_closes_deg_ = peak_deg + p.table_->curve.seat_closes_deg();
  return p;
}

Lift LiftProfile::off_seat(double from_peak_deg) const {
  if (table_) return table_->curve.at(from_peak_deg);
  const double whole_mm = peak_lift_mm_ + clearance_mm_;
  const Rise r = rise(law_, 1 - std::fabs(from_peak_deg) / half_span_deg_);
  const double per_deg = (from_peak_deg < 0 ? 1 : -1) / half_span_deg_;
  return {std::max(0.0, whole_mm * r.s - clearance_mm_), whole_mm * r.v * per_deg,
          whole_mm * r.a / (half_span_deg_ * half_span_deg_)};
}

Lift LiftProfile::at(double local_deg) const {
  const double into_deg = forward_deg(seat_opens_deg_, local_deg);
  if (into_deg <= 0 || into_deg >= seat_span_deg()) return {};
  return off_seat(seat_opens_deg_ - peak_deg_ + into_deg);
}

LiftProfile::Reach LiftProfile::reach(double lift_mm) const {
  if (lift_mm >= peak_lift_mm_) {
    constexpr double never = std::numeric_limits<double>::infinity();
    return {never, never};
  }
  if (table_) {
    return {std::max(0.0, peak_deg_ + table_->curve.rising_reaches_deg(lift_mm) - seat_opens_deg_),
            std::max(0.0, seat_closes_deg_ - peak_deg_ - table_->curve.falling_reaches_deg(lift_mm))};
  }
  if (lift_mm <= 0) return {0, 0};
  const double whole_mm = peak_lift_mm_ + clearance_mm_;
  const double from_foot_deg = half_span_deg_ * rise_inverse(law_, (lift_mm + clearance_mm_) / whole_mm);
  const double seat_deg = half_span_deg_ * rise_inverse(law_, clearance_mm_ / whole_mm);
  return {from_foot_deg - seat_deg, from_foot_deg - seat_deg};
}

}  // namespace shutlane
