#pragma once
// The sliders of Explore, what they changed, and what came of it.
#include "ui/window/study/panels.hpp"
#include "ui/window/study/study.hpp"

namespace shutlane {

void draw_tinker(Ui& ui, Session& session, Study& study, const StudySizes& sizes, Box box);
void take_tinker_keys(Ui& ui, Study& study);

}  // namespace shutlane
