#include "tests/sim/lift_oracle.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

namespace shutlane::test {

double law(LiftLaw law, double u) {
  constexpr double pi = std::numbers::pi;
  switch (law) {
    case LiftLaw::polynomial_345:
      return 10 * std::pow(u, 3) - 15 * std::pow(u, 4) + 6 * std::pow(u, 5);
    case LiftLaw::polynomial_4567:
    case LiftLaw::table:
      return 35 * std::pow(u, 4) - 84 * std::pow(u, 5) + 70 * std::pow(u, 6) - 20 * std::pow(u, 7);
    case LiftLaw::cycloidal:
      return u - std::sin(2 * pi * u) / (2 * pi);
    case LiftLaw::harmonic:
      return (1 - std::cos(pi * u)) / 2;
  }
  return 0;
}

double law_inverse(LiftLaw which, double s) {
  double low = 0, high = 1;
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2;
    (law(which, middle) < s ? low : high) = middle;
  }
  return high;
}

namespace {

/// Slopes of F. N. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300-304, in the weighted form
/// of Moler, Numerical Computing with MATLAB, ch. 3.4 (from memory), with slope 0 at both ends and at the
/// peak.
std::vector<double> slopes(const std::vector<LiftRow>& rows) {
  std::vector<double> d(rows.size(), 0.0);
  for (size_t k = 1; k + 1 < rows.size(); ++k) {
    if (rows[k].from_peak_deg == 0) continue;
    const double before = rows[k].from_peak_deg - rows[k - 1].from_peak_deg;
    const double after = rows[k + 1].from_peak_deg - rows[k].from_peak_deg;
    const double m = (rows[k].lift_mm - rows[k - 1].lift_mm) / before;
    const double n = (rows[k + 1].lift_mm - rows[k].lift_mm) / after;
    if (m * n <= 0) continue;
    const double w = 2 * after + before, v = after + 2 * before;
    d[k] = (w + v) / (w / m + v / n);
  }
  return d;
}

}  // namespace

ValveOracle::ValveOracle(const ValveSpec& spec) {
  if (!spec.lift_table.empty()) {
    law_ = LiftLaw::table;
    table_ = spec.lift_table;
    slope_ = slopes(table_);
    peak_deg_ = 360 + spec.peak_at_deg;
    opens_deg_ = -1e9;
    closes_deg_ = 1e9;
    for (const LiftRow& row : table_) {
      peak_mm_ = std::max(peak_mm_, row.lift_mm);
      if (row.lift_mm != 0) continue;
      if (row.from_peak_deg < 0) opens_deg_ = peak_deg_ + row.from_peak_deg;  // the last one stays
      if (row.from_peak_deg > 0) closes_deg_ = std::min(closes_deg_, peak_deg_ + row.from_peak_deg);
    }
    return;
  }
  law_ = spec.lift_law.value_or(LiftLaw::polynomial_4567);
  peak_mm_ = spec.peak_lift_mm;
  clearance_mm_ = spec.clearance_mm;
  const bool intake = spec.kind == ValveKind::intake;
  const double opens = intake ? 360 - spec.opens_deg : 180 - spec.opens_deg;
  const double closes = intake ? 540 + spec.closes_deg : 360 + spec.closes_deg;
  const double at_mm = spec.at_lift_mm.value_or(1.0);
  const double u_stated = law_inverse(law_, (at_mm + clearance_mm_) / (peak_mm_ + clearance_mm_));
  const double u_seat = law_inverse(law_, clearance_mm_ / (peak_mm_ + clearance_mm_));
  peak_deg_ = (opens + closes) / 2;
  half_deg_ = (closes - opens) / 2 / (1 - u_stated);
  opens_deg_ = peak_deg_ - half_deg_ * (1 - u_seat);
  closes_deg_ = peak_deg_ + half_deg_ * (1 - u_seat);
}

double ValveOracle::flank_mm(double from_peak_deg) const {
  if (table_.empty()) {
    const double u = 1 - std::abs(from_peak_deg) / half_deg_;
    return u <= 0 ? 0 : std::max(0.0, (peak_mm_ + clearance_mm_) * law(law_, u) - clearance_mm_);
  }
  for (size_t k = 0; k + 1 < table_.size(); ++k) {
    const LiftRow &a = table_[k], &b = table_[k + 1];
    if (from_peak_deg < a.from_peak_deg || from_peak_deg > b.from_peak_deg) continue;
    const double h = b.from_peak_deg - a.from_peak_deg, t = (from_peak_deg - a.from_peak_deg) / h;
    return a.lift_mm * (1 + 2 * t) * (1 - t) * (1 - t) + h * slope_[k] * t * (1 - t) * (1 - t) +
           b.lift_mm * t * t * (3 - 2 * t) + h * slope_[k + 1] * t * t * (t - 1);
  }
  return 0;
}

double ValveOracle::lift_mm(double local_deg, double opening_moved_deg, double closing_moved_deg) const {
  const double opens = opens_deg_ + opening_moved_deg, closes = closes_deg_ + closing_moved_deg;
  double at = std::fmod(local_deg - opens, 720);
  if (at < 0) at += 720;
  at += opens;
  if (at >= closes) return 0;
  const double rising = std::min(at - opening_moved_deg - peak_deg_, 0.0);
  const double falling = std::max(at - closing_moved_deg - peak_deg_, 0.0);
  return std::min(flank_mm(rising), flank_mm(falling));
}

double ValveOracle::rise_deg(double lift_mm) const {
  if (lift_mm >= peak_mm_) return std::numeric_limits<double>::infinity();
  double low = opens_deg_, high = peak_deg_;
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2;
    (flank_mm(middle - peak_deg_) <= lift_mm ? low : high) = middle;
  }
  return low - opens_deg_;
}

double ValveOracle::fall_deg(double lift_mm) const {
  if (lift_mm >= peak_mm_) return std::numeric_limits<double>::infinity();
  double low = peak_deg_, high = closes_deg_;
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2;
    (flank_mm(middle - peak_deg_) > lift_mm ? low : high) = middle;
  }
  return closes_deg_ - high;
}

}  // namespace shutlane::test
