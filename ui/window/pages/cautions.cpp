// What can hurt a person at this work, before a job begins; the menu leads back to it.
#include <span>

#include "sim/job/cautions.hpp"
#include "ui/window/benches.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {
namespace {

/// The cautions in two columns, numbered, each in a room of its own height.
void draw_list(Ui& ui, std::span<const std::string_view> cautions, Box room) {
  const double between = ui.mm(8), gap = ui.mm(2);
  const size_t rows = (cautions.size() + 1) / 2;
  const double w = (room.w - between) / 2;
  const double h = (room.h - gap * static_cast<double>(rows - 1)) / static_cast<double>(rows);
  const double number_w = ui.mm(9);
  for (size_t i = 0; i < cautions.size(); ++i) {
    const Box box{room.x + static_cast<double>(i / rows) * (w + between),
                  room.y + static_cast<double>(i % rows) * (h + gap), w, h};
    ui.canvas().fill_box(box, ui.palette().panel, ui.mm(2));
    ui.text_in({box.x, box.y, number_w, box.h}, std::to_string(i + 1),
               {ui.mm(7), ui.palette().open, Align::centre, Weight::bold, 0.6});
    const double pad = ui.mm(1.2);
    ui.paragraph_in({box.x + number_w, box.y + pad, box.w - number_w - ui.mm(2), box.h - 2 * pad},
                    cautions[i], {ui.mm(8), ui.palette().text, Align::left, Weight::regular, 0.4, true}, 4);
  }
}

}  // namespace

void draw_cautions_page(Ui& ui, Session& session) {
  const Snapshot& s = session.snapshot();
  const bool of_bumps = s.page == Page::bump_cautions;
  const double margin = ui.mm(8), top = ui.mm(5), head_h = ui.mm(17), wide_h = ui.mm(20);
  const Box screen = ui.screen();
  const Box headline = draw_tabs(ui, session);  // nothing is blasted on Teach and Explore
  ui.text_in({margin, top, headline.w, head_h}, of_bumps ? texts::before_a_bump() : texts::before_you_start(),
             {ui.mm(13), ui.palette().text, Align::left, Weight::bold, 0.45});
  const Box wide{margin, screen.h - ui.mm(5) - wide_h, screen.w - 2 * margin, wide_h};
  const double list_y = top + head_h + ui.mm(2);
  const std::span<const std::string_view> all = of_bumps ? std::span<const std::string_view>(kBumpCautions)
                                                         : std::span<const std::string_view>(kCautions);
  draw_list(ui, all, {margin, list_y, screen.w - 2 * margin, wide.y - ui.mm(4) - list_y});
  const bool more = !of_bumps && s.document.rules.turn_by == TurnBy::starter;
  const bool free = !ui.actions_held();
  if (ui.button({"wide", more ? texts::read_on() : texts::all_heeded(), "", "", Look::wide, free, false, 10},
                wide) ||
      (free && !ui.has_focus() && (ui.key(Key::enter) || ui.key(Key::space)))) {
    ui.hold_actions();  // the next page asks something else at the same place
    session.queue(ShowPage{more ? Page::bump_cautions : Page::none});
  }
}

}  // namespace shutlane
