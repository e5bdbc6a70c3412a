#include "ui/window/study/picker.hpp"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "ui/drawings/layout_icon.hpp"
#include "ui/window/study/engine_list.hpp"
#include "ui/window/study/texts.hpp"

namespace shutlane {

void draw_picker(Ui& ui, Session& session, Study& study, const StudySizes& s, Box box) {
  const Palette& p = ui.palette();
  const Box inside = draw_panel(ui, s, box, texts::heading_engines());
  const Box field{inside.x, inside.y, inside.w, s.button};
  if (text_field(ui, s, "search", texts::search_hint(), study.query, field)) study.first_entry = 0;
  const Box foot{inside.x, inside.bottom() - s.button, inside.w, s.button};
  const bool can_start = !study.of_the_job() && !study.tinker.changed();
  if (small_button(ui, s, "start job", texts::start_job_on_it(), foot, false, texts::tip_start_job(),
                   can_start))
    session.queue(OpenEngine{study.engine_name(), session.snapshot().document.rules.turn_by, false});

  const Box list{inside.x, field.bottom() + 0.6 * s.gap, inside.w, foot.y - field.bottom() - 1.2 * s.gap};
  const std::vector<const EngineEntry*> found = matching(bundled_entries(), study.query);
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
  for (size_t i = 0; i < rows && study.first_entry + i < found.size(); ++i) {
    const EngineEntry& e = *found[study.first_entry + i];
    const Box row{list.x, list.y + static_cast<double>(i) * height,
                  list.w - bar_w - (scrolls ? 0.3 * s.text : 0), height - 0.2 * s.text};
    const bool here = e.name == study.engine_name();
    const Ui::Area touched =
        ui.area("engine " + e.name, e.title, row, true, here, e.title + " \u00b7 " + e.order);
    const Colour fill = here ? ui.colours().chosen : touched.over ? ui.colours().button_over : p.panel;
    const Colour ink = here ? ui.colours().chosen_text : p.text;
    ui.canvas().fill_box(row, fill, ui.mm(1.2));
    const double icon = std::min(2.3 * s.text, row.h - 0.4 * s.text);
    draw_layout_icon(ui.canvas(), {row.x + 0.4 * s.text, row.y + (row.h - icon) / 2, icon, icon}, e.drawn,
                     ink, fill);
    const double x = row.x + icon + 1.1 * s.text, w = row.right() - x - 0.4 * s.text;
    ui.text_in({x, row.y + 0.05 * row.h, w, 0.34 * row.h}, e.layout,
               {s.text, ink, Align::left, Weight::bold, 0.6});
    ui.paragraph_in({x, row.y + 0.40 * row.h, w, 0.58 * row.h}, e.title,
                    {std::round(0.86 * s.text), here ? ink : p.dim_text, Align::left, Weight::regular, 0.5},
                    2);
    if (touched.focused) {
      ui.draw_focus(row, ui.mm(1.2));
      // The keyboard scrolls by standing at either end.
      if (i + 1 == rows && study.first_entry < last && ui.key(Key::down)) ++study.first_entry;
      if (i == 0 && study.first_entry > 0 && ui.key(Key::up)) --study.first_entry;
    }
    if (touched.pressed) study.open(e.name);
  }
  if (!scrolls) return;
  const Box bar{list.right() - bar_w, list.y, bar_w, list.h - 0.2 * s.text};
  ui.canvas().fill_box(bar, p.grid, bar_w / 2);
  const double n = static_cast<double>(found.size());
  ui.canvas().fill_box({bar.x, bar.y + bar.h * static_cast<double>(study.first_entry) / n, bar.w,
                        bar.h * static_cast<double>(rows) / n},
                       p.dim_text, bar_w / 2);
}

}  // namespace shutlane
