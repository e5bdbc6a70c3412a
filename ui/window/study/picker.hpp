#pragma once
// The engine list of Explore: search, small drawings, one row an engine.
#include "ui/window/study/panels.hpp"
#include "ui/window/study/study.hpp"

namespace shutlane {

void draw_picker(Ui& ui, Session& session, Study& study, const StudySizes& sizes, Box box);

}  // namespace shutlane
