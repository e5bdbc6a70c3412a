#pragma once
// The Work bench while a bump of the starter is next: how long to press, and the wide button as the press's
// timer.
#include <array>
#include <string>

#include "ui/window/session.hpp"
#include "ui/window/ui.hpp"

namespace shutlane {

struct BumpSaid {
  std::string sentence, second;
  bool greyed = false;  ///< an answer that is being worked out anew
};
/// While bump_is_next.
BumpSaid bump_said(Ui& ui, const Snapshot& snapshot);
void draw_bump_buttons(Ui& ui, Session& session, Box wide, const std::array<Box, 3>& beside);

}  // namespace shutlane
