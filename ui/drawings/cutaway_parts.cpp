#include "ui/drawings/cutaway_parts.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <glm/geometric.hpp>

#include "sim/cycle/trig.hpp"
#include "ui/drawings/shapes.hpp"

namespace shutlane {

namespace {

using glm::dvec2;

glm::dvec2 left_of(dvec2 v) { return {-v.y, v.x}; }

/// Bore coordinates or front view points as a polygon on the canvas.
std::vector<Point> shown(const CutStage& stage, const glm::dmat2& frame, std::span<const dvec2> points) {
  std::vector<Point> out;
  for (const dvec2 p : points) out.push_back(stage.to(frame * p));
  return out;
}

/// The outline round two circles: a rod, a web.
std::vector<dvec2> capsule(dvec2 a, double radius_a, dvec2 b, double radius_b) {
  std::vector<dvec2> outline;
  const dvec2 way = b - a;
  const double length = glm::length(way);
  if (length < 1e-9) return outline;
  const double heading = std::atan2(way.y, way.x);
  const double flank = std::acos(std::clamp((radius_a - radius_b) / length, -1.0, 1.0));
  constexpr int steps = 10;
  auto round = [&](dvec2 centre, double radius, double from, double to) {
    for (int i = 0; i <= steps; ++i) {
      const double at = from + (to - from) * i / steps;
      outline.push_back(centre + radius * dvec2(std::cos(at), std::sin(at)));
    }
  };
  round(b, radius_b, heading - flank, heading + flank);
  round(a, radius_a, heading + flank, heading + 2 * std::numbers::pi - flank);
  return outline;
}

/// A passage of changing width along a quadratic curve.
std::vector<dvec2> passage(dvec2 from, dvec2 bend, dvec2 to, double width_from, double width_to) {
  constexpr int steps = 14;
  std::vector<dvec2> left, right;
  for (int i = 0; i <= steps; ++i) {
    const double t = static_cast<double>(i) / steps;
    const dvec2 at = (1 - t) * (1 - t) * from + 2 * t * (1 - t) * bend + t * t * to;
    const dvec2 way = glm::normalize(2 * (1 - t) * (bend - from) + 2 * t * (to - bend));
    const double half = (width_from + (width_to - width_from) * t) / 2;
    left.push_back(at + half * left_of(way));
    right.push_back(at - half * left_of(way));
  }
  left.insert(left.end(), right.rbegin(), right.rend());
  return left;
}

std::vector<dvec2> port_outline(const ValveShape& v, const CylinderShape& s) {
  const double side = v.seat.x < s.axis_mm ? -1 : 1;
  const dvec2 mouth{s.axis_mm + side * s.head_half_mm, s.deck_mm + s.roof_mm / 2 + 0.40 * s.bore_mm};
  return passage(v.seat, v.seat + 0.42 * s.bore_mm * v.away, mouth, 1.72 * v.radius_mm, 0.34 * s.bore_mm);
}

}  // namespace

Colour blended(Colour a, Colour b, double t) {
  auto part = [t](std::uint8_t x, std::uint8_t y) {
    return static_cast<std::uint8_t>(std::lround(x + (y - x) * t));
  };
  return {part(a.r, b.r), part(a.g, b.g), part(a.b, b.b), part(a.a, b.a)};
}

Projection::Projection(Point origin, double per_mm)
    : matrix_(dvec2(per_mm, 0).x, 0, 0, 0, -per_mm, 0, origin.x, origin.y, 1), per_mm_(per_mm) {}

Projection Projection::fitting(Box box, dvec2 low, dvec2 high) {
  const dvec2 size = high - low;
  const double per_mm = std::max(1e-9, std::min(box.w / size.x, box.h / size.y));
  const dvec2 middle = 0.5 * (low + high);
  return {{box.x + box.w / 2 - per_mm * middle.x, box.y + box.h / 2 + per_mm * middle.y}, per_mm};
}

Point Projection::operator()(dvec2 front) const {
  const glm::dvec3 at = matrix_ * glm::dvec3(front, 1.0);
  return {at.x, at.y};
}

void draw_bore(const CutStage& stage, const CylinderPose& pose, const CylinderShape& s) {
  for (const double side : {-1.0, 1.0}) {
    const double inner = s.axis_mm + side * s.bore_mm / 2, outer = inner + side * s.wall_mm;
    const std::array wall{dvec2(inner, s.wall_foot_mm), dvec2(outer, s.wall_foot_mm), dvec2(outer, s.deck_mm),
                          dvec2(inner, s.deck_mm)};
    stage.canvas.fill(shown(stage, pose.frame, wall), stage.metal());
  }
}

void draw_head(const CutStage& stage, const CylinderPose& pose, const CylinderShape& s,
               std::span<const ValveShape> valves, ShutState state) {
  const double b = s.bore_mm, x = s.axis_mm, low = s.deck_mm, high = s.deck_mm + s.head_height_mm;
  const std::array head{dvec2(x - b / 2, low),           dvec2(x - s.head_half_mm, low),
                        dvec2(x - s.head_half_mm, high), dvec2(x + s.head_half_mm, high),
                        dvec2(x + s.head_half_mm, low),  dvec2(x + b / 2, low),
                        dvec2(x, low + s.roof_mm)};
  stage.canvas.fill(shown(stage, pose.frame, head), stage.metal());
  bool intake_done = false, exhaust_done = false;
  for (const ValveShape& v : valves) {
    bool& done = v.kind == ValveKind::intake ? intake_done : exhaust_done;
    if (done) continue;
    done = true;
    const auto port = shown(stage, pose.frame, port_outline(v, s));
    if (v.kind == ValveKind::exhaust) {
      stage.canvas.fill(port, blended(stage.p.panel, stage.p.exhaust, 0.10));
      continue;
    }
    const bool sure = state == ShutState::surely_shut;
    stage.canvas.fill(port, state == ShutState::open ? stage.p.open_soft : stage.p.shut_soft);
    if (!sure) {
      Box all{port[0].x, port[0].y, 0, 0};
      double right = all.x, bottom = all.y;
      for (const Point& at : port) {
        all.x = std::min(all.x, at.x);
        all.y = std::min(all.y, at.y);
        right = std::max(right, at.x);
        bottom = std::max(bottom, at.y);
      }
      all.w = right - all.x;
      all.h = bottom - all.y;
      const Colour ink = state == ShutState::open ? stage.p.open : stage.p.shut;
      hatch(stage.canvas, port, state == ShutState::open ? Hatch::rising : Hatch::falling, 5 * stage.hairline,
            {blended(stage.p.panel, ink, 0.75), stage.hairline}, all);
    }
  }
}

void draw_valves(const CutStage& stage, const CylinderPose& pose, const CylinderShape& s,
                 std::span<const ValveShape> valves, ShutState state) {
  for (const ValveShape& v : valves) {
    const bool intake = v.kind == ValveKind::intake;
    // Shut but not surely is drawn hollow; off the seat is drawn off the seat.
    const Colour ink = !intake ? stage.p.exhaust : v.lift_mm > 0 ? stage.p.open : stage.p.shut;
    const bool hollow = intake && v.lift_mm == 0 && state != ShutState::surely_shut;
    const dvec2 face = v.seat - v.lift_mm * v.away, end = face + v.length_mm * v.away;
    const dvec2 across = left_of(v.away);
    const double r = v.radius_mm, stem = 0.035 * s.bore_mm, b = s.bore_mm;
    const std::array outline{face - r * across,
                             face - r * across + 0.05 * b * v.away,
                             face - 0.45 * r * across + 0.13 * b * v.away,
                             face - stem * across + 0.26 * b * v.away,
                             end - stem * across,
                             end + stem * across,
                             face + stem * across + 0.26 * b * v.away,
                             face + 0.45 * r * across + 0.13 * b * v.away,
                             face + r * across + 0.05 * b * v.away,
                             face + r * across};
    // Spring: between the head's top and the bucket, so that it is seen to be pressed together.
    const double foot_mm = 0.60 * b, top_mm = v.length_mm - 0.10 * b - v.lift_mm;
    std::vector<dvec2> spring;
    constexpr int turns = 9;
    for (int i = 0; i <= turns; ++i)
      spring.push_back(v.seat + (foot_mm + (top_mm - foot_mm) * i / turns) * v.away +
                       (i % 2 ? 0.10 : -0.10) * b * across);
    stage.canvas.line(shown(stage, pose.frame, spring), {stage.bright_metal(), stage.hairline});

    const auto lobe = shown(stage, pose.frame, v.lobe);
    stage.canvas.fill(lobe, stage.bright_metal());
    stage.canvas.fill_circle(stage.to(pose.frame * v.cam_centre), 0.45 * s.lobe_mm * stage.to.per_mm(),
                             stage.p.panel);

    const auto shape = shown(stage, pose.frame, outline);
    stage.canvas.fill(shape, hollow ? stage.p.panel : ink);
    if (hollow) stage.canvas.line(shape, {ink, 1.4 * stage.hairline}, true);
    const double w = 0.15 * b, h = 0.07 * b;
    const std::array bucket{end - w * across, end + w * across, end + w * across - h * v.away,
                            end - w * across - h * v.away};
    stage.canvas.fill(shown(stage, pose.frame, bucket), ink);
  }
}

void draw_piston(const CutStage& stage, const CylinderPose& pose, const CylinderShape& s, Depth depth) {
  const dvec2 pin = pose.in_bore(pose.piston_pin);
  const double half = s.bore_mm / 2 - 0.006 * s.bore_mm, chamfer = 0.03 * s.bore_mm;
  const double crown = pin.y + s.crown_mm, foot = pin.y - s.skirt_mm;
  const std::array body{dvec2(pin.x - half, foot + chamfer),  dvec2(pin.x - half, crown - chamfer),
                        dvec2(pin.x - half + chamfer, crown), dvec2(pin.x + half - chamfer, crown),
                        dvec2(pin.x + half, crown - chamfer), dvec2(pin.x + half, foot + chamfer),
                        dvec2(pin.x + half - chamfer, foot),  dvec2(pin.x - half + chamfer, foot)};
  const auto shape = shown(stage, pose.frame, body);
  if (depth == Depth::behind) {
    stage.canvas.line(shape, {stage.bright_metal(), stage.hairline}, true);
    return;
  }
  stage.canvas.fill(shape, stage.p.exhaust);
  for (const double below : {0.06, 0.12, 0.18}) {
    const double y = crown - below * s.bore_mm;
    const std::array ring{dvec2(pin.x - half, y), dvec2(pin.x + half, y)};
    stage.canvas.line(shown(stage, pose.frame, ring), {stage.p.panel, stage.hairline});
  }
}

void draw_rod(const CutStage& stage, const CylinderPose& pose, const CylinderShape& s, Depth depth) {
  const double small = 0.085 * s.bore_mm, big = 0.15 * s.bore_mm;
  if (depth == Depth::behind) {
    const Point line[] = {stage.to(pose.piston_pin), stage.to(pose.crank_pin)};
    stage.canvas.line(line, {stage.bright_metal(), 1.5 * stage.hairline});
    stage.canvas.fill_circle(line[1], 0.6 * big * stage.to.per_mm(), stage.bright_metal());
    return;
  }
  const auto beam = capsule(pose.piston_pin, 0.72 * small, pose.crank_pin, 0.66 * big);
  std::vector<Point> shape;
  for (const dvec2 at : beam) shape.push_back(stage.to(at));
  stage.canvas.fill(shape, stage.p.text);
  const double scale = stage.to.per_mm();
  stage.canvas.fill_circle(stage.to(pose.piston_pin), small * scale, stage.p.text);
  stage.canvas.fill_circle(stage.to(pose.piston_pin), 0.5 * small * scale, stage.p.exhaust);
  stage.canvas.fill_circle(stage.to(pose.crank_pin), big * scale, stage.p.text);
  stage.canvas.fill_circle(stage.to(pose.crank_pin), 0.55 * big * scale, stage.p.panel);
}

void draw_web(const CutStage& stage, dvec2 pin, double counterweight_mm) {
  const double r = glm::length(pin);
  if (counterweight_mm > 0) {
    const double heading = std::atan2(-pin.y, -pin.x);
    std::vector<Point> sector;
    constexpr double half_angle = 1.05;
    constexpr int steps = 20;
    const dvec2 away = pin / r;
    const dvec2 shoulder = 0.38 * r * left_of(away);
    sector.push_back(stage.to(0.35 * r * away - shoulder));
    sector.push_back(stage.to(0.35 * r * away + shoulder));
    for (int i = 0; i <= steps; ++i) {
      const double at = heading - half_angle + 2 * half_angle * i / steps;
      sector.push_back(stage.to(counterweight_mm * dvec2(std::cos(at), std::sin(at))));
    }
    stage.canvas.fill(sector, stage.metal());
  }
  std::vector<Point> web;
  for (const dvec2 at : capsule({0, 0}, 0.52 * r, pin, 0.42 * r)) web.push_back(stage.to(at));
  stage.canvas.fill(web, stage.metal());
}

void draw_rotation(Canvas& canvas, Point centre, double radius, bool clockwise, Stroke stroke) {
  const double d = clockwise ? 1 : -1;
  auto on = [&](double clock_deg, double part) {
    const dvec2 way = part * radius * clock_direction(d * clock_deg);
    return Point{centre.x + way.x, centre.y - way.y};
  };
  // Over the top, as on the plates of machines: the head hangs at the side towards which the top moves, where
  // no eye takes it for the tail.
  std::vector<Point> arc;
  constexpr double from_deg = -130, neck_deg = 62, tip_deg = 130;
  for (double at_deg = from_deg; at_deg <= neck_deg + 10; at_deg += 8) arc.push_back(on(at_deg, 1));
  canvas.line(arc, stroke);
  const Point head[] = {on(tip_deg, 1.02), on(neck_deg, 1.62), on(neck_deg, 0.38)};
  canvas.fill(head, stroke.colour);
}

}  // namespace shutlane
