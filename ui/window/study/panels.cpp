#include "ui/window/study/panels.hpp"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "ui/drawings/text.hpp"
#include "ui/window/study/texts.hpp"

namespace shutlane {

StudySizes study_sizes(const Ui& ui) {
  StudySizes s;
  const Box screen = ui.screen();
  s.text =
      std::round(std::clamp(ui.type_mm(3.5), 11.0, std::max(11.0, std::min(screen.h / 44, screen.w / 72))));
  s.button = std::max(1.9 * s.text, ui.mm(7));
  s.gap = std::round(0.75 * s.text);
  s.margin = ui.mm(5);
  s.pad = std::round(0.75 * s.text);
  return s;
}

bool too_small_for(Ui& ui, const StudySizes& s, const std::string& bench, std::initializer_list<Box> places) {
  const bool room = std::all_of(places.begin(), places.end(),
                                [&](Box b) { return b.w >= 9 * s.text && b.h >= 6 * s.text; });
  if (room) return false;
  // Below the tabs where that is enough for three lines, else over the whole window.
  constexpr double kLeast_px = 11;
  const Box screen = ui.screen();
  const double size = std::max(kLeast_px, ui.type_mm(4)), top = ui.mm(23),
               edge = std::min(s.margin, screen.w / 20);
  const bool below = screen.h - top >= 4 * kLeading * kLeast_px;
  const Box words{edge, below ? top : edge, screen.w - 2 * edge, screen.h - (below ? top : edge) - edge};
  if (!below) ui.canvas().fill_box(screen, ui.palette().background);
  const int lines = std::max(1, static_cast<int>(words.h / (kLeading * kLeast_px)));
  ui.paragraph_in(words, texts::too_small_for(bench),
                  {size, ui.palette().text, Align::left, Weight::bold, kLeast_px / size}, std::min(lines, 6));
  return true;
}

Box draw_panel(Ui& ui, const StudySizes& s, Box box, const std::string& heading) {
  ui.canvas().fill_box(box, ui.palette().panel, ui.mm(2));
  Box inside{box.x + s.pad, box.y + s.pad, box.w - 2 * s.pad, box.h - 2 * s.pad};
  if (heading.empty()) return inside;
  const Box row{inside.x, inside.y, inside.w, 1.2 * s.text};
  ui.text_in(row, heading, {s.text, ui.palette().dim_text, Align::left, Weight::bold, 0.6});
  inside.y += 1.6 * s.text;
  inside.h -= 1.6 * s.text;
  return inside;
}

double small_button_width(Ui& ui, const StudySizes& s, const std::string& label) {
  return ui.canvas().text_width(label, s.text, Weight::bold) + 1.6 * s.text;
}

bool small_button(Ui& ui, const StudySizes& s, const std::string& id, const std::string& label, Box box,
                  bool selected, const std::string& tip, bool enabled) {
  const Ui::Area touched = ui.area(id, label, box, enabled, selected, tip);
  const WindowColours& c = ui.colours();
  const Colour fill = selected ? c.chosen : touched.over && enabled ? c.button_over : c.button;
  const double corner = std::min(ui.mm(1.4), box.h / 4);
  ui.canvas().fill_box(box, enabled ? fill : mixed(c.button, ui.palette().panel, 0.6), corner);
  const Colour ink = !enabled ? c.button_off : selected ? c.chosen_text : c.button_text;
  ui.text_in({box.x + 0.4 * s.text, box.y, box.w - 0.8 * s.text, box.h}, label,
             {s.text, ink, Align::centre, selected ? Weight::bold : Weight::regular, 0.6});
  if (touched.focused) ui.draw_focus(box, corner);
  return touched.pressed;
}

Pulled slider(Ui& ui, const StudySizes& s, const std::string& id, const Knob& knob, const std::string& shown,
              Box box, const std::string& tip) {
  const Palette& p = ui.palette();
  const Ui::Area touched = ui.area(id, knob.label, box, true, false, tip);
  const bool held = ImGui::IsItemActive();
  const bool first = ImGui::IsItemActivated();
  const double value_w = 4.6 * s.text, top_h = std::min(1.25 * s.text, 0.6 * box.h);
  ui.text_in({box.x, box.y, box.w - value_w, top_h}, knob.label,
             {s.text, p.text, Align::left, Weight::regular, 0.6});
  ui.text_in({box.right() - value_w, box.y, value_w, top_h}, shown,
             {s.text, knob.by_hand ? p.what_if : p.text, Align::right,
              knob.by_hand ? Weight::bold : Weight::regular, 0.6});

  const double knob_r = std::min(0.42 * s.text, 0.24 * box.h), y = box.bottom() - knob_r - 0.1 * s.text;
  const Box track{box.x + knob_r, y - 0.11 * s.text, box.w - 2 * knob_r, 0.22 * s.text};
  auto x_of = [&](double value) { return track.x + track.w * (value - knob.low) / (knob.high - knob.low); };
  ui.canvas().fill_box(track, p.grid, track.h / 2);
  const double a = std::min(x_of(knob.in_file), x_of(knob.value)),
               b = std::max(x_of(knob.in_file), x_of(knob.value));
  ui.canvas().fill_box({a, track.y, std::max(1.0, b - a), track.h}, knob.by_hand ? p.what_if : p.dim_text);
  const std::array tick{Point{x_of(knob.in_file), y - knob_r}, Point{x_of(knob.in_file), y + knob_r}};
  ui.canvas().line(tick, {p.dim_text, std::max(1.0, 0.1 * s.text)});
  const Point middle{x_of(knob.value), y};
  ui.canvas().fill_circle(middle, knob_r,
                          touched.over || held ? p.text
                          : knob.by_hand       ? p.what_if
                                               : p.dim_text);
  if (!knob.by_hand) ui.canvas().fill_circle(middle, 0.5 * knob_r, p.panel);
  if (touched.focused) ui.draw_focus(box, ui.mm(1));

  Pulled pulled;
  if (held &&
      (!first || std::fabs(ImGui::GetIO().MousePos.y - static_cast<float>(y)) < static_cast<float>(box.h))) {
    const double part = (static_cast<double>(ImGui::GetIO().MousePos.x) - track.x) / track.w;
    const double wanted = knob.low + std::clamp(part, 0.0, 1.0) * (knob.high - knob.low);
    const double stepped = std::clamp(std::round(wanted / knob.step) * knob.step, knob.low, knob.high);
    pulled = {std::fabs(stepped - knob.value) > 1e-9, !first && ImGui::GetIO().MouseDownDuration[0] > 0.05f,
              stepped};
  }
  if (touched.focused) {
    double steps = 0;
    if (ui.key(Key::right)) steps += 1;
    if (ui.key(Key::left)) steps -= 1;
    if (ui.key(KeyPress{Key::right, true})) steps += 10;
    if (ui.key(KeyPress{Key::left, true})) steps -= 10;
    if (ui.key(Key::del)) return {knob.changed(), false, knob.in_file};
    if (steps != 0) pulled = {true, false, std::clamp(knob.value + steps * knob.step, knob.low, knob.high)};
  }
  return pulled;
}

bool text_field(Ui& ui, const StudySizes& s, const std::string& id, const std::string& hint,
                std::string& text, Box box, bool focus) {
  const WindowColours& c = ui.colours();
  const Palette& p = ui.palette();
  const double corner = std::min(ui.mm(1.4), box.h / 4);
  ui.canvas().fill_box(box, p.background, corner);
  ui.canvas().stroke_box(box, {c.card_frame, std::max(1.0, ui.mm(0.25))}, corner);
  ui.items().items.push_back({id, hint, box, true, false});
  ImFont* font = ui.fonts().at(Typeface::regular, s.text);
  ImGui::PushFont(font);
  ImGui::SetWindowFontScale(static_cast<float>(s.text) / font->FontSize);  // a size that is not held yet
  const float pad_y = std::max(0.0f, (static_cast<float>(box.h) - ImGui::GetFontSize()) / 2);
  ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(static_cast<float>(0.6 * s.text), pad_y));
  ImGui::PushStyleColor(ImGuiCol_FrameBg, IM_COL32(0, 0, 0, 0));
  ImGui::PushStyleColor(ImGuiCol_Text, packed(p.text));
  ImGui::PushStyleColor(ImGuiCol_TextDisabled, packed(p.dim_text));
  ImGui::SetCursorScreenPos({static_cast<float>(box.x), static_cast<float>(box.y)});
  ImGui::SetNextItemWidth(static_cast<float>(box.w));
  std::array<char, 128> buffer{};
  text.copy(buffer.data(), buffer.size() - 1);
  if (focus || (ui.focus_is(id) && !ImGui::GetIO().WantTextInput && ui.key(Key::enter))) {
    ImGui::SetWindowFocus();  // without it the field is not found
    ImGui::SetKeyboardFocusHere();
  }
  const bool changed = ImGui::InputTextWithHint(("##" + id).c_str(), hint.c_str(), buffer.data(),
                                                buffer.size(), focus ? ImGuiInputTextFlags_AutoSelectAll : 0);
  // The keyboard's place and Dear ImGui's field go together, whichever was taken first.

  if (ImGui::IsItemActivated())
    ui.focus_on(id);
  else if (ImGui::IsItemActive() && !ui.focus_is(id))
    ImGui::SetWindowFocus(nullptr);
  ImGui::PopStyleColor(3);
  ImGui::PopStyleVar();
  ImGui::SetWindowFontScale(1);
  ImGui::PopFont();
  if (ui.focus_is(id)) ui.draw_focus(box, corner);
  if (changed) text = buffer.data();
  return changed;
}

}  // namespace shutlane
