#pragma once
// The strip of lanes in number order below the board: where each port is surely shut over the cycle, where
// the crank may stand, and the positions.
#include "ui/window/session.hpp"
#include "ui/window/ui.hpp"

namespace shutlane {

void draw_strip(Ui& ui, const Snapshot& snapshot, Box box, double now_s);

}  // namespace shutlane
