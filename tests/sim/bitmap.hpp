#pragma once
// A set of angles as a row of bits on a 0.25 degree grid: even bits are the grid's points, odd bits the open
// stretches between them. Exact for arcs that begin and end on the grid, and stupid enough to be trusted.
// Cannot see: anything that depends on ends off the grid, or on the 1e-6 degree that counts as equal.
#include <algorithm>
#include <bitset>

#include "sim/cycle/arc_set.hpp"

namespace shutlane::test {

inline constexpr double kGrid_deg = 0.25;
inline constexpr int kGridPoints = 2880;
using Bits = std::bitset<2 * kGridPoints>;

inline int grid_point(double a_deg) {  ///< of an angle on the grid, wrapped
  const int i = static_cast<int>(std::lround(a_deg / kGrid_deg)) % kGridPoints;
  return i < 0 ? i + kGridPoints : i;
}

/// The closed arc, bit by bit.
inline void set_arc(Bits& bits, const Arc& arc) {
  const int from = 2 * grid_point(arc.from_deg);
  const int steps = static_cast<int>(std::lround(arc.length_deg / kGrid_deg));
  for (int i = 0; i <= 2 * steps; ++i) bits.set(static_cast<size_t>((from + i) % (2 * kGridPoints)));
}

/// Drops points that touch no stretch and adds the ends of every stretch: what "differ in points only"
/// allows.
inline Bits regular(const Bits& bits) {
  Bits out;
  const size_t n = bits.size();
  for (size_t i = 1; i < n; i += 2)
    if (bits[i]) {
      out.set(i - 1);
      out.set(i);
      out.set((i + 1) % n);
    }
  return out;
}

inline Bits bits_of(const std::vector<Arc>& arcs) {
  Bits bits;
  for (const Arc& arc : arcs) set_arc(bits, arc);
  return regular(bits);
}
inline Bits bits_of(const ArcSet& set) { return bits_of(set.arcs()); }

inline Bits rotated(const Bits& bits, int by) {
  Bits out;
  const int n = static_cast<int>(bits.size());
  for (int i = 0; i < n; ++i)
    if (bits[static_cast<size_t>(i)]) out.set(static_cast<size_t>(((i + by) % n + n) % n));
  return out;
}

/// Every set bit spread `steps` grid steps both ways, by doubling.
inline Bits spread(const Bits& bits, int steps) {
  Bits out = bits;
  for (int done = 0; done < 2 * steps;) {
    const int by = std::min(done + 1, 2 * steps - done);
    out |= rotated(out, by) | rotated(out, -by);
    done += by;
  }
  return out;
}

}  // namespace shutlane::test
