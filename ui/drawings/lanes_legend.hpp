#pragma once
// One line that explains the marks of the lanes: each drawn small, as it is drawn there, with its words.
#include "ui/drawings/lanes.hpp"

namespace shutlane {

/// Only what the view can show is explained; letters are made smaller where the box is narrow.
void draw_lanes_legend(Canvas& canvas, Box box, const LanesView& view);

}  // namespace shutlane
