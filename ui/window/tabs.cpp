#include "ui/window/benches.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {

Box draw_tabs(Ui& ui, Session& session) {
  const Snapshot& s = session.snapshot();
  const double margin = ui.mm(8), top = ui.mm(5), gap = ui.mm(1.6);
  const double w = ui.mm(24), h = ui.mm(kTarget_mm);
  double x = ui.screen().w - margin - w;
  const bool menu_open = s.page == Page::job_menu;
  if (ui.button({"menu", "Menu", "", "", Look::tab, true, menu_open, 5}, {x, top, w, h}))
    session.queue(ShowPage{menu_open ? Page::none : Page::job_menu});
  for (const Bench bench : {Bench::explore, Bench::teach, Bench::work}) {
    x -= w + gap;
    const bool here = s.document.bench == bench && s.page == Page::none;
    if (ui.button({"bench " + texts::bench(bench), texts::bench(bench), "", "", Look::tab, true, here, 5},
                  {x, top, w, h}))
      session.queue(ShowBench{bench});
  }
  return {margin, top, x - margin - ui.mm(5), ui.mm(27)};
}

}  // namespace shutlane
