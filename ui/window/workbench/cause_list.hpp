#pragma once
// When looks contradict each other: what may be at fault, a row each with its check, to be pressed.
#include <optional>

#include "ui/window/session.hpp"
#include "ui/window/ui.hpp"

namespace shutlane {

/// Of the list in pixels, where `room_px` is what it shares with the board above it.
double cause_list_height(const Ui& ui, double room_px);

/// Two columns, likeliest first, down the left one and then the right one; the last place is for starting the
/// looks again and for undo. Gives what was pressed in this frame.
std::optional<Press> draw_cause_list(Ui& ui, const Snapshot& snapshot, Box box);

}  // namespace shutlane
