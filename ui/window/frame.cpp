#include "ui/window/frame.hpp"

#include "ui/window/benches.hpp"
#include "ui/window/bump/bump_bench.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {

namespace {

/// Keys that mean the same everywhere.
void everywhere(Ui& ui, Session& session) {
  if (ImGui::GetIO().WantTextInput) return;
  const Snapshot& s = session.snapshot();
  if (ui.key({Key::z, false, true}) || ui.key(Key::u)) session.queue(Undo{});
  if (ui.key({Key::y, false, true}) || ui.key({Key::z, true, true})) session.queue(Redo{});
  if (ui.key(Key::f1)) session.queue(ShowBench{Bench::work});
  if (ui.key(Key::f2)) session.queue(ShowBench{Bench::teach});
  if (ui.key(Key::f3)) session.queue(ShowBench{Bench::explore});
  if (ui.key(Key::f10)) session.queue(ShowPage{s.page == Page::settings ? Page::none : Page::settings});
  if (ui.key(Key::f9)) session.queue(ShowPage{s.page == Page::job_menu ? Page::none : Page::job_menu});
  if (ui.key(Key::t)) {
    Preferences p = s.document.preferences;
    p.theme = p.theme == Theme::dark ? Theme::light : Theme::dark;
    session.queue(SetPreferences{p});
  }
}

/// An engine file dropped on the job or on a page starts a job; Teach and Explore look at it without one.
void take_files(Ui& ui, Session& session) {
  const Snapshot& s = session.snapshot();
  if (s.page == Page::none && s.document.bench != Bench::work) return;
  for (const std::string& path : ui.dropped)
    session.queue(OpenEngine{path, s.document.rules.turn_by, false, s.document.rules.wrench_too});
  ui.dropped.clear();
}

void draw_bench(Ui& ui, Session& session) {
  switch (session.snapshot().document.bench) {
    case Bench::teach:
      return draw_teach(ui, session);
    case Bench::explore:
      return draw_explore(ui, session);
    case Bench::work:
      break;
  }
  draw_work(ui, session);
}

/// Over the edge above everything, where no page draws: lasting, and in letters for two metres.
void draw_not_saved(Ui& ui) {
  if (ui.not_saved.empty()) return;
  const Box edge{0, 0, ui.screen().w, ui.mm(5)};
  ui.canvas().fill_box(edge, ui.palette().open);
  ui.text_in({ui.mm(8), 0, edge.w - 2 * ui.mm(8), edge.h}, texts::not_saved(ui.not_saved),
             {ui.mm(4.2), ui.palette().background, Align::left, Weight::bold, 0.4});
}

}  // namespace

void draw_frame(Ui& ui, Session& session) {
  // In Teach and Explore the arrow keys move the needle.
  ui.arrows_walk = session.snapshot().page != Page::none || session.snapshot().document.bench == Bench::work;
  take_study_keys(ui, session);
  everywhere(ui, session);
  take_files(ui, session);
  attend_bump(ui, session);
  switch (session.snapshot().page) {
    case Page::start:
      draw_start_page(ui, session);
      break;
    case Page::settings:
      draw_settings_page(ui, session);
      break;
    case Page::cautions:
    case Page::bump_cautions:
      draw_cautions_page(ui, session);
      break;
    case Page::came_back:
      draw_came_back_page(ui, session);
      break;
    case Page::job_menu:
      draw_job_menu(ui, session);
      break;
    case Page::none:
      draw_bench(ui, session);
      break;
  }
  draw_not_saved(ui);
}

}  // namespace shutlane
