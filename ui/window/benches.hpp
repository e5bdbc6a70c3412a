#pragma once
// The benches and pages that fill the window below its header. Each reads the session's snapshot and queues
// commands.
#include "ui/window/session.hpp"
#include "ui/window/ui.hpp"

namespace shutlane {

void draw_work(Ui& ui, Session& session);
void draw_teach(Ui& ui, Session& session);
void draw_explore(Ui& ui, Session& session);
/// Before every frame: what a watched engine file became, and the keys that Explore takes before the window's
/// own (undo of the knobs).
void take_study_keys(Ui& ui, Session& session);
void draw_start_page(Ui& ui, Session& session);
void draw_settings_page(Ui& ui, Session& session);
/// What can hurt at this work, and at a bump of the starter; before a job, and from the menu.
void draw_cautions_page(Ui& ui, Session& session);
void draw_came_back_page(Ui& ui, Session& session);
void draw_job_menu(Ui& ui, Session& session);

/// Bench tabs and the menu at the top right; gives the room left of them for a headline.
Box draw_tabs(Ui& ui, Session& session);

}  // namespace shutlane
