// The Explore bench: pick any engine, see it turn, try other numbers.
#include <algorithm>

#include "ui/drawings/cutaway.hpp"
#include "ui/window/benches.hpp"
#include "ui/window/study/picker.hpp"
#include "ui/window/study/texts.hpp"
#include "ui/window/study/timeline_panel.hpp"
#include "ui/window/study/tinker_panel.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {

namespace {

struct Places {
  Box picker, timeline, front, row, tinker;
};

Places lay_out(const Ui& ui, const StudySizes& s) {
  Places at;
  const Box screen = ui.screen();
  const double top = ui.mm(23), width = screen.w - 2 * s.margin, height = screen.h - s.margin - top;
  const double picker_w = std::max(0.18 * width, 14 * s.text), tinker_w = std::max(0.21 * width, 16 * s.text);
  at.picker = {s.margin, top, picker_w, height};
  at.tinker = {screen.w - s.margin - tinker_w, top, tinker_w, height};
  const double x = at.picker.right() + s.gap, w = at.tinker.x - s.gap - x;
  const double timeline_h = 0.55 * height;
  at.timeline = {x, top, w, timeline_h};
  const double y = at.timeline.bottom() + s.gap, front_w = 0.40 * w;
  at.front = {x, y, front_w, top + height - y};
  at.row = {at.front.right() + s.gap, y, w - front_w - s.gap, at.front.h};
  return at;
}

}  // namespace

void take_study_keys(Ui& ui, Session& session) {
  const Snapshot& s = session.snapshot();
  if (!s.document.engine) return;
  Study& study = study_of(ui, s);
  if (auto engine = study.take_changed_job_engine()) {
    session.queue(ChangeEngine{std::move(engine)});
    session.queue(Say{texts::job_goes_on_with(s.document.engine_name)});
  }
  if (auto trouble = study.take_job_file_trouble()) session.queue(Say{std::move(*trouble)});
  if (s.page != Page::none || s.document.bench != Bench::explore || ImGui::GetIO().WantTextInput) return;
  if (ui.key(KeyPress{Key::z, false, true}) && !study.undo()) session.queue(Undo{});
  if ((ui.key(KeyPress{Key::y, false, true}) || ui.key(KeyPress{Key::z, true, true})) && !study.redo())
    session.queue(Redo{});
}

void draw_explore(Ui& ui, Session& session) {
  const Snapshot& snapshot = session.snapshot();
  const StudySizes s = study_sizes(ui);
  Study& study = study_of(ui, snapshot);
  open_dropped(ui, study);
  const Box headline = draw_tabs(ui, session);
  draw_study_headline(ui, s, snapshot, study, headline);
  const Places at = lay_out(ui, s);
  const Box lanes{at.timeline.x, at.timeline.y, at.timeline.w, at.timeline.h - kAboutLanes * s.text};
  if (too_small_for(ui, s, texts::bench(Bench::explore), {at.picker, lanes, at.front, at.row, at.tinker}))
    return;
  draw_picker(ui, session, study, s, at.picker);
  draw_timeline_panel(ui, session, study, s, at.timeline);

  CutawayView cut;
  cut.engine = &study.engine();
  cut.windows = &study.windows();
  cut.crank_deg = needle_deg(snapshot);
  cut.selected = study.cylinder;
  cut.theme = ui.theme();
  cut.text = s.text;
  draw_front_view(ui.canvas(), draw_panel(ui, s, at.front, texts::heading_front()), cut);

  const Box row = draw_panel(ui, s, at.row, "");
  const Ui::Area touched = ui.area("row", texts::heading_row(), row);
  draw_cylinder_row(ui.canvas(), row, cut);
  if (touched.pressed && touched.focused) {
    study.pick_cylinder_by(1);
  } else if (touched.pressed) {
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    if (const auto number =
            row_cylinder_at(row, cut, {static_cast<double>(pointer.x), static_cast<double>(pointer.y)}))
      study.cylinder = *number;
  }
  if (touched.focused) ui.draw_focus(row, ui.mm(1));

  draw_tinker(ui, session, study, s, at.tinker);
  take_tinker_keys(ui, study);
  take_timeline_keys(ui, session, study);
  draw_hover(ui, snapshot, study, s);
}

}  // namespace shutlane
