#include "ui/window/ui.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"

namespace shutlane {

namespace {

constexpr double kTipDelay_s = 0.5;
constexpr double kCorner_mm = 2.4;

struct ButtonColours {
  Colour fill, text;
};

ButtonColours colours_of(const Ui& ui, const ButtonSpec& spec, bool over) {
  const Palette& p = ui.palette();
  const WindowColours& c = ui.colours();
  if (!spec.enabled) return {mixed(c.button, p.background, 0.6), c.button_off};
  if (spec.look == Look::wide) return {over ? mixed(p.crank, p.text, 0.15) : p.crank, p.on_fill};
  if (spec.selected && spec.look == Look::tab) return {p.panel, p.text};
  if (spec.selected) return {c.chosen, c.chosen_text};
  if (spec.look == Look::quiet) return {over ? c.button_over : p.background, p.dim_text};
  return {over ? c.button_over : c.button, spec.look == Look::tab ? p.dim_text : c.button_text};
}

}  // namespace

double assumed_dpi(double width_px, double height_px) {
  return std::hypot(width_px, height_px) / kAssumedDiagonal_in;
}

void Ui::begin(const Frame& frame, const InputQueue& input) {
  frame_ = frame;
  keys_ = input.pressed;
  dropped = input.dropped;
  out_of_date_ = false;
  wake_after_s_.reset();
  tip_.clear();
  tip_box_.reset();
  tip_row.reset();
  walk();
  items_.clear();
  if (actions_held() && (!keys_.empty() || ImGui::IsMouseClicked(0)))
    hold_actions();  // one click of a row, however slow the row is
  if (actions_held()) wake_after(held_until_s_ - ImGui::GetTime() + 1e-3);
  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize({static_cast<float>(frame.width_px), static_cast<float>(frame.height_px)});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(0, 0));
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 0);
  ImGui::PushStyleColor(ImGuiCol_WindowBg, packed(palette().background));
  ImGui::Begin("bench", nullptr,
               ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                   ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoScrollWithMouse |
                   ImGuiWindowFlags_NoNav);
  list_ = ImGui::GetWindowDrawList();
  canvas_.emplace(*list_, fonts_);
}

void Ui::end() {
  if (!focus_.empty() && !items_.by_id(focus_)) focus_.clear();  // its page is gone
  if (!tip_.empty()) {
    ImDrawList& front = *ImGui::GetForegroundDrawList();
    ScreenCanvas canvas(front, fonts_);
    const double size = type_mm(4.2), pad = mm(2.5);
    if (tip_row) {
      tip_box_ = tip_row;
      canvas.fill_box(*tip_row, colours().chosen, mm(1.5));
      const double fits =
          fitting_size(tip_, tip_row->w - 2 * pad, std::min(size, tip_row->h), Weight::regular, 0.4);
      canvas.text({tip_row->x + pad, tip_row->y + tip_row->h / 2 + fits * kHalfCapital}, tip_, fits,
                  colours().chosen_text, Align::left, Weight::regular);
    } else {
      const double width = std::min(screen().w * 0.5, canvas.text_width(tip_, size, Weight::regular) + 1);
      const std::vector<std::string> lines = wrapped(canvas, tip_, width, size);
      const double height = static_cast<double>(lines.size()) * size * kLeading;
      const Box box = tip_place(width + 2 * pad, height + 2 * pad);
      tip_box_ = box;
      canvas.fill_box(box, colours().chosen, mm(1.5));
      draw_paragraph(canvas, {box.x + pad, box.y + pad}, width, tip_, size, colours().chosen_text);
    }
  }
  ImGui::End();
  ImGui::PopStyleColor();
  ImGui::PopStyleVar(2);
}

/// Beside what it explains, never on it: of below, above, right and left the one that stays in the window and
/// covers the least of the other items.
Box Ui::tip_place(double width, double height) const {
  const double gap = mm(1.5), edge = mm(2), right = screen().w - edge, bottom = screen().h - edge;
  const auto along = [&](double wanted, double size, double end) {
    return std::max(edge, std::min(wanted, end - size));
  };
  const double x = along(static_cast<double>(ImGui::GetIO().MousePos.x) - width / 2, width, right);
  const double y = along(static_cast<double>(ImGui::GetIO().MousePos.y) - height / 2, height, bottom);
  const Box places[] = {{x, tip_of_.bottom() + gap, width, height},
                        {x, tip_of_.y - gap - height, width, height},
                        {tip_of_.right() + gap, y, width, height},
                        {tip_of_.x - gap - width, y, width, height}};
  Box best = places[0];
  double least = std::numeric_limits<double>::infinity();
  for (const Box& place : places) {
    const Box seen = overlap(place, {edge, edge, right - edge, bottom - edge});
    double cost = 100 * (place.w * place.h - seen.w * seen.h);
    for (const Item& item : items_.items) {
      const Box covered = overlap(place, item.box);
      cost += covered.w * covered.h;
    }
    if (cost >= least) continue;
    least = cost;
    best = place;
  }
  best.x = along(best.x, width, right);
  best.y = along(best.y, height, bottom);
  return best;
}

void Ui::wake_after(double seconds) { wake_after_s_ = std::min(wake_after_s_.value_or(seconds), seconds); }

/// Tab and Shift+Tab go along last frame's items, and where a bench lets them the arrow keys go to the
/// nearest.
void Ui::walk() {
  std::vector<const Item*> stops;
  for (const Item& item : items_.items)
    if (item.enabled) stops.push_back(&item);
  const bool typing = ImGui::GetIO().WantTextInput;
  for (auto it = keys_.begin(); it != keys_.end();) {
    const bool arrow =
        it->key == Key::left || it->key == Key::right || it->key == Key::up || it->key == Key::down;
    if (it->key == Key::tab && !it->ctrl && !it->alt)
      walk_along(stops, it->shift);
    else if (arrow && arrows_walk && !typing && *it == KeyPress{it->key})
      walk_towards(stops, it->key);
    else {
      ++it;
      continue;
    }
    it = keys_.erase(it);
  }
}

void Ui::walk_along(const std::vector<const Item*>& stops, bool back) {
  if (stops.empty()) return;
  const auto at = std::find_if(stops.begin(), stops.end(), [&](const Item* i) { return i->id == focus_; });
  const size_t n = stops.size(), now = static_cast<size_t>(at - stops.begin());
  const size_t next = at == stops.end() ? (back ? n - 1 : 0) : back ? (now + n - 1) % n : (now + 1) % n;
  focus_ = stops[next]->id;
}

void Ui::walk_towards(const std::vector<const Item*>& stops, Key arrow) {
  const Item* from = items_.by_id(focus_);
  if (!from) from = items_.by_id("wide");  // where the hand is
  if (!from) return walk_along(stops, false);
  const bool sideways = arrow == Key::left || arrow == Key::right;
  const double sign = arrow == Key::right || arrow == Key::down ? 1 : -1;
  const Item* best = nullptr;
  double least = 0;
  for (const Item* stop : stops) {
    const double dx = stop->box.x + stop->box.w / 2 - from->box.x - from->box.w / 2;
    const double dy = stop->box.y + stop->box.h / 2 - from->box.y - from->box.h / 2;
    const double ahead = sign * (sideways ? dx : dy);
    if (stop->id == from->id || ahead < mm(2)) continue;
    const double far = ahead + 3 * std::abs(sideways ? dy : dx);  // rather straight on than near
    if (!best || far < least) {
      best = stop;
      least = far;
    }
  }
  if (best) focus_ = best->id;
}

void Ui::hint(Box box, const std::string& tip) {
  const ImVec2 at = ImGui::GetIO().MousePos;
  const double x = static_cast<double>(at.x), y = static_cast<double>(at.y);
  const bool over = x >= box.x && x < box.right() && y >= box.y && y < box.bottom();
  if (over)
    tip_for("hint " + tip, tip, box);
  else if (over_id_ == "hint " + tip)
    over_id_.clear();
}

void Ui::hold_actions(double seconds) { held_until_s_ = std::max(held_until_s_, ImGui::GetTime() + seconds); }

bool Ui::actions_held() const { return ImGui::GetTime() < held_until_s_; }

bool Ui::key(KeyPress press) {
  const auto at = std::find(keys_.begin(), keys_.end(), press);
  if (at == keys_.end()) return false;
  keys_.erase(at);
  out_of_date_ = true;
  return true;
}

std::optional<int> Ui::digit() {
  for (int n = 0; n < 10; ++n)
    if (key(KeyPress{static_cast<Key>(static_cast<int>(Key::digit0) + n)})) return n;
  return {};
}

void Ui::tip_for(const std::string& id, const std::string& tip, Box of) {
  const double now_s = ImGui::GetTime();
  if (over_id_ != id) {
    over_id_ = id;
    over_s_ = now_s;
  }
  if (tip.empty()) return;
  const ImVec2 at = ImGui::GetIO().MousePos;
  if (pressed_at_) {
    const double moved_px =
        std::hypot(static_cast<double>(at.x) - pressed_at_->x, static_cast<double>(at.y) - pressed_at_->y);
    if (moved_px < mm(2)) return;
    pressed_at_.reset();
    over_s_ = now_s;
  }
  const double left_s = kTipDelay_s - (now_s - over_s_);
  if (left_s <= 0) {
    tip_ = tip;
    tip_of_ = of;
  } else {
    wake_after(left_s);
  }
}

Ui::Area Ui::area(const std::string& id, const std::string& label, Box box, bool enabled, bool selected,
                  const std::string& tip) {
  items_.items.push_back({id, label, box, enabled, selected});
  Area area;
  ImGui::SetCursorScreenPos({static_cast<float>(box.x), static_cast<float>(box.y)});
  ImGui::PushID(id.c_str());
  const bool clicked = ImGui::InvisibleButton(
      "area", {static_cast<float>(std::max(1.0, box.w)), static_cast<float>(std::max(1.0, box.h))});
  area.over = ImGui::IsItemHovered();
  ImGui::PopID();
  area.focused = enabled && focus_ == id;
  if (area.over)
    tip_for(id, tip, box);
  else if (over_id_ == id)
    over_id_.clear();
  area.pressed = enabled && clicked;
  if (clicked) {
    focus_.clear();
    const ImVec2 at = ImGui::GetIO().MousePos;
    pressed_at_ = Point{static_cast<double>(at.x), static_cast<double>(at.y)};
  }
  if (area.focused && (key(Key::enter) || key(Key::space))) area.pressed = true;
  if (area.pressed) out_of_date_ = true;
  return area;
}

void Ui::draw_focus(Box box, double corner) {
  const double out = mm(0.9);
  canvas().stroke_box({box.x - out, box.y - out, box.w + 2 * out, box.h + 2 * out},
                      {colours().focus, mm(0.7), 0}, corner + out);
}

bool Ui::button(const ButtonSpec& spec, Box box) {
  const Area touched = area(spec.id, spec.label, box, spec.enabled, spec.selected, spec.tip);
  const ButtonColours c = colours_of(*this, spec, touched.over && spec.enabled);
  const double corner = std::min(mm(kCorner_mm), box.h / 4), pad = mm(2.4);
  canvas().fill_box(box, c.fill, corner);
  Box room{box.x + pad + spec.room_left_px, box.y + mm(0.5), box.w - 2 * pad - spec.room_left_px,
           box.h - mm(1)};
  const Weight weight = spec.look == Look::tab && !spec.selected ? Weight::regular : Weight::bold;
  TextSpec text{type_mm(spec.size_mm), c.text, Align::centre, weight, spec.note.empty() ? 0.4 : 0.28};
  if (!spec.note.empty()) {
    const double note_px = std::min(type_mm(4), room.h * 0.3);
    room.y += room.h * 0.04;
    room.h -= room.h * 0.13;
    Box below{room.x, room.bottom() - note_px * 1.2, room.w, note_px * 1.2};
    text_in(below, spec.note, {note_px, c.text, Align::centre, Weight::regular, 0.5});
    room.h -= note_px * 1.2;
  }
  const size_t colon = spec.head_line ? spec.label.find(": ") : std::string::npos;
  if (colon == std::string::npos) {
    paragraph_in(room, spec.label, text, 2);
  } else {
    TextSpec head = text;
    head.size_px *= 0.7;
    text_in({room.x, room.y + room.h * 0.05, room.w, room.h * 0.36}, spec.label.substr(0, colon + 1), head);
    text_in({room.x, room.y + room.h * 0.47, room.w, room.h * 0.47}, spec.label.substr(colon + 2), text);
  }
  if (spec.look == Look::tab && spec.selected) canvas().stroke_box(box, {c.text, mm(0.5), 0}, corner);
  if (touched.focused) draw_focus(box, corner);
  return touched.pressed;
}

double Ui::fitting_size(std::string_view utf8, double width_px, double size_px, Weight weight, double least) {
  double size = std::round(size_px);
  const double smallest = std::max(7.0, std::floor(size_px * least));
  while (size > smallest) {
    const double width = canvas().text_width(utf8, size, weight);
    if (width <= width_px) return size;
    size = std::max(smallest, std::min(size - 1, std::floor(size * width_px / width)));
  }
  return size;
}

void Ui::note_text(std::string_view utf8, Point at, double size, double width, Align align, Box room) {
  double x = at.x;
  if (align == Align::centre) x -= width / 2;
  if (align == Align::right) x -= width;
  items_.texts.push_back({std::string(utf8), {x, at.y - size * kAscent, width, size}, room, size});
}

double Ui::text_in(Box room, std::string_view utf8, const TextSpec& spec) {
  const double by_height = std::min(spec.size_px, std::max(room.h, spec.size_px * spec.least));
  const double size = fitting_size(utf8, room.w, by_height, spec.weight, spec.least);
  const double x = spec.align == Align::left     ? room.x
                   : spec.align == Align::centre ? room.x + room.w / 2
                                                 : room.right();
  const Point at{x, room.y + room.h / 2 + size * kHalfCapital};
  canvas().text(at, utf8, size, spec.colour, spec.align, spec.weight);
  note_text(utf8, at, size, canvas().text_width(utf8, size, spec.weight), spec.align, room);
  return size;
}

double Ui::paragraph_in(Box room, std::string_view utf8, const TextSpec& spec, int lines) {
  const double smallest = std::max(7.0, std::floor(spec.size_px * spec.least));
  auto fits = [&](const std::vector<std::string>& broken, double size) {
    if (static_cast<int>(broken.size()) > lines) return false;
    if (static_cast<double>(broken.size()) * size * kLeading > room.h + 0.5) return false;
    for (const std::string& line : broken)  // a word that was cut is a line that does not fit
      if (line.ends_with("…") && utf8.find("…") == std::string_view::npos) return false;
    return true;
  };
  double size = std::round(spec.size_px);
  std::vector<std::string> broken = wrapped(canvas(), utf8, room.w, size, spec.weight);
  while (size > smallest && !fits(broken, size))
    broken = wrapped(canvas(), utf8, room.w, --size, spec.weight);
  const double height = static_cast<double>(broken.size()) * size * kLeading;
  double y = room.y + std::max(0.0, (room.h - height) / 2);
  if (spec.align == Align::left && !spec.middle) y = room.y;
  const double x = spec.align == Align::left     ? room.x
                   : spec.align == Align::centre ? room.x + room.w / 2
                                                 : room.right();
  for (const std::string& line : broken) {
    const Point at{x, y + size * kLeading / 2 + size * kHalfCapital};
    canvas().text(at, line, size, spec.colour, spec.align, spec.weight);
    note_text(line, at, size, canvas().text_width(line, size, spec.weight), spec.align, room);
    y += size * kLeading;
  }
  return height;
}

}  // namespace shutlane
