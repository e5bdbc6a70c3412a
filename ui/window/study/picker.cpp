#include "ui/window/study/picker.hpp"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "ui/drawings/layout_icon.hpp"
#include "ui/window/study/engine_list.hpp"
#include "ui/window/study/texts.hpp"

namespace shutlane {

namespace {

/// A row of the list: an engine, or what was tried on one and not saved.
struct Row {
  EngineEntry entry;
  std::optional<size_t> unsaved;  ///< index into Study::unsaved
};

/// First what is the person's own, then what comes with the program.
std::vector<Row> rows_of(const Study& study) {
  std::vector<Row> rows;
  std::vector<EngineEntry> tried;
  for (const Study::Unsaved& u : study.unsaved()) tried.push_back(entry_of(u.name, u.tinker.file(), false));
  for (const EngineEntry* e : matching(tried, study.query))
    rows.push_back({*e, static_cast<size_t>(e - tried.data())});
  for (const auto* entries : {&study.own_entries(), &bundled_entries()})
    for (const EngineEntry* e : matching(*entries, study.query)) rows.push_back({*e, std::nullopt});
  return rows;
}

}  // namespace

void draw_picker(Ui& ui, Session& session, Study& study, const StudySizes& s, Box box) {
  const Palette& p = ui.palette();
  const Box inside = draw_panel(ui, s, box, texts::heading_engines());
  const Box field{inside.x, inside.y, inside.w, s.button};
  if (text_field(ui, s, "search", texts::search_hint(), study.query, field, ui.key(Key::slash)))
    study.first_entry = 0;
  const Box foot{inside.x, inside.bottom() - s.button, inside.w, s.button};
  const bool can_start = !study.of_the_job() && !study.tinker.changed();
  if (small_button(ui, s, "start job", texts::start_job_on_it(), foot, false,
                   study.tinker.changed() ? texts::tip_start_job_unsaved() : texts::tip_start_job(),
                   can_start)) {
    session.queue(OpenEngine{study.engine_name(), session.snapshot().document.rules.turn_by, false,
                             session.snapshot().document.rules.wrench_too});
  }

  const Box list{inside.x, field.bottom() + 0.6 * s.gap, inside.w, foot.y - field.bottom() - 1.2 * s.gap};
  const std::vector<Row> found = rows_of(study);
  if (found.empty()) {
    ui.paragraph_in(list, texts::no_engine_found(), {s.text, p.dim_text, Align::left, Weight::regular, 0.6},
                    4);
    return;
  }
  const double row_h = std::max(3.5 * s.text, ui.mm(9));
  const size_t rows = std::max<size_t>(1, static_cast<size_t>(list.h / row_h));
  const ImVec2 at = ImGui::GetIO().MousePos;
  const bool over = static_cast<double>(at.x) >= list.x && static_cast<double>(at.x) <= list.right() &&
                    static_cast<double>(at.y) >= list.y && static_cast<double>(at.y) <= list.bottom();
  const size_t last = found.size() > rows ? found.size() - rows : 0;
  if (over && ImGui::GetIO().MouseWheel != 0) {
    const long moved = static_cast<long>(study.first_entry) - std::lround(3 * ImGui::GetIO().MouseWheel);
    study.first_entry = static_cast<size_t>(std::max(0l, moved));
  }
  study.first_entry = std::min(study.first_entry, last);
  const bool scrolls = last > 0;
  const double bar_w = scrolls ? 0.5 * s.text : 0, height = list.h / static_cast<double>(rows);
  std::optional<Row> pressed;
  for (size_t i = 0; i < rows && study.first_entry + i < found.size(); ++i) {
    const Row& shown = found[study.first_entry + i];
    const EngineEntry& e = shown.entry;
    const Box row{list.x, list.y + static_cast<double>(i) * height,
                  list.w - bar_w - (scrolls ? 0.3 * s.text : 0), height - 0.2 * s.text};
    const bool here = !shown.unsaved && e.name == study.engine_name();
    const std::string tip = shown.unsaved ? texts::tip_unsaved(e.title)
                            : e.own       ? e.title + " \u00b7 " + e.order + " \u00b7 " + e.name
                                          : e.title + " \u00b7 " + e.order;
    const Ui::Area touched =
        ui.area((shown.unsaved ? "unsaved " : "engine ") + e.name, e.title, row, true, here, tip);
    const Colour fill = here ? ui.colours().chosen : touched.over ? ui.colours().button_over : p.panel;
    const Colour ink = here ? ui.colours().chosen_text : p.text;
    ui.canvas().fill_box(row, fill, ui.mm(1.2));
    const double icon = std::min(2.3 * s.text, row.h - 0.4 * s.text);
    draw_layout_icon(ui.canvas(), {row.x + 0.4 * s.text, row.y + (row.h - icon) / 2, icon, icon}, e.drawn,
                     ink, fill);
    const double x = row.x + icon + 1.1 * s.text, w = row.right() - x - 0.4 * s.text;
    const std::string mark = shown.unsaved ? texts::unsaved_changes() : e.own ? texts::your_file() : "";
    const double mark_w =
        mark.empty() ? 0 : std::min(0.6 * w, ui.canvas().text_width(mark, 0.86 * s.text) + 0.3 * s.text);
    ui.text_in({x, row.y + 0.05 * row.h, w - mark_w, 0.34 * row.h}, e.layout,
               {s.text, ink, Align::left, Weight::bold, 0.6});
    if (!mark.empty())
      ui.text_in({x + w - mark_w, row.y + 0.05 * row.h, mark_w, 0.34 * row.h}, mark,
                 {0.86 * s.text, here ? ink : p.what_if, Align::right, Weight::regular, 0.6});
    ui.paragraph_in({x, row.y + 0.40 * row.h, w, 0.58 * row.h}, e.title,
                    {std::round(0.86 * s.text), here ? ink : p.dim_text, Align::left, Weight::regular, 0.5},
                    2);
    if (touched.focused) {
      ui.draw_focus(row, ui.mm(1.2));
      // The keyboard scrolls by standing at either end.
      if (i + 1 == rows && study.first_entry < last && ui.key(Key::down)) ++study.first_entry;
      if (i == 0 && study.first_entry > 0 && ui.key(Key::up)) --study.first_entry;
    }
    if (touched.pressed) pressed = shown;
  }
  if (pressed && pressed->unsaved)
    study.open_unsaved(*pressed->unsaved);
  else if (pressed)
    study.open(pressed->entry.name);
  if (!scrolls) return;
  const Box bar{list.right() - bar_w, list.y, bar_w, list.h - 0.2 * s.text};
  ui.canvas().fill_box(bar, p.grid, bar_w / 2);
  const double n = static_cast<double>(found.size());
  ui.canvas().fill_box({bar.x, bar.y + bar.h * static_cast<double>(study.first_entry) / n, bar.w,
                        bar.h * static_cast<double>(rows) / n},
                       p.dim_text, bar_w / 2);
}

}  // namespace shutlane
