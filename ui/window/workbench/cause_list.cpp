#include "ui/window/workbench/cause_list.hpp"

#include <algorithm>

namespace shutlane {
namespace {

constexpr size_t kRows = 5, kColumns = 2;
constexpr double kGap_mm = 2;
constexpr double kLeastRow_mm = 15, kMostRow_mm = 20;
constexpr size_t kMostInstead = 3;  // beside a row; further looks are reached by undo or on their ports

Box place(const Ui& ui, Box box, size_t i) {
  const double gap = ui.mm(kGap_mm), between = ui.mm(3.4);
  const double w = (box.w - between) / kColumns;
  const double h = (box.h - gap * (kRows - 1)) / kRows;
  return {box.x + static_cast<double>(i / kRows) * (w + between),
          box.y + static_cast<double>(i % kRows) * (h + gap), w, h};
}

bool draw_row(Ui& ui, const OfferedCause& cause, size_t i, Box box) {
  const Palette& p = ui.palette();
  const WindowColours& c = ui.colours();
  const Ui::Area touched = ui.area("cause " + std::to_string(i + 1), cause.name, box);
  const double corner = ui.mm(2.4), pad = ui.mm(2.4);
  ui.canvas().fill_box(box, touched.over ? c.button_over : p.panel, corner);
  ui.canvas().stroke_box(box, {i == 0 ? p.crank : c.card_frame, ui.mm(i == 0 ? 1.2 : 0.5), 0}, corner);
  const double rank_w = ui.mm(8), action_w = std::min(ui.mm(25), box.w * 0.24);
  ui.text_in({box.x + pad, box.y, rank_w - pad, box.h}, std::to_string(i + 1),
             {ui.mm(8), i == 0 ? p.crank : p.dim_text, Align::left, Weight::bold, 0.5});
  const Box text{box.x + rank_w + ui.mm(1.5), box.y + ui.mm(1.4),
                 box.w - rank_w - action_w - ui.mm(3.5) - pad, box.h - ui.mm(2.4)};
  const double name_h = text.h * 0.38;
  ui.text_in({text.x, text.y, text.w, name_h}, cause.name,
             {std::min(ui.mm(6), name_h), p.text, Align::left, Weight::bold, 0.4});
  ui.paragraph_in({text.x, text.y + name_h, text.w, text.h - name_h}, cause.check,
                  {ui.type_mm(4.6), p.dim_text, Align::left, Weight::regular, 0.3}, 2);
  ui.paragraph_in({box.right() - action_w - pad, box.y + ui.mm(1), action_w, box.h - ui.mm(2)},
                  cause.choose.label, {ui.mm(5.2), p.crank, Align::centre, Weight::bold, 0.5}, 2);
  if (touched.focused) ui.draw_focus(box, corner);
  return touched.pressed;
}

}  // namespace

double cause_list_height(const Ui& ui, double room_px) {
  const double row = std::clamp(room_px * 0.095, ui.mm(kLeastRow_mm), ui.mm(kMostRow_mm));
  return row * kRows + ui.mm(kGap_mm) * (kRows - 1);
}

std::optional<Press> draw_cause_list(Ui& ui, const Snapshot& s, Box box) {
  std::optional<Press> pressed;
  const size_t shown = std::min(s.advice.causes.size(), kRows * kColumns - 1);
  const double gap = ui.mm(kGap_mm), instead_w = ui.mm(17);
  for (size_t i = 0; i < shown; ++i) {
    const OfferedCause& cause = s.advice.causes[i];
    Box row = place(ui, box, i);
    const size_t instead = std::min(cause.instead.size(), kMostInstead);
    row.w -= static_cast<double>(instead) * (instead_w + gap);
    if (draw_row(ui, cause, i, row)) pressed = cause.choose;
    for (size_t k = 0; k < instead; ++k) {
      const Press& press = cause.instead[k];
      const Box at{row.right() + gap + static_cast<double>(k) * (instead_w + gap), row.y, instead_w, row.h};
      const std::string id = "cause " + std::to_string(i + 1) + " instead " + std::to_string(k + 1);
      if (ui.button({id, press.label, "", "", Look::plain, true, false, 5}, at)) pressed = press;
    }
  }
  Box wide = place(ui, box, kRows * kColumns - 1);
  const Box undo{wide.right() - wide.w * 0.3, wide.y, wide.w * 0.3, wide.h};
  wide.w -= undo.w + gap;
  if (ui.button({"wide", s.advice.wide.label, "", "", Look::plain, true, false, 8}, wide))
    pressed = s.advice.wide;
  const Press& last = s.advice.beside[2];
  if (ui.button({"beside 3", last.label, "", "", Look::plain, s.can_undo, false, 6.4}, undo)) pressed = last;
  return pressed;
}

}  // namespace shutlane
