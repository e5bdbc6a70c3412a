#pragma once
// A plan by starter in the words of the trade, for every page, printout and window.
#include <string>

#include "sim/plan/bump_plan.hpp"

namespace shutlane {

inline constexpr size_t kMostBumpCylinders = 16;  ///< sets of ports grow twofold with each

/// Seconds in the shortest form to a hundredth: "0.3".
std::string seconds_in_words(double s);

/// "anything from 0.24 to 0.36 s is nearly as good"; never told wider than the plan's range.
std::string nearly_as_good_in_words(const BumpPlan& plan);

/// "one bump will most likely do" and the like, by the chance that the first bump finishes.
std::string first_bump_in_words(const BumpPlan& plan);

/// Why a plan that is not possible is not; for an engine of `margin_deg`. No full stop.
std::string no_bump_plan_in_words(const BumpPlan& plan, double margin_deg);

/// Why an engine of more cylinders than kMostBumpCylinders has none.
std::string too_many_for_bumps_in_words();

}  // namespace shutlane
