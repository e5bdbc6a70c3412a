#include "ui/drawings/cutaway.hpp"

#include <fmt/format.h>

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
  return ShutState::shut;
}

struct StateWord {
  const char *first, *second;
};
StateWord word_of(ShutState state) {
  switch (state) {
    case ShutState::surely_shut: return {"surely", "shut"};
    case ShutState::shut: return {"may be", "open"};
    case ShutState::open: break;
  }
  return {"", "open"};
}

Colour ink_of(const Palette& p, ShutState state) { return state == ShutState::open ? p.open : p.shut; }

/// Everything of one cylinder but the crank's web, from behind to the front.
void draw_whole_cylinder(const Look& look, const CutawayView& view, const Cylinder& cylinder,
                         const CylinderPose& pose) {
  const CylinderShape shape = shape_of(*view.engine, cylinder);
  const auto valves = valves_of(*view.engine, cylinder, shape, pose.local_deg);
  const ShutState state = state_of(view, cylinder);
  draw_bore(look, pose, shape);
  draw_head(look, pose, shape, valves, state);
  draw_piston(look, pose, shape, Depth::front);
  draw_rod(look, pose, shape, Depth::front);
  draw_valves(look, pose, shape, valves, state);
}

/// The same pose with the bore turned upright.
CylinderPose upright(CylinderPose pose) {
  pose.crank_pin = pose.in_bore(pose.crank_pin);
  pose.piston_pin = pose.in_bore(pose.piston_pin);
  pose.frame = glm::dmat2(1.0);
  return pose;
}

void draw_upright(const Look& look, const CutawayView& view, const Cylinder& cylinder, bool counterweight) {
  const CylinderPose pose = upright(pose_of(*view.engine, cylinder, view.crank_deg));
  const double r = cylinder.crank.crank_radius_mm;
  look.canvas.stroke_circle(look.to({0, 0}), r * look.to.per_mm(), {look.p.grid, look.hairline});
  draw_web(look, pose.crank_pin, counterweight ? 1.35 * r : 0);
  draw_whole_cylinder(look, view, cylinder, pose);
  look.canvas.fill_circle(look.to({0, 0}), 0.22 * r * look.to.per_mm(), look.bright_metal());
}

/// Numbers side by side: "1 6".
std::string joined(const std::vector<int>& numbers) {
  std::string text;
  for (const int n : numbers) text += (text.empty() ? "" : " ") + std::to_string(n);
  return text;
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
  const double r = cylinder->crank.crank_radius_mm;
  const double side = std::max(s.head_half_mm + std::fabs(s.axis_mm), 1.45 * r);
  const Look look{canvas, palette(view.theme),
                  Projection::fitting(room, {-side, s.foot_mm}, {side, s.top_mm}), t / 12};
  draw_upright(look, view, *cylinder, true);
  if (!view.words) return;
  const bool clockwise = view.engine->spec.layout.turns == Turns::clockwise;
  draw_rotation(look, 1.22 * r, clockwise, look.p.dim_text);
  canvas.text({box.x + box.w / 2, box.bottom() - 0.4 * t},
              clockwise ? "turns clockwise, from the pulley end" : "turns anticlockwise, from the pulley end", t,
              look.p.dim_text, Align::centre);
}

namespace {
struct RowCells {
  double width = 0, head = 0, foot = 0;
};
RowCells cells_of(Box box, const CutawayView& view) {
  const auto n = static_cast<double>(std::max<size_t>(1, view.engine->cylinders.size()));
  return {box.w / n, 1.7 * view.text, view.words ? 2.5 * view.text : 0};
}
}  // namespace

void draw_cylinder_row(Canvas& canvas, Box box, const CutawayView& view) {
  const RowCells cells = cells_of(box, view);
  const double t = view.text;
  // One scale for all, from the widest and the tallest.
  double half = 0, low = 0, high = 0;
  for (const Cylinder& c : view.engine->cylinders) {
    const CylinderShape s = shape_of(*view.engine, c);
    half = std::max({half, s.head_half_mm + std::fabs(s.axis_mm), 1.2 * c.crank.crank_radius_mm});
    low = std::min(low, -1.2 * c.crank.crank_radius_mm);
    high = std::max(high, s.top_mm);
  }
  double x = box.x;
  for (const Cylinder& c : view.engine->cylinders) {
    const Box cell{x, box.y, cells.width, box.h};
    const Box room{cell.x + 0.04 * cell.w, cell.y + cells.head, 0.92 * cell.w, cell.h - cells.head - cells.foot};
    const Look look{canvas, palette(view.theme), Projection::fitting(room, {-half, low}, {half, high}), t / 14};
    draw_upright(look, view, c, false);
    const double middle = cell.x + cell.w / 2;
    const bool marked = view.selected == c.number;
    canvas.text({middle, cell.y + 1.15 * t}, std::to_string(c.number), 1.3 * t, look.p.text, Align::centre,
                Weight::bold);
    if (marked) {
      const double w = 1.2 * t;
      canvas.fill_box({middle - w / 2, cell.y + 1.4 * t, w, 0.18 * t}, look.p.what_if, 0.09 * t);
    }
    if (view.words) {
      const ShutState state = state_of(view, c);
      const StateWord word = word_of(state);
      double lift_mm = 0;
      for (const double l : lifts_mm(*view.engine, c, ValveKind::intake, view.crank_deg))
        lift_mm = std::max(lift_mm, l);
      const double size = std::min(t, 0.27 * cell.w);
      (void)lift_mm;
      const Colour ink = ink_of(look.p, state);
      const bool one_line = *word.first == 0;
      if (!one_line)
        canvas.text({middle, cell.bottom() - 1.45 * size}, word.first, size, ink, Align::centre);
      canvas.text({middle, cell.bottom() - (one_line ? 1.0 : 0.35) * size}, word.second, size, ink, Align::centre,
                  Weight::bold);
    }
    x += cells.width;
  }
}

std::optional<int> row_cylinder_at(Box box, const CutawayView& view, Point at) {
  if (at.y < box.y || at.y > box.bottom() || at.x < box.x) return std::nullopt;
  const auto i = static_cast<size_t>((at.x - box.x) / cells_of(box, view).width);
  if (i >= view.engine->cylinders.size()) return std::nullopt;
  return view.engine->cylinders[i].number;
}

void draw_front_view(Canvas& canvas, Box box, const CutawayView& view) {
  const Engine& engine = *view.engine;
  const double t = view.text;
  const std::vector<CylinderPose> poses = poses_of(engine, view.crank_deg);
  const double r = engine.cylinders.front().crank.crank_radius_mm;

  Span span;
  for (const double side : {-1.0, 1.0}) {
    span.hold({side * 1.6 * r, -1.6 * r});
    span.hold({side * 1.6 * r, 1.6 * r});
  }
  for (size_t i = 0; i < poses.size(); ++i) {
    const CylinderShape s = shape_of(engine, engine.cylinders[i]);
    for (const double side : {-1.0, 1.0})
      for (const double along : {s.deck_mm, s.top_mm})
        span.hold(poses[i].frame * dvec2(s.axis_mm + side * s.head_half_mm, along));
  }
  const Box room{box.x, box.y, box.w, box.h - (view.words ? 1.6 * t : 0)};
  const Look look{canvas, palette(view.theme), Projection::fitting(room, span.low, span.high), t / 12};

  // Which cylinder of each bank stands in front: the chosen one, otherwise the one at the pulley end.
  std::vector<size_t> front(engine.spec.layout.banks.size());
  for (size_t i = 0; i < engine.cylinders.size(); ++i)
    if (engine.cylinders[i].from_pulley == 0) front[engine.cylinders[i].bank] = i;
  for (size_t i = 0; i < engine.cylinders.size(); ++i)
    if (view.selected == engine.cylinders[i].number) front[engine.cylinders[i].bank] = i;
  auto in_front = [&](size_t i) { return front[engine.cylinders[i].bank] == i; };

  canvas.stroke_circle(look.to({0, 0}), r * look.to.per_mm(), {look.p.grid, look.hairline});
  for (const SharedPin& pin : shared_pins(poses)) draw_web(look, pin.at, 0);
  for (size_t i = 0; i < poses.size(); ++i) {
    if (in_front(i)) continue;
    const CylinderShape s = shape_of(engine, engine.cylinders[i]);
    draw_rod(look, poses[i], s, Depth::behind);
    draw_piston(look, poses[i], s, Depth::behind);
  }
  for (size_t i = 0; i < poses.size(); ++i)
    if (in_front(i)) draw_whole_cylinder(look, view, engine.cylinders[i], poses[i]);
  canvas.fill_circle(look.to({0, 0}), 0.22 * r * look.to.per_mm(), look.bright_metal());

  // Numbers at the pins (outside the pin circle) and at the pistons (outside the bore, away from the ports).
  const double near = 1.1 * t / look.to.per_mm();
  std::vector<SharedPin> at_pins;
  for (const SharedPin& pin : shared_pins(poses)) {
    const dvec2 at = pin.at * ((r + 0.20 * engine.cylinders[0].crank.bore_mm + near * 0.6) / r);
    auto same = std::find_if(at_pins.begin(), at_pins.end(),
                             [&](const SharedPin& other) { return glm::distance(other.at, at) < near; });
    if (same == at_pins.end())
      at_pins.push_back({at, pin.cylinders});
    else
      same->cylinders.insert(same->cylinders.end(), pin.cylinders.begin(), pin.cylinders.end());
  }
  for (SharedPin& label : at_pins) {
    std::sort(label.cylinders.begin(), label.cylinders.end());
    const Point at = look.to(label.at);
    canvas.text({at.x, at.y + kHalfCapital * t}, joined(label.cylinders), t, look.p.text, Align::centre,
                Weight::bold);
  }
  if (!view.words) return;
  const bool clockwise = engine.spec.layout.turns == Turns::clockwise;
  draw_rotation(look, 1.55 * r, clockwise, look.p.dim_text);
  canvas.text({box.x + box.w / 2, box.bottom() - 0.4 * t},
              clockwise ? "turns clockwise, from the pulley end" : "turns anticlockwise, from the pulley end", t,
              look.p.dim_text, Align::centre);
}

}  // namespace shutlane
