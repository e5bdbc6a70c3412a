#pragma once
// The large timeline of Teach and Explore with its buttons and keys, and what the pointer is told there.
#include "ui/window/study/panels.hpp"
#include "ui/window/study/study.hpp"

namespace shutlane {

/// The study kept by the window, brought up to the snapshot.
Study& study_of(Ui& ui, const Snapshot& snapshot);

/// Files dropped on Teach and Explore are looked at.
void open_dropped(Ui& ui, Study& study);

/// Heading of a bench: the engine and its layout at the left of the tabs.
void draw_study_headline(Ui& ui, const StudySizes& sizes, const Snapshot& snapshot, const Study& study,
                         Box room);

void draw_timeline_panel(Ui& ui, Session& session, Study& study, const StudySizes& sizes, Box box);

/// Drawn last: numbers beside the pointer.
void draw_hover(Ui& ui, const Snapshot& snapshot, const Study& study, const StudySizes& sizes);

/// Keys that move the needle; taken after every control has had its own.
void take_timeline_keys(Ui& ui, Session& session, Study& study);

}  // namespace shutlane
