#pragma once
// Where the crank may stand after bumps, and what they taught about the car: the rest table carries the
// chance of each angle from stop to stop, for every car of the table, and what the looks leave at a stop
// weighs both.
#include <span>

#include "sim/cranking/rest_table.hpp"
#include "sim/cycle/arc_set.hpp"

namespace shutlane {

/// A place at which the crank stood in a row of bumps.
struct BumpStop {
  ArcSet where;         ///< what looks, marks and lobes leave for the crank here; empty counts as anywhere
  double press_s = 0;   ///< of the bump that ended the stop; 0: not known, or the crank still stands here
  bool timed = false;   ///< it was about that long; else only somebody's hand at it
  bool gained = false;  ///< a port was done here
  friend bool operator==(const BumpStop&, const BumpStop&) = default;
};

/// Share of the rests that the table does not foresee (another draw of everything, a slip): they count as
/// anywhere that the looks leave. An estimate, no source.
inline constexpr double kUnforeseen = 0.1;

struct BumpBelief {
  std::vector<double> angle;  ///< per bin of one degree, summing to 1; 720 entries
  std::vector<double> cars;   ///< one weight a car of the table, summing to 1
  int learnt_from = 0;        ///< bumps whose stops told something about the car
};

/// `stops` in order, the last one where the crank stands now; at least one. At the first one every angle that
/// the looks leave is equally likely. `cars`: weights before the first bump; empty: the table's own. A press
/// that was not timed tells nothing and leaves the crank anywhere.
BumpBelief believed_after(const RestTable& table, std::vector<double> cars, std::span<const BumpStop> stops);

/// By how much the weighted cars' starters outweigh their frictions more than the table's own weights have
/// it, as a natural logarithm: above 0 a press goes further than reckoned from what is stated.
double stronger_than_stated(const RestTable& table, const std::vector<double>& cars);

/// The press of the last bump when no port was done after it; 0: one was, or there was no bump.
double gainless_press_s(std::span<const BumpStop> stops);

}  // namespace shutlane
