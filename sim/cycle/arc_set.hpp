#pragma once
// Sets of closed arcs on the 720 degree cycle. Sets that differ in points only are taken as equal.
#include <vector>

#include "sim/cycle/angle.hpp"

namespace shutlane {

/// Runs forward from `from_deg`, both ends included. 0 <= from_deg < 720, 0 < length_deg <= 720; the whole
/// circle is {0, 720}.
struct Arc {
  double from_deg = 0;
  double length_deg = 0;
  double to_deg() const { return from_deg + length_deg; }  ///< not wrapped: may pass 720
  friend bool operator==(const Arc&, const Arc&) = default;
};

/// Sorted, disjoint arcs, merged across 720, none shorter than kSame_deg. A value; every operation is pure.
class ArcSet {
 public:
  ArcSet() = default;                      ///< empty
  explicit ArcSet(std::vector<Arc> arcs);  ///< any arcs: wrapped, sorted, merged, slivers dropped
  static ArcSet all() { return ArcSet({{0, kCycle_deg}}); }

  const std::vector<Arc>& arcs() const { return arcs_; }
  bool empty() const { return arcs_.empty(); }
  bool full() const { return arcs_.size() == 1 && arcs_[0].length_deg == kCycle_deg; }
  double total_deg() const;

  bool contains(double a_deg) const;  ///< within kSame_deg of a closed end belongs to it
  bool covers(const Arc& arc) const;  ///< the whole arc (a point when its length is 0)
  bool covers(const ArcSet& set) const;
  /// The arc that holds the angle; {0, 0} when none does.
  Arc arc_at(double a_deg) const;
  /// The shortest single arc that holds the whole set; {0, 0} when it is empty, the whole circle when full.
  Arc hull() const;

  ArcSet united(const ArcSet& other) const;
  ArcSet intersected(const ArcSet& other) const;
  ArcSet complement() const;  ///< closed again: shares its ends with this set
  ArcSet minus(const ArcSet& other) const { return intersected(other.complement()); }
  ArcSet shrunk(
      double by_deg) const;  ///< by_deg >= 0 off both ends of every arc; the whole circle stays whole
  ArcSet grown(double by_deg) const;    ///< by_deg >= 0 onto both ends of every arc
  ArcSet shifted(double by_deg) const;  ///< turned forward

  friend bool operator==(const ArcSet&, const ArcSet&) = default;

 private:
  std::vector<Arc> arcs_;
};

}  // namespace shutlane
