#pragma once
// The row of bumps that led to where the crank stands, read from the job's events.
#include <span>
#include <vector>

#include "sim/job/state.hpp"
#include "sim/plan/bump_belief.hpp"

namespace shutlane {

/// Every row of bumps of the job, none empty: what moved the crank otherwise begins a new one. The last stop
/// of the last row is where the crank stands now.
std::vector<std::vector<BumpStop>> bump_rows(const JobModel& model, std::span<const JobEvent> events);
/// The last of them.
std::vector<BumpStop> bump_stops(const JobModel& model, std::span<const JobEvent> events);

}  // namespace shutlane
