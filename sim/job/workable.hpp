#pragma once
// Where could the job work a port if the crank came to rest there? That it is surely shut is not enough: the
// looks into the other ports have to tell so too.
#include "sim/job/model.hpp"
#include "sim/plan/bump_plan.hpp"

namespace shutlane {

/// Bins in which a port is surely shut and reckoned so from honest looks into all other ports, nothing else
/// being known of the crank. A port for which there is no such bin keeps the bins in which it is surely shut:
/// something other than looks (a lobe, a mark) will have to witness it.
SureBins workable_bins(const JobModel& model, const RestTable& table);

}  // namespace shutlane
