#pragma once
// The lanes of all cylinders over 0..720 degrees, drawn in characters, 10 degrees a character.
#include <optional>
#include <string>
#include <vector>

#include "sim/shut/windows.hpp"
#include "ui/terminal/page.hpp"

namespace shutlane::terminal {

struct StripMarks {
  std::optional<double> crank_deg;    ///< pointed at from above
  const ArcSet* may_stand = nullptr;  ///< drawn as a row of its own above the lanes
};

/// A character says surely shut, or shut as stated but not surely, only when that holds over the whole of its
/// 10 degrees, and that the crank may stand there when it may anywhere in them. With a scale above and a key
/// below.
std::string lane_strip(const std::vector<Windows>& windows, const StripMarks& marks, const Style& style);

}  // namespace shutlane::terminal
