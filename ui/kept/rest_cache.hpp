#pragma once
// Where bumps leave the crank, kept between runs: the table takes seconds to work out and is read in
// milliseconds. The terminal and the window share what is kept.
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>

#include "sim/cranking/rest_table.hpp"

namespace shutlane {

/// The table of the model, from the cache folder when it is there whole and is the one asked for, otherwise
/// worked out (with the question's threads and progress) and put there: beside first, then renamed. A cache
/// that cannot be written is left out. Its name is made of all that it depends on. Null when the progress
/// gave up; then nothing was written.
std::shared_ptr<const RestTable> rest_table_for(const CrankingModel& model,
                                                const RestTableQuestion& question);

/// $XDG_CACHE_HOME/shutlane, else ~/.cache/shutlane; empty where neither is set.
std::filesystem::path rest_cache_folder();

struct RestCacheLimits {
  size_t files = 40;
  std::uintmax_t bytes = 200'000'000;
};
/// Takes away the tables written longest ago until both limits hold; the newest stays whatever its size.
/// Touches nothing but tables, and unfinished files an hour old. Done after every table that is written.
void prune_rest_cache(const std::filesystem::path& folder, const RestCacheLimits& limits = {});

}  // namespace shutlane
