// The Teach bench: one engine, one cylinder, every way to see its valves.
#include <algorithm>

#include "ui/drawings/cutaway.hpp"
#include "ui/drawings/dial.hpp"
#include "ui/drawings/lift_curves.hpp"
#include "ui/drawings/text.hpp"
#include "ui/window/benches.hpp"
#include "ui/window/study/bump_panel.hpp"
#include "ui/window/study/bump_texts.hpp"
#include "ui/window/study/readings.hpp"
#include "ui/window/study/texts.hpp"
#include "ui/window/study/timeline_panel.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {

namespace {

struct Places {
  Box timeline, dial, lift, cutaway, said, terms;
};

Places lay_out(const Ui& ui, const StudySizes& s, size_t cylinders, bool bump) {
  Places at;
  const Box screen = ui.screen();
  const double top = ui.mm(23), width = screen.w - 2 * s.margin;
  const double terms_h = bump ? s.button : 2 * s.button + 0.5 * s.gap;
  const double bottom = screen.h - s.margin - terms_h - s.gap;
  const double right_w = 0.27 * width, left_w = width - right_w - s.gap;
  const double timeline_h = (cylinders > 8 ? 0.58 : 0.52) * (bottom - top);
  at.timeline = {s.margin, top, left_w, timeline_h};
  const double below = at.timeline.bottom() + s.gap, below_h = bottom - below;
  const double dial_w = 0.46 * left_w;
  at.dial = {s.margin, below, dial_w, below_h};
  at.lift = {at.dial.right() + s.gap, below, left_w - dial_w - s.gap, below_h};
  const double x = at.timeline.right() + s.gap;
  const double said_h = std::max(12.4 * s.text, (bump ? 0.56 : 0.34) * (bottom - top));
  at.cutaway = {x, top, right_w, bottom - top - said_h - s.gap};
  at.said = {x, at.cutaway.bottom() + s.gap, right_w, said_h};
  at.terms = {s.margin, bottom + s.gap, width, terms_h};
  return at;
}

void draw_said(Ui& ui, const Snapshot& snapshot, const Study& study, const StudySizes& s, Box box) {
  const Palette& p = ui.palette();
  const double at_deg = needle_deg(snapshot);
  const Windows& windows = study.windows_of(study.cylinder);
  const Box inside =
      draw_panel(ui, s, box, texts::heading_readings(study.cylinder, angle_in(study.counted_deg(at_deg))));
  double y = inside.y;
  const double row = 1.25 * s.text, name_w = 4.6 * s.text;
  for (const Reading& line :
       readings(study.engine(), windows, at_deg, snapshot.document.preferences.measures)) {
    ui.text_in({inside.x, y, name_w, row}, line.name,
               {s.text, p.dim_text, Align::left, Weight::regular, 0.6});
    ui.text_in({inside.x + name_w, y, inside.w - name_w, row}, line.value,
               {s.text, p.text, Align::left, Weight::bold, 0.6});
    y += row;
  }
  y += 0.4 * s.text;
  const Box room{inside.x, y, inside.w, inside.bottom() - y};
  const std::string words = !study.file_mistakes.empty() ? study.file_mistakes
                            : study.term.empty()
                                ? happening(study.engine(), windows, at_deg)
                                : study.term + ": " + texts::meaning_of(study.term) + " " +
                                      on_this_engine(study.engine(), *study.engine().find(study.cylinder),
                                                     study.term, snapshot.document.preferences.measures);
  ui.paragraph_in(room, words, {s.text, p.text, Align::left, Weight::regular, 0.6}, 9);
}

/// Rows of words; pressing one explains it in the panel, hovering in a tip.
void draw_terms(Ui& ui, Study& study, const StudySizes& s, Box box, const std::vector<texts::Term>& all,
                size_t rows) {
  const size_t per_row = (all.size() + rows - 1) / rows;
  for (size_t row = 0; row < rows; ++row) {
    const size_t from = row * per_row, to = std::min(all.size(), from + per_row);
    double sum = 0;
    for (size_t i = from; i < to; ++i) sum += small_button_width(ui, s, all[i].word);
    const double gap = 0.5 * s.gap, room = box.w - gap * static_cast<double>(to - from - 1);
    double x = box.x;
    for (size_t i = from; i < to; ++i) {
      const double w = small_button_width(ui, s, all[i].word) * room / sum;
      const bool chosen = study.term == all[i].word;
      if (small_button(ui, s, "term " + all[i].word, all[i].word,
                       {x, box.y + static_cast<double>(row) * (s.button + gap), w, s.button}, chosen,
                       all[i].meaning))
        study.term = chosen ? "" : all[i].word;
      x += w + gap;
    }
  }
}

void draw_dial_panel(Ui& ui, const Study& study, const StudySizes& s, Box box,
                     std::optional<double> crank_deg, double needle) {
  DialView dial;
  dial.engine = &study.engine();
  dial.windows = &study.windows_of(study.cylinder);
  dial.crank_deg = crank_deg;
  dial.what_if_deg = needle;
  dial.theme = ui.theme();
  const Box dial_room = draw_panel(ui, s, box, texts::heading_dial(study.cylinder));
  dial.text = std::clamp(dial_room.h / 18, 0.62 * s.text,
                         0.9 * s.text);  // the words round it must leave the circle its room
  draw_dial(ui.canvas(), dial_room, dial);
}

void draw_lift_panel(Ui& ui, const Study& study, const StudySizes& s, Box box,
                     std::optional<double> crank_deg, double needle, Measures measures) {
  LiftView lift;
  lift.engine = &study.engine();
  lift.cylinder = study.cylinder;
  lift.crank_deg = crank_deg;
  lift.what_if_deg = needle;
  lift.theme = ui.theme();
  lift.inches = measures == Measures::us;
  const Box lift_room = draw_panel(ui, s, box, texts::heading_lift(study.cylinder));
  lift.text = std::clamp(lift_room.h / 17, 0.62 * s.text, 0.9 * s.text);
  draw_lift(ui.canvas(), lift_room, lift);
}

}  // namespace

void draw_teach(Ui& ui, Session& session) {
  const Snapshot& snapshot = session.snapshot();
  const StudySizes s = study_sizes(ui);
  Study& study = study_of(ui, snapshot);
  open_dropped(ui, study);
  const Box headline = draw_tabs(ui, session);
  draw_study_headline(ui, s, snapshot, study, headline);
  follow_bump(ui, session, study);
  const bool bump = study.bump.open(), course = bump && !study.bump.refused();
  const Places at = lay_out(ui, s, study.engine().cylinders.size(), bump);
  const Box lanes{at.timeline.x, at.timeline.y, at.timeline.w, at.timeline.h - kAboutLanes * s.text};
  if (too_small_for(ui, s, texts::bench(Bench::teach), {lanes, at.dial, at.lift, at.cutaway, at.said}))
    return;
  draw_timeline_panel(ui, session, study, s, at.timeline);

  const double needle = needle_deg(snapshot);
  const std::optional<double> crank_deg = study.of_the_job() ? jobs_crank_deg(snapshot) : std::nullopt;

  if (course) {
    draw_bump_course(ui, session, study, s, {at.dial.x, at.dial.y, at.lift.right() - at.dial.x, at.dial.h});
  } else {
    draw_dial_panel(ui, study, s, at.dial, crank_deg, needle);
    draw_lift_panel(ui, study, s, at.lift, crank_deg, needle, snapshot.document.preferences.measures);
  }

  CutawayView cut;
  cut.engine = &study.engine();
  cut.windows = &study.windows();
  cut.crank_deg = needle;
  cut.theme = ui.theme();
  cut.text = s.text;
  draw_cylinder(ui.canvas(), draw_panel(ui, s, at.cutaway, texts::heading_cutaway(study.cylinder)), cut,
                study.cylinder);

  if (bump)
    draw_bump_panel(ui, study, s, at.said);
  else
    draw_said(ui, snapshot, study, s, at.said);
  draw_terms(ui, study, s, at.terms, bump ? texts::bump_terms() : texts::terms(), bump ? 1 : 2);
  take_bump_keys(ui, session, study);
  take_timeline_keys(ui, session, study);
  draw_hover(ui, snapshot, study, s);
}

}  // namespace shutlane
