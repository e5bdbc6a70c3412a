#pragma once
// What a bump teaches about the car: the weights of the car samples after it went further, or less far, than
// reckoned, or after the looks have told where it came to rest.
#include "sim/cranking/rest_table.hpp"
#include "sim/cycle/arc_set.hpp"

namespace shutlane {

enum class Went { less_far, as_reckoned, further };

/// Share of answers that are wrong whatever the car (a slip of the tongue, an odd bump): no car is ever ruled
/// out.
inline constexpr double kSlip = 0.05;

/// The middle half of the reckoned advances counts as "as reckoned"; less far and further lie below and above
/// it.
struct ReckonedAdvance {
  double low_deg = 0, high_deg = 0;  ///< quarter points of the mixture, degrees from the start
};
ReckonedAdvance reckoned_advance(const RestTable& table, const std::vector<double>& weights, int start_bin,
                                 int press);

/// Bayes' rule on the weights; they sum to 1 again.
std::vector<double> learned(const RestTable& table, const std::vector<double>& weights, int start_bin,
                            int press, Went went);
/// The same when the looks afterwards leave only these arcs for the crank.
std::vector<double> learned(const RestTable& table, const std::vector<double>& weights, int start_bin,
                            int press, const ArcSet& rests_within);

}  // namespace shutlane
