#pragma once
// One frame of the window, whatever shows it: reads the snapshot, draws, queues commands.
#include "ui/window/session.hpp"
#include "ui/window/ui.hpp"

namespace shutlane {

/// Between Ui::begin and Ui::end.
void draw_frame(Ui& ui, Session& session);

}  // namespace shutlane
