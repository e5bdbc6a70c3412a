#pragma once
// What may be at fault when looks, moves and marks contradict each other, ready to be shown and chosen.
#include <string>
#include <vector>

#include "sim/job/advice.hpp"

namespace shutlane {

/// Likeliest first; none while nothing contradicts. Takes some milliseconds: not for every frame.
std::vector<OfferedCause> offered_causes(const JobModel& model, const JobState& state);

/// The looks each of which, taken back, leaves the rest consistent; in number order.
std::vector<int> mending_looks(const JobModel& model, const JobState& state);

}  // namespace shutlane
