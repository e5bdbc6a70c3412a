#include "sim/mechanism/lift_table.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace shutlane {

LiftTable::LiftTable(std::vector<LiftRow> rows) : rows_(std::move(rows)), slopes_(rows_.size(), 0.0) {
  for (size_t i = 0; i < rows_.size(); ++i)
    if (rows_[i].from_peak_deg == 0) peak_ = i;
  for (size_t i = 1; i + 1 < rows_.size(); ++i) {
    const double before_deg = rows_[i].from_peak_deg - rows_[i - 1].from_peak_deg;
    const double after_deg = rows_[i + 1].from_peak_deg - rows_[i].from_peak_deg;
    const double before = (rows_[i].lift_mm - rows_[i - 1].lift_mm) / before_deg;
    const double after = (rows_[i + 1].lift_mm - rows_[i].lift_mm) / after_deg;
    if (i == peak_ || before * after <= 0) continue;
    const double w1 = 2 * after_deg + before_deg;
    const double w2 = after_deg + 2 * before_deg;
    slopes_[i] = (w1 + w2) / (w1 / before + w2 / after);
  }
}

Lift LiftTable::at(double from_peak_deg) const {
  if (from_peak_deg <= rows_.front().from_peak_deg || from_peak_deg >= rows_.back().from_peak_deg) return {};
  const auto next = std::upper_bound(rows_.begin(), rows_.end(), from_peak_deg,
                                     [](double x, const LiftRow& row) { return x < row.from_peak_deg; });
  const size_t i = static_cast<size_t>(next - rows_.begin()) - 1;
  const double h = rows_[i + 1].from_peak_deg - rows_[i].from_peak_deg;
  const double t = (from_peak_deg - rows_[i].from_peak_deg) / h;
  const double y0 = rows_[i].lift_mm, y1 = rows_[i + 1].lift_mm;
  const double m0 = slopes_[i] * h, m1 = slopes_[i + 1] * h;
  // Hermite cubic as y0 + t m0 + t^2 (c + t d)
  const double c = 3 * (y1 - y0) - 2 * m0 - m1;
  const double d = m0 + m1 - 2 * (y1 - y0);
  return {std::max(0.0, y0 + t * (m0 + t * (c + t * d))), (m0 + t * (2 * c + 3 * t * d)) / h,
          (2 * c + 6 * t * d) / (h * h)};
}

double LiftTable::seat_opens_deg() const {
  size_t i = 0;
  while (i < peak_ && rows_[i + 1].lift_mm <= 0) ++i;
  return rows_[i].from_peak_deg;
}

double LiftTable::seat_closes_deg() const {
  size_t i = rows_.size() - 1;
  while (i > peak_ && rows_[i - 1].lift_mm <= 0) --i;
  return rows_[i].from_peak_deg;
}

double LiftTable::crossing_deg(size_t low, size_t high, double lift_mm) const {
  double under = rows_[low].from_peak_deg, over = rows_[high].from_peak_deg;
  for (int i = 0; i < 200 && std::nextafter(under, over) != over; ++i) {  // bisection: monotone between rows
    const double middle = under + (over - under) / 2;
    (at(middle).lift_mm > lift_mm ? over : under) = middle;
  }
  return under;
}

double LiftTable::rising_reaches_deg(double lift_mm) const {
  size_t i = peak_;
  while (i > 0 && rows_[i].lift_mm > lift_mm) --i;
  return i == peak_ ? 0.0 : crossing_deg(i, i + 1, lift_mm);
}

double LiftTable::falling_reaches_deg(double lift_mm) const {
  size_t i = peak_;
  while (i + 1 < rows_.size() && rows_[i].lift_mm > lift_mm) ++i;
  return i == peak_ ? 0.0 : crossing_deg(i, i - 1, lift_mm);
}

}  // namespace shutlane
