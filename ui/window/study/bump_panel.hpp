#pragma once
// The bump on Teach: what is set and said of it, and its course over time.
#include "ui/window/study/panels.hpp"
#include "ui/window/study/study.hpp"

namespace shutlane {

/// Brings the bump up to the snapshot and plays it on. Before anything of the frame is drawn.
void follow_bump(Ui& ui, Session& session, Study& study);

void draw_bump_panel(Ui& ui, Study& study, const StudySizes& sizes, Box box);
void draw_bump_course(Ui& ui, Session& session, Study& study, const StudySizes& sizes, Box box);

void show_bump(Study& study, bool open);

/// Before the keys of the timeline.
void take_bump_keys(Ui& ui, Session& session, Study& study);

/// The bump that the timeline shows; nullptr: its plan of turns.
const BumpStudy* bump_on_timeline(const Snapshot& snapshot, const Study& study);

}  // namespace shutlane
