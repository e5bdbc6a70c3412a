#pragma once
// A measured lift curve: rows joined by PCHIP (monotone cubic Hermite, slopes of Fritsch and Butland, SIAM J.
// Sci. Stat. Comput. 5, 1984, in the weighted form of the usual reference libraries), flat at both ends and
// the peak.
#include <vector>

#include "sim/mechanism/lift_profile.hpp"

namespace shutlane {

class LiftTable {
 public:
  explicit LiftTable(
      std::vector<LiftRow> rows);  ///< rows as the contract demands (a row at 0, ends at lift 0)

  Lift at(double from_peak_deg) const;  ///< 0 outside the rows
  double seat_opens_deg() const;        ///< last zero row before the lift, from the peak (negative)
  double seat_closes_deg() const;       ///< first zero row after the lift, from the peak
  double peak_lift_mm() const { return rows_[peak_].lift_mm; }
  /// The angle nearest the peak, on its rising (falling) side, up to which the lift does not pass `lift_mm`.
  double rising_reaches_deg(double lift_mm) const;
  double falling_reaches_deg(double lift_mm) const;

 private:
  double crossing_deg(size_t low, size_t high, double lift_mm) const;
  std::vector<LiftRow> rows_;
  std::vector<double> slopes_;
  size_t peak_ = 0;
};

}  // namespace shutlane
