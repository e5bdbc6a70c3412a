#pragma once
// Where bumps leave the crank, kept between runs: the table takes seconds to work out and is read in
// milliseconds.
#include <memory>

#include "sim/cranking/rest_table.hpp"

namespace shutlane::terminal {

/// The table of the model, from the cache folder ($XDG_CACHE_HOME/shutlane, else ~/.cache/shutlane) when it
/// is there whole and is the one asked for, otherwise worked out and put there (beside first, then renamed; a
/// cache that cannot be written is left out). Its name is made of all that it depends on. Progress on
/// standard error. The question's threads and progress are not used.
std::shared_ptr<const RestTable> rest_table_for(const CrankingModel& model, RestTableQuestion question = {});

}  // namespace shutlane::terminal
