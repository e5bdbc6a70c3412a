#pragma once
// The words of the command line that are the window's: none at all, an engine alone, --renderer, and
// `picture`.
#include <optional>
#include <string>
#include <vector>

namespace shutlane {

/// Opens the window or draws the picture when the words ask for it; the exit status then. Without a display
/// it says so in one line.
std::optional<int> window_words(const std::vector<std::string>& words);

}  // namespace shutlane
