#include "ui/window/pages/form.hpp"

#include <algorithm>

namespace shutlane {

std::optional<size_t> Form::ask(const std::string& question, const std::vector<Choice>& choices,
                                size_t per_line, double height_mm) {
  const double gap = ui_.mm(2.4), h = ui_.mm(height_mm);
  if (!question.empty()) {
    const double line = std::min(ui_.type_mm(5.4), ui_.mm(8));
    ui_.text_in({room_.x, y_, room_.w, line * 1.25}, question,
                {line, ui_.palette().text, Align::left, Weight::bold, 0.6});
    y_ += line * 1.4;
  }
  const size_t columns = per_line == 0 ? std::max<size_t>(1, choices.size()) : per_line;
  const double w = (room_.w - gap * static_cast<double>(columns - 1)) / static_cast<double>(columns);
  std::optional<size_t> pressed;
  for (size_t i = 0; i < choices.size(); ++i) {
    const Choice& c = choices[i];
    const double x = room_.x + static_cast<double>(i % columns) * (w + gap);
    const double y = y_ + static_cast<double>(i / columns) * (h + gap);
    ButtonSpec spec{c.id, c.label, c.note, "", Look::plain, c.enabled, c.selected, 5.2};
    if (ui_.button(spec, {x, y, w, h})) pressed = i;
  }
  const size_t lines = (choices.size() + columns - 1) / columns;
  y_ += static_cast<double>(lines) * (h + gap) + ui_.mm(2.2);
  return pressed;
}

void Form::say(const std::string& text, Colour colour, double size_mm) {
  const double size = ui_.type_mm(size_mm);
  const double height = ui_.paragraph_in({room_.x, y_, room_.w, std::max(size * 1.2, room_.bottom() - y_)},
                                         text, {size, colour, Align::left, Weight::regular, 0.6}, 3);
  y_ += height + ui_.mm(2);
}

}  // namespace shutlane
