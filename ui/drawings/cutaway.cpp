#include "ui/drawings/cutaway.hpp"

#include <algorithm>
#include <cmath>
#include <glm/common.hpp>
#include <glm/geometric.hpp>

#include "sim/cycle/trig.hpp"
#include "ui/drawings/cutaway_parts.hpp"
#include "ui/drawings/text.hpp"

namespace shutlane {

namespace {

using glm::dvec2;

ShutState state_of(const CutawayView& view, const Cylinder& cylinder) {
  if (view.windows)
    for (const Windows& w : *view.windows)
      if (w.cylinder == cylinder.number) return shut_state(w, view.crank_deg);
  for (const double lift_mm : lifts_mm(*view.engine, cylinder, ValveKind::intake, view.crank_deg))
    if (lift_mm > 0) return ShutState::open;
  return ShutState::not_surely_shut;
}

struct StateWord {
  const char *first, *second;
  bool stress_first = false;  ///< "shut" must not be what is read from afar where it is not sure
};
StateWord word_of(ShutState state) {
  switch (state) {
    case ShutState::surely_shut:
      return {"surely", "shut"};
    case ShutState::not_surely_shut:
      return {"not surely", "shut", true};
    case ShutState::open:
      break;
  }
  return {"", "open"};
}

Colour ink_of(const Palette& p, ShutState state) {
  switch (state) {
    case ShutState::surely_shut:
      return p.shut;
    case ShutState::not_surely_shut:
      return p.text;
    case ShutState::open:
      break;
  }
  return p.open;
}

/// What stands behind, in paler inks.
Palette pale(const Palette& p) {
  Palette q = p;
  for (Colour* c : {&q.text, &q.dim_text, &q.grid, &q.shut, &q.shut_soft, &q.open, &q.open_soft, &q.exhaust})
    *c = blended(*c, p.panel, 0.55);
  return q;
}

/// A small plate under a label keeps it readable over rods and webs.
void draw_plate(const CutStage& stage, Point middle, const std::string& text, double size, Colour ink) {
  const double w = stage.canvas.text_width(text, size, Weight::bold) + 0.6 * size, h = 1.15 * size;
  Colour plate = stage.p.panel;
  plate.a = 215;
  stage.canvas.fill_box({middle.x - w / 2, middle.y - h / 2, w, h}, plate, 0.3 * size);
  stage.canvas.text({middle.x, middle.y + kHalfCapital * size}, text, size, ink, Align::centre, Weight::bold);
}

/// Everything of one cylinder but the crank's web, from behind to the front.
void draw_whole_cylinder(const CutStage& stage, const CutawayView& view, const Cylinder& cylinder,
                         const CylinderPose& pose) {
  const CylinderShape shape = shape_of(*view.engine, cylinder);
  const auto valves = valves_of(*view.engine, cylinder, shape, pose.local_deg);
  const ShutState state = state_of(view, cylinder);
  draw_bore(stage, pose, shape);
  draw_head(stage, pose, shape, valves, state);
  draw_piston(stage, pose, shape, Depth::front);
  draw_rod(stage, pose, shape, Depth::front);
  draw_valves(stage, pose, shape, valves, state);
}

/// The same pose with the bore turned upright.
CylinderPose upright(CylinderPose pose) {
  pose.crank_pin = pose.in_bore(pose.crank_pin);
  pose.piston_pin = pose.in_bore(pose.piston_pin);
  pose.frame = glm::dmat2(1.0);
  return pose;
}

void draw_upright(const CutStage& stage, const CutawayView& view, const Cylinder& cylinder,
                  bool counterweight) {
  const CylinderPose pose = upright(pose_of(*view.engine, cylinder, view.crank_deg));
  const double r = cylinder.crank.crank_radius_mm;
  stage.canvas.stroke_circle(stage.to({0, 0}), r * stage.to.per_mm(), {stage.p.grid, stage.hairline});
  draw_web(stage, pose.crank_pin, counterweight ? 1.35 * r : 0);
  draw_whole_cylinder(stage, view, cylinder, pose);
  stage.canvas.fill_circle(stage.to({0, 0}), 0.22 * r * stage.to.per_mm(), stage.bright_metal());
}

/// Numbers side by side: "1,6"; four or more that follow each other: "7–12".
std::string joined(const std::vector<int>& numbers) {
  const int count = static_cast<int>(numbers.size());
  bool row = count >= 4;
  for (int i = 0; row && i < count; ++i) row = numbers[i] == numbers[0] + i;
  if (row) return std::to_string(numbers.front()) + "\u2013" + std::to_string(numbers.back());
  std::string text;
  for (const int n : numbers) text += (text.empty() ? "" : ",") + std::to_string(n);
  return text;
}

/// The direction of rotation in words, the longest that fits; the last of them always stands.
std::string rotation_words(Canvas& canvas, const Engine& engine, double width, double size) {
  const std::string way = engine.spec.layout.rotation == Rotation::clockwise ? "clockwise" : "anticlockwise";
  for (const std::string& words :
       {"turns " + way + ", seen from the pulley end", way + ", from the pulley end"})
    if (canvas.text_width(words, size) <= width) return words;
  return way;
}

/// A round arrow and the words beside it, centred.
void draw_direction(Canvas& canvas, Box room, const Engine& engine, double size, Colour colour) {
  const bool clockwise = engine.spec.layout.rotation == Rotation::clockwise;
  const double radius = 0.58 * size, arrow = 3.24 * radius, gap = 0.4 * size;
  const std::string words = rotation_words(canvas, engine, room.w - arrow - gap, size);
  const double left = room.x + (room.w - arrow - gap - canvas.text_width(words, size)) / 2;
  const double y = room.y + room.h / 2;
  draw_rotation(canvas, {left + arrow / 2, y}, radius, clockwise, {colour, size / 6});
  canvas.text({left + arrow + gap, y + kHalfCapital * size}, words, size, colour);
}

/// For each bank the cylinder that stands in front: the chosen one, otherwise the one at the pulley end.
std::vector<size_t> front_of_banks(const CutawayView& view) {
  const auto& cylinders = view.engine->cylinders;
  std::vector<size_t> front(view.engine->spec.layout.banks.size());
  for (size_t i = 0; i < cylinders.size(); ++i)
    if (cylinders[i].from_pulley == 0) front[cylinders[i].bank] = i;
  for (size_t i = 0; i < cylinders.size(); ++i)
    if (view.selected == cylinders[i].number) front[cylinders[i].bank] = i;
  return front;
}

/// Of two banks that overlap in this view the one with the higher front cylinder stands behind.
bool hidden_bank(const Engine& engine, size_t bank, const std::vector<size_t>& front) {
  constexpr double overlap_deg = 25;
  const auto& banks = engine.spec.layout.banks;
  for (size_t other = 0; other < banks.size(); ++other) {
    const double apart_deg = std::remainder(banks[other].tilt_deg - banks[bank].tilt_deg, 360.0);
    if (other != bank && std::fabs(apart_deg) < overlap_deg && front[other] < front[bank]) return true;
  }
  return false;
}

/// Pin labels moved outwards by a factor, those that would touch made one.
std::vector<SharedPin> gathered(const std::vector<SharedPin>& pins, double near_mm, double outwards) {
  std::vector<SharedPin> labels;
  for (const SharedPin& pin : pins) {
    const dvec2 at = outwards * pin.at;
    auto same = std::find_if(labels.begin(), labels.end(),
                             [&](const SharedPin& label) { return glm::distance(label.at, at) < near_mm; });
    if (same == labels.end()) same = labels.insert(labels.end(), {at, {}});
    same->cylinders.insert(same->cylinders.end(), pin.cylinders.begin(), pin.cylinders.end());
    std::sort(same->cylinders.begin(), same->cylinders.end());
  }
  return labels;
}

struct Span {
  dvec2 low{1e9, 1e9}, high{-1e9, -1e9};
  void hold(dvec2 at) {
    low = glm::min(low, at);
    high = glm::max(high, at);
  }
};

}  // namespace

void draw_cylinder(Canvas& canvas, Box box, const CutawayView& view, int number) {
  const Cylinder* cylinder = view.engine->find(number);
  if (!cylinder) return;
  const CylinderShape s = shape_of(*view.engine, *cylinder);
  const double t = view.text;
  const Box room{box.x, box.y, box.w, box.h - (view.words ? 1.6 * t : 0)};
  if (room.w <= 0 || room.h <= 0) return;
  const double r = cylinder->crank.crank_radius_mm;
  const double side = std::max(s.head_half_mm + std::fabs(s.axis_mm), 1.45 * r);
  const CutStage stage{canvas, palette(view.theme),
                       Projection::fitting(room, {-side, s.foot_mm}, {side, s.top_mm}), t / 12};
  draw_upright(stage, view, *cylinder, true);
  if (!view.words) return;
  draw_direction(canvas, {box.x, box.bottom() - 1.5 * t, box.w, 1.5 * t}, *view.engine, t, stage.p.dim_text);
}

namespace {

/// The cells of the row, broken into as many lines as let its cylinders be drawn largest.
constexpr double kWordPerCell = 0.27;  // line height of "surely" that fills a cell
struct RowCells {
  size_t per_line = 1, lines = 1;
  double width = 0, height = 0, head = 0, foot = 0;
  double half_mm = 0, low_mm = 0, high_mm = 0;  ///< what every cylinder keeps within
  Box cell(Box box, size_t i) const {
    return {box.x + static_cast<double>(i % per_line) * width,
            box.y + static_cast<double>(i / per_line) * height, width, height};
  }
  Box room(Box cell) const {
    return {cell.x + 0.04 * cell.w, cell.y + head, 0.92 * cell.w, std::max(1.0, cell.h - head - foot)};
  }
};

RowCells cells_of(Box box, const CutawayView& view) {
  RowCells cells;
  cells.head = 1.7 * view.text;
  cells.foot = view.words ? 2.5 * view.text : 0;
  for (const Cylinder& c : view.engine->cylinders) {
    const CylinderShape s = shape_of(*view.engine, c);
    const double throw_mm = 1.2 * c.crank.crank_radius_mm;
    cells.half_mm = std::max({cells.half_mm, s.head_half_mm + std::fabs(s.axis_mm), throw_mm});
    cells.low_mm = std::min(cells.low_mm, -throw_mm);
    cells.high_mm = std::max(cells.high_mm, s.top_mm);
  }
  const size_t n = std::max<size_t>(1, view.engine->cylinders.size());
  double best = 0;
  for (size_t lines = 1; lines <= std::min<size_t>(n, 3); ++lines) {
    RowCells tried = cells;
    tried.lines = lines;
    tried.per_line = (n + lines - 1) / lines;
    tried.width = box.w / static_cast<double>(tried.per_line);
    tried.height = box.h / static_cast<double>(lines);
    const Box room = tried.room({0, 0, tried.width, tried.height});
    const double per_mm = std::min(room.w / (2 * tried.half_mm), room.h / (tried.high_mm - tried.low_mm));
    // A line more must be worth it: larger cylinders, or words that can be read.
    const bool legible = !view.words || kWordPerCell * cells.width >= 0.85 * view.text;
    if (lines > 1 && legible && per_mm <= 1.05 * best) continue;
    best = per_mm;
    cells = tried;
  }
  return cells;
}

void draw_state_word(const CutStage& stage, Box cell, double size, ShutState state) {
  const StateWord word = word_of(state);
  const Colour ink = ink_of(stage.p, state);
  const double middle = cell.x + cell.w / 2;
  const bool one_line = *word.first == 0;
  const Weight first = word.stress_first ? Weight::bold : Weight::regular;
  const Weight second = word.stress_first ? Weight::regular : Weight::bold;
  // The longest word keeps out of its neighbours' cells.
  if (!one_line) size *= std::min(1.0, 0.96 * cell.w / stage.canvas.text_width(word.first, size, first));
  if (!one_line)
    stage.canvas.text({middle, cell.bottom() - 1.45 * size}, word.first, size, ink, Align::centre, first);
  stage.canvas.text({middle, cell.bottom() - (one_line ? 1.0 : 0.35) * size}, word.second, size, ink,
                    Align::centre, second);
}

}  // namespace

void draw_cylinder_row(Canvas& canvas, Box box, const CutawayView& view) {
  if (box.w <= 0 || box.h <= 0) return;
  const RowCells cells = cells_of(box, view);
  const double t = view.text;
  for (size_t i = 0; i < view.engine->cylinders.size(); ++i) {
    const Cylinder& c = view.engine->cylinders[i];
    const Box cell = cells.cell(box, i);
    const CutStage stage{
        canvas, palette(view.theme),
        Projection::fitting(cells.room(cell), {-cells.half_mm, cells.low_mm}, {cells.half_mm, cells.high_mm}),
        t / 14};
    draw_upright(stage, view, c, false);
    const double middle = cell.x + cell.w / 2;
    canvas.text({middle, cell.y + 1.15 * t}, std::to_string(c.number), 1.3 * t, stage.p.text, Align::centre,
                Weight::bold);
    if (view.selected == c.number) {
      const double w = 1.2 * t;
      canvas.fill_box({middle - w / 2, cell.y + 1.4 * t, w, 0.18 * t}, stage.p.what_if, 0.09 * t);
    }
    if (view.words) draw_state_word(stage, cell, std::min(t, kWordPerCell * cell.w), state_of(view, c));
  }
}

std::optional<int> row_cylinder_at(Box box, const CutawayView& view, Point at) {
  if (!(box.w > 0 && box.h > 0)) return std::nullopt;
  if (at.y < box.y || at.y > box.bottom() || at.x < box.x || at.x > box.right()) return std::nullopt;
  const RowCells cells = cells_of(box, view);
  const auto column = std::min(cells.per_line - 1, static_cast<size_t>((at.x - box.x) / cells.width));
  const auto line = std::min(cells.lines - 1, static_cast<size_t>((at.y - box.y) / cells.height));
  const size_t i = line * cells.per_line + column;
  if (i >= view.engine->cylinders.size()) return std::nullopt;
  return view.engine->cylinders[i].number;
}

void draw_front_view(Canvas& canvas, Box box, const CutawayView& view) {
  const Engine& engine = *view.engine;
  const double t = view.text;
  const std::vector<CylinderPose> poses = poses_of(engine, view.crank_deg);
  const std::vector<SharedPin> pins = shared_pins(poses);
  const double r = engine.cylinders.front().crank.crank_radius_mm;

  Span span;
  for (const double side : {-1.0, 1.0}) {
    span.hold({side * 1.6 * r, -1.6 * r});
    span.hold({side * 1.6 * r, 1.6 * r});
  }
  for (size_t i = 0; i < poses.size(); ++i) {
    const CylinderShape s = shape_of(engine, engine.cylinders[i]);
    const double half = s.head_half_mm;
    for (const double side : {-1.0, 1.0})
      for (const double along : {s.deck_mm, s.top_mm})
        span.hold(poses[i].frame * dvec2(s.axis_mm + side * half, along));
  }
  // Room for the banks' numbers round the engine; a bank of dozens of cylinders leaves it three quarters.
  const auto numbers = [&](const BankSpec& bank) {
    return fitted(canvas, joined(bank.cylinders), box.w / 4 - 0.6 * t, t, Weight::bold);
  };
  double plate = 0;
  for (const BankSpec& bank : engine.spec.layout.banks)
    plate = std::max(plate, std::fabs(sin_deg(bank.tilt_deg)) *
                                (0.5 * canvas.text_width(numbers(bank), t, Weight::bold) + 0.3 * t));
  const Box room{box.x + plate, box.y + 0.6 * t, box.w - 2 * plate,
                 box.h - 1.2 * t - (view.words ? 1.5 * t + (pins.size() > 1 ? 0.65 * t : 0) : 0)};
  if (room.w <= 0 || room.h <= 0) return;
  const CutStage stage{canvas, palette(view.theme), Projection::fitting(room, span.low, span.high), t / 12};

  const std::vector<size_t> front = front_of_banks(view);
  auto in_front = [&](size_t i) { return front[engine.cylinders[i].bank] == i; };
  canvas.stroke_circle(stage.to({0, 0}), r * stage.to.per_mm(), {stage.p.grid, stage.hairline});
  for (const SharedPin& pin : pins) draw_web(stage, pin.at, 0);
  for (size_t i = 0; i < poses.size(); ++i) {
    if (in_front(i)) continue;
    const CylinderShape s = shape_of(engine, engine.cylinders[i]);
    draw_rod(stage, poses[i], s, Depth::behind);
    draw_piston(stage, poses[i], s, Depth::behind);
  }
  const Palette paler = pale(stage.p);
  const CutStage behind{canvas, paler, stage.to, stage.hairline};
  for (const bool hidden : {true, false})
    for (size_t i = 0; i < poses.size(); ++i)
      if (in_front(i) && hidden_bank(engine, engine.cylinders[i].bank, front) == hidden)
        draw_whole_cylinder(hidden ? behind : stage, view, engine.cylinders[i], poses[i]);
  canvas.fill_circle(stage.to({0, 0}), 0.22 * r * stage.to.per_mm(), stage.bright_metal());

  for (const BankSpec& bank : engine.spec.layout.banks) {
    const Cylinder& c = *engine.find(bank.cylinders.front());
    const CylinderShape s = shape_of(engine, c);
    const Point at = stage.to(bore_frame(c.tilt_deg) * dvec2(s.axis_mm, s.top_mm));
    draw_plate(stage, at, numbers(bank), t, stage.p.text);
  }
  // Numbers at the pins, outside their circle; where all share one there is nothing to tell.
  if (pins.size() > 1) {
    const double away_mm = r + 0.20 * engine.cylinders[0].crank.bore_mm + 0.7 * t / stage.to.per_mm();
    for (const SharedPin& label : gathered(pins, 1.6 * t / stage.to.per_mm(), away_mm / r))
      draw_plate(stage, stage.to(label.at), joined(label.cylinders), 0.9 * t, stage.p.dim_text);
  }
  if (!view.words) return;
  draw_direction(canvas, {box.x, box.bottom() - 1.5 * t, box.w, 1.5 * t}, engine, t, stage.p.dim_text);
}

}  // namespace shutlane
