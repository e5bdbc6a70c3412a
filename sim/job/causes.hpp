#pragma once
// What may be at fault when looks, moves and marks contradict each other, ready to be shown and chosen.
#include <span>
#include <string>
#include <vector>

#include "sim/job/advice.hpp"

namespace shutlane {

struct OfferedCause {
  std::optional<Suspicion> what;  ///< nullopt: the crank's mark was not in line
  std::string name, check;        ///< in plain words; the check takes a minute
  Press choose;                   ///< takes it for the cause
  std::vector<Press> instead;     ///< the same of other looks: one for each that would mend it alone
};

/// Likeliest first; none while nothing contradicts. Takes some milliseconds: not for every frame.
std::vector<OfferedCause> offered_causes(const JobModel& model, std::span<const JobEvent> events);

/// The looks each of which, taken back, leaves the rest consistent; in number order.
std::vector<int> mending_looks(const JobModel& model, const JobState& state);

}  // namespace shutlane
