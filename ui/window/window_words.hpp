#pragma once
// The words of the command line that are the window's: none at all, an engine alone, --renderer, and
// `picture`.
#include <optional>
#include <string>
#include <vector>

namespace shutlane {

struct WindowAnswer {
  std::optional<int> status;         ///< set: all is done, this is the exit status
  std::vector<std::string> instead;  ///< otherwise the words to go on with; empty: those that were given
};

/// Opens the window or draws the picture when the words ask for it. Without a display it says so in one line
/// and gives the words of a plan to print instead.
WindowAnswer window_words(const std::vector<std::string>& words);

}  // namespace shutlane
