#pragma once
// The row of bumps that led to where the crank stands, read from the job's events.
#include <span>
#include <vector>

#include "sim/job/state.hpp"
#include "sim/plan/bump_belief.hpp"

namespace shutlane {

/// Never empty; the last one is where the crank stands now. What moved the crank otherwise begins a new row.
std::vector<BumpStop> bump_stops(const JobModel& model, std::span<const JobEvent> events);

}  // namespace shutlane
