// A job that was closed or cut off is open again: nobody knows what happened at the car meanwhile.
#include <array>

#include "ui/window/benches.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {
namespace {

struct Answer {
  std::string id, label;
  Key key;
};

/// What was seen holds only if the crank stands as it stood.
void moved(Session& session, bool by_press) {
  if (!by_press) session.queue(LogEvent{CrankMoved{}});  // a press under way counts as a bump already
}

/// A blast that was under way is over: before it goes on the port is looked into again.
void stands(Session& session, bool by_press) {
  if (by_press) session.queue(TakeBackPress{});
  if (session.snapshot().job.blasting) session.queue(LogEvent{BlastStopped{*session.snapshot().job.blasting}});
}

}  // namespace

void draw_came_back_page(Ui& ui, Session& session) {
  const Snapshot& s = session.snapshot();
  const bool by_press = press_under_way(s.document);
  const double margin = ui.mm(8), top = ui.mm(5), gap = ui.mm(6);
  const Box screen = ui.screen();
  const Box room{margin, top, screen.w - 2 * margin, screen.h - 2 * top};
  ui.text_in({room.x, room.y, room.w, ui.mm(20)}, texts::came_back(by_press),
             {ui.mm(15.5), ui.palette().text, Align::left, Weight::bold, 0.45});
  ui.text_in({room.x, room.y + ui.mm(22), room.w, ui.mm(11)}, texts::came_back_second(s.job.blasting),
             {ui.mm(8.4), ui.palette().dim_text, Align::left, Weight::regular, 0.45});
  // Enter is neither answer: it is pressed without reading.
  const std::array answers{Answer{"moved", texts::it_may_have_moved(by_press), Key::q},
                           Answer{"stands", texts::it_stands(by_press), Key::w}};
  const double answer_h = std::min(ui.mm(40), room.h * 0.3);
  Box box{room.x, room.y + ui.mm(40), (room.w - gap) / 2, answer_h};
  const bool free = !ui.actions_held();
  for (size_t i = 0; i < answers.size(); ++i) {
    const ButtonSpec spec{
        answers[i].id, answers[i].label, "", texts::key_of_answer(i), Look::wide, free, false, 11.5};
    const bool pressed = ui.button(spec, box) || (free && ui.key(answers[i].key));
    box.x += box.w + gap;
    if (!pressed) continue;
    ui.hold_actions();  // the bench asks something else at the same place
    (i == 0 ? moved : stands)(session, by_press);
    session.queue(ShowPage{});
    return;
  }
}

}  // namespace shutlane
