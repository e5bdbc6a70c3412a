#pragma once
#include <memory>

#include "sim/cranking/rest_table.hpp"

namespace shutlane::terminal {

/// From what is kept, or worked out on every core with progress on standard error. Throws
/// Interrupted on Ctrl-C.
std::shared_ptr<const RestTable> shown_rest_table(const CrankingModel& model);

}  // namespace shutlane::terminal
