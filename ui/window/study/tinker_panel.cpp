#include "ui/window/study/tinker_panel.hpp"

#include <fmt/format.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "ui/window/study/readings.hpp"
#include "ui/window/study/texts.hpp"

namespace shutlane {

namespace {

/// The name of the new file, where it goes, and what stands in the way; in place of the list of changes.
void draw_save_form(Ui& ui, Study& study, const StudySizes& s, Box box) {
  const Palette& p = ui.palette();
  ui.text_in({box.x, box.y, box.w, 1.2 * s.text}, texts::heading_save(),
             {s.text, p.dim_text, Align::left, Weight::bold, 0.6});
  const Box field{box.x, box.y + 1.4 * s.text, box.w, s.button};
  if (text_field(ui, s, "save name", texts::save_hint(), *study.save_name, field, study.save_name_fresh))
    study.save_trouble.clear();
  if (ImGui::IsItemActive()) study.save_name_fresh = false;
  const Box below{box.x, field.bottom() + 0.3 * s.text, box.w, box.bottom() - field.bottom() - 0.3 * s.text};
  const bool wrong = !study.save_trouble.empty();
  ui.paragraph_in(below, wrong ? study.save_trouble : texts::save_into(study.save_folder()),
                  {0.9 * s.text, wrong ? p.open : p.text, Align::left, Weight::regular, 0.5}, 4);
}

void draw_knobs(Ui& ui, Session& session, Study& study, const StudySizes& s, Box knobs_room) {
  const Palette& p = ui.palette();
  const Measures measures = session.snapshot().document.preferences.measures;
  const std::vector<Knob> knobs = study.tinker.knobs();
  const double knob_h = 2.35 * s.text;
  const size_t rows = std::max<size_t>(1, static_cast<size_t>(knobs_room.h / knob_h));
  const size_t last = knobs.size() > rows ? knobs.size() - rows : 0;
  const ImVec2 at = ImGui::GetIO().MousePos;
  if (last > 0 && ImGui::GetIO().MouseWheel != 0 && static_cast<double>(at.x) >= knobs_room.x &&
      static_cast<double>(at.x) <= knobs_room.right() && static_cast<double>(at.y) >= knobs_room.y &&
      static_cast<double>(at.y) <= knobs_room.bottom()) {
    const long moved = static_cast<long>(study.first_knob) - std::lround(2 * ImGui::GetIO().MouseWheel);
    study.first_knob = static_cast<size_t>(std::max(0l, moved));
  }
  study.first_knob = std::min(study.first_knob, last);
  const double bar_w = last > 0 ? 0.5 * s.text : 0;
  const double height =
      std::min(knobs_room.h / static_cast<double>(std::min(rows, knobs.size())), 1.35 * knob_h);
  for (size_t i = 0; i < rows && study.first_knob + i < knobs.size(); ++i) {
    const Knob& knob = knobs[study.first_knob + i];
    const Box row{knobs_room.x, knobs_room.y + static_cast<double>(i) * height,
                  knobs_room.w - bar_w - (bar_w > 0 ? 0.4 * s.text : 0),
                  std::min(height - 0.3 * s.text, 2.2 * s.text)};
    const std::string id = fmt::format("knob {} {}", static_cast<int>(knob.kind), knob.valve);
    const bool focused = ui.focus_is(id);
    const Pulled pulled = slider(ui, s, id, knob, knob_in_words(knob, knob.value, measures), row);
    if (pulled.moved) study.knob(knob.kind, knob.valve, pulled.value, pulled.same_pull);
    if (focused && i + 1 == rows && study.first_knob < last && ui.key(Key::down)) ++study.first_knob;
    if (focused && i == 0 && study.first_knob > 0 && ui.key(Key::up)) --study.first_knob;
  }
  if (last == 0) return;
  const Box bar{knobs_room.right() - bar_w, knobs_room.y, bar_w, knobs_room.h};
  ui.canvas().fill_box(bar, p.grid, bar_w / 2);
  const double n = static_cast<double>(knobs.size());
  ui.canvas().fill_box({bar.x, bar.y + bar.h * static_cast<double>(study.first_knob) / n, bar.w,
                        bar.h * static_cast<double>(rows) / n},
                       p.dim_text, bar_w / 2);
}

}  // namespace

void draw_tinker(Ui& ui, Session& session, Study& study, const StudySizes& s, Box box) {
  const Palette& p = ui.palette();
  const Box inside = draw_panel(ui, s, box, texts::heading_tinker());
  const Tinker& tinker = study.tinker;
  const Measures measures = session.snapshot().document.preferences.measures;

  // From the foot upwards: buttons, what changed or is wrong or the form to save it.
  const double half = (inside.w - 0.5 * s.gap) / 2;
  const Box left{inside.x, inside.bottom() - s.button, half, s.button};
  const Box right{left.right() + 0.5 * s.gap, left.y, half, s.button};
  const bool can_save = tinker.changed() && tinker.mistakes().empty();
  if (study.save_name && !can_save) study.save_name.reset();
  if (study.save_name) {
    if (small_button(ui, s, "cancel save", texts::cancel(), left)) study.save_name.reset();
    if (small_button(ui, s, "save", texts::save_here(), right)) study.save();
  } else {
    if (small_button(ui, s, "back to file", texts::back_to_file(), left, false, texts::tip_back_to_file(),
                     tinker.changed()))
      study.back_to_file();
    if (small_button(ui, s, "save as", texts::save_as(), right, false, texts::tip_save(), can_save))
      study.ask_save_name();
  }
  const Box keep{inside.x, left.y - s.button - 0.5 * s.gap, inside.w, s.button};
  if (small_button(ui, s, "keep crank", tinker.keep_crank() ? texts::keep_crank() : texts::keep_intervals(),
                   keep, false, texts::tip_keep_crank()))
    study.keep_crank(!tinker.keep_crank());

  const double list_h = 6.4 * s.text;
  const Box list{inside.x, keep.y - list_h - 0.4 * s.gap, inside.w, list_h};
  if (study.save_name) {
    draw_save_form(ui, study, s, list);
    draw_knobs(ui, session, study, s, {inside.x, inside.y, inside.w, list.y - inside.y - 0.6 * s.gap});
    return;
  }
  const bool wrong = !tinker.mistakes().empty() || !study.file_mistakes.empty();
  ui.text_in({list.x, list.y, list.w, 1.2 * s.text},
             wrong ? texts::last_good_stays() : texts::heading_changes(),
             {s.text, wrong ? p.open : p.dim_text, Align::left, Weight::bold, 0.6});
  const Box lines{list.x, list.y + 1.3 * s.text, list.w, list.h - 1.3 * s.text};
  if (wrong) {
    std::string all = study.file_mistakes;
    if (!tinker.mistakes().empty())
      all = tinker.mistakes().front().wrong + "; expected: " + tinker.mistakes().front().expected;
    ui.paragraph_in(lines, all, {0.95 * s.text, p.text, Align::left, Weight::regular, 0.55}, 8);
  } else {
    const std::vector<KnobChange> changes = tinker.changes(measures);
    if (changes.empty())
      ui.text_in({lines.x, lines.y, lines.w, 1.2 * s.text}, texts::nothing_changed(),
                 {s.text, p.text, Align::left, Weight::regular, 0.6});
    const size_t fit = static_cast<size_t>(lines.h / (1.2 * s.text));
    for (size_t i = 0; i < changes.size() && i < fit; ++i) {
      const bool more = i + 1 == fit && changes.size() > fit;
      const std::string line = more ? texts::and_more(static_cast<int>(changes.size() - i))
                                    : texts::change(changes[i].label, changes[i].before, changes[i].after);
      ui.text_in({lines.x, lines.y + static_cast<double>(i) * 1.2 * s.text, lines.w, 1.2 * s.text}, line,
                 {s.text, p.text, Align::left, Weight::regular, 0.5});
    }
  }

  draw_knobs(ui, session, study, s, {inside.x, inside.y, inside.w, list.y - inside.y - 0.6 * s.gap});
}

void take_tinker_keys(Ui& ui, Study& study) {
  if (study.save_name) {
    if (ui.key(Key::escape)) {
      study.save_name.reset();
      ui.drop_focus();
    } else if (ui.focus_is("save name") && ImGui::GetIO().WantTextInput && ui.key(Key::enter)) {
      study.save();
    }
  }
  if (ImGui::GetIO().WantTextInput) return;
  if (ui.key(Key::backspace)) study.back_to_file();
  if (ui.key(KeyPress{Key::s, false, true}) && study.tinker.changed() && study.tinker.mistakes().empty())
    study.ask_save_name();
  if (ui.key(Key::k)) study.keep_crank(!study.tinker.keep_crank());
}

}  // namespace shutlane
