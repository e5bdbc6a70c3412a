#include "ui/drawings/dial.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"

namespace shutlane {

namespace {

// Parts of the radius. The spiral's middle runs from kStart at 0 to kStart + 2 * kPitch at 720.
constexpr double kStart = 0.40;
constexpr double kPitch = 0.255;
constexpr double kIntakeIn = -0.02, kIntakeOut = 0.088;
constexpr double kExhaustIn = -0.095, kExhaustOut = -0.035;

struct DialPen {
  Canvas& canvas;
  const DialView& view;
  const DialGeometry& g;
  const Palette& colours;
  const Cylinder& cylinder;
  double u;
};

// A stretch of a track as a polygon, local degrees in [0, 720].
std::vector<Point> band(const DialGeometry& g, double from_deg, double to_deg, double in, double out) {
  const auto steps = std::max<int>(1, static_cast<int>(std::ceil((to_deg - from_deg) / 2)));
  std::vector<Point> polygon;
  for (int i = 0; i <= steps; ++i) polygon.push_back(g.at(from_deg + (to_deg - from_deg) * i / steps, out));
  for (int i = steps; i >= 0; --i) polygon.push_back(g.at(from_deg + (to_deg - from_deg) * i / steps, in));
  return polygon;
}

// Arcs on the crank's cycle as stretches of this cylinder's, split at its firing TDC where the spiral begins
// and ends.
std::vector<std::pair<double, double>> stretches(const Cylinder& cylinder, const ArcSet& set) {
  std::vector<std::pair<double, double>> out;
  const ArcSet local = set.shifted(-cylinder.firing_tdc_deg);
  for (const Arc& arc : local.arcs()) {
    if (arc.to_deg() <= kCycle_deg) {
      out.emplace_back(arc.from_deg, arc.to_deg());
    } else {
      out.emplace_back(arc.from_deg, kCycle_deg);
      out.emplace_back(0, arc.to_deg() - kCycle_deg);
    }
  }
  return out;
}

Box whole(const DialGeometry& g) {
  return {g.centre.x - g.radius, g.centre.y - g.radius, 2 * g.radius, 2 * g.radius};
}

void draw_cross(const DialPen& pen) {
  const double u = pen.u;
  const Stroke hair{pen.colours.grid, 0.07 * u};
  for (const double deg : {0.0, 90.0}) {
    const Point line[] = {pen.g.ray(deg, -1.0), pen.g.ray(deg, 1.0)};
    pen.canvas.line(line, hair);
  }
  const Point c = pen.g.centre;
  pen.canvas.fill_circle(c, 0.235 * pen.g.radius, pen.colours.panel);
  const double size = std::min(0.20 * pen.g.radius, 6 * u);
  pen.canvas.text({c.x, c.y + kHalfCapital * size - 0.35 * u}, std::to_string(pen.cylinder.number), size,
                  pen.colours.text, Align::centre, Weight::bold);
  pen.canvas.text({c.x, c.y + 0.5 * size + 0.55 * u}, "cylinder", 0.85 * u, pen.colours.dim_text,
                  Align::centre);
  pen.canvas.text({c.x, c.y - pen.g.radius - 0.55 * u}, "TDC", u, pen.colours.dim_text, Align::centre,
                  Weight::bold);
  pen.canvas.text({c.x, c.y + pen.g.radius + 1.25 * u}, "BDC", u, pen.colours.dim_text, Align::centre,
                  Weight::bold);
}

void draw_tracks(const DialPen& pen) {
  const DialGeometry& g = pen.g;
  const double u = pen.u, hair = 0.045 * u, thin = 0.085 * u;
  const Colour grid = pen.colours.grid;

  std::vector<Point> spiral;
  for (int d = 0; d <= 720; d += 2) spiral.push_back(g.at(d, (kExhaustIn + kExhaustOut) / 2));
  pen.canvas.line(spiral, {grid, thin});
  for (const size_t t : pen.cylinder.exhaust) {
    const LiftProfile& lift = pen.view.engine->trains[t].profile;
    const ArcSet open({{pen.cylinder.firing_tdc_deg + lift.seat_opens_deg(), lift.seat_span_deg()}});
    for (const auto& [from, to] : stretches(pen.cylinder, open)) {
      const std::vector<Point> polygon = band(g, from, to, kExhaustIn, kExhaustOut);
      pen.canvas.fill(polygon, pen.colours.panel);
      pen.canvas.line(polygon, {pen.colours.exhaust, thin, 0.3 * u}, true);
    }
  }

  const Windows& w = *pen.view.windows;
  for (const auto& [from, to] : stretches(pen.cylinder, w.shut)) {
    const std::vector<Point> polygon = band(g, from, to, kIntakeIn, kIntakeOut);
    pen.canvas.fill(polygon, pen.colours.shut_soft);
    pen.canvas.line(polygon, {pen.colours.shut, hair}, true);
  }
  for (const auto& [from, to] : stretches(pen.cylinder, w.shut.minus(w.sure)))
    hatch(pen.canvas, band(g, from, to, kIntakeIn, kIntakeOut), Hatch::falling, 0.30 * u,
          {pen.colours.shut, hair}, whole(g));
  for (const auto& [from, to] : stretches(pen.cylinder, w.sure))
    pen.canvas.fill(band(g, from, to, kIntakeIn, kIntakeOut), pen.colours.shut);
  for (const auto& [from, to] : stretches(pen.cylinder, w.shut.complement())) {
    const std::vector<Point> polygon = band(g, from, to, kIntakeIn, kIntakeOut);
    pen.canvas.fill(polygon, pen.colours.open_soft);
    hatch(pen.canvas, polygon, Hatch::rising, 0.38 * u, {pen.colours.open, hair}, whole(g));
    pen.canvas.line(polygon, {pen.colours.open, thin}, true);
  }

  // Which way it runs: an arrowhead where the spiral begins.
  const double a = 0, tip = 7;
  const Point head[] = {g.at(a, kIntakeIn + 0.02), g.at(a + tip, (kIntakeIn + kIntakeOut) / 2),
                        g.at(a, kIntakeOut - 0.02)};
  pen.canvas.fill(head, pen.colours.panel);
}

void draw_needle(const DialPen& pen, double crank_deg, Colour colour, bool hollow) {
  const double local = pen.cylinder.local_deg(crank_deg);
  const Point from = pen.g.ray(local, 0.235), to = pen.g.ray(local, 1.0);
  const Point line[] = {from, to};
  if (!hollow) pen.canvas.line(line, {colour, 0.2 * pen.u});
  if (hollow) pen.canvas.line(line, {colour, 0.085 * pen.u, 0.4 * pen.u});
  // Only the track it crosses in this turn of the two is where the crank is.
  const Point here = pen.g.at(local, (kIntakeIn + kIntakeOut) / 2);
  const double r = 0.75 * pen.u;
  pen.canvas.fill_circle(here, r + 0.14 * pen.u, pen.colours.panel);
  if (hollow)
    pen.canvas.stroke_circle(here, r, {colour, 0.12 * pen.u});
  else
    pen.canvas.fill_circle(here, r, colour);
}

/// One label: an event, or the same event of every lobe of a kind when they are staggered.
struct EventLabel {
  std::vector<ValveEvent> events;
  std::vector<std::pair<Point, Point>> marks;  ///< across the track, outer end first
  double y = 0, width = 0;
  bool right = true;
  Colour colour;
  std::string name, angle;
};

std::vector<EventLabel> labels_of(const DialPen& pen) {
  const DialGeometry& g = pen.g;
  std::vector<EventLabel> labels;
  for (const ValveEvent& e : valve_events(*pen.view.engine, pen.cylinder)) {
    auto same = std::find_if(labels.begin(), labels.end(), [&](const EventLabel& l) {
      return l.events[0].kind == e.kind && l.events[0].opens == e.opens;
    });
    if (same == labels.end()) same = labels.insert(labels.end(), EventLabel{});
    const double local = wrap_deg(e.seat_deg);
    const bool intake = e.kind == ValveKind::intake;
    same->events.push_back(e);
    same->marks.emplace_back(g.at(local, intake ? kIntakeOut : kExhaustOut),
                             g.at(local, intake ? kIntakeIn : kExhaustIn));
  }
  for (EventLabel& l : labels) {
    const ValveEvent& first = l.events[0];
    double mean_deg = 0;
    for (const ValveEvent& e : l.events) mean_deg += e.seat_deg / static_cast<double>(l.events.size());
    const Point out = g.ray(wrap_deg(mean_deg), 1);
    l.right = out.x >= g.centre.x;
    l.y = out.y;
    l.colour = first.kind == ValveKind::intake ? pen.colours.open : pen.colours.exhaust;
    l.name = event_name(pen.cylinder, first, l.events.size() == 1);
    l.angle = event_angles(l.events);
    l.width = 0.8 * pen.u + std::max(pen.canvas.text_width(l.name, pen.u, Weight::bold),
                                     pen.canvas.text_width(l.angle, 0.9 * pen.u));
  }
  return labels;
}

struct Quarter {
  std::vector<EventLabel*> labels;
  double least_dy = 0, step = 0;
};

// Event labels beside the circle, each tied to its events; those of one side keep apart.
void draw_labels(const DialPen& pen, Box box) {
  const DialGeometry& g = pen.g;
  const double u = pen.u, rim = g.radius + 0.9 * u;
  std::vector<EventLabel> labels = labels_of(pen);
  for (EventLabel& l : labels) l.y = g.centre.y + (l.y - g.centre.y) * rim / g.radius;
  const double most_dy = box.h / 2 - 1.2 * u;
  const auto quarter_of = [&](bool right, double half) {
    Quarter q;
    double widest = 0;
    for (EventLabel& l : labels)
      if (l.right == right && (l.y < g.centre.y) == (half < 0)) {
        q.labels.push_back(&l);
        widest = std::max(widest, l.width);
      }
    // From the middle outwards, each at least a label's height from the one before.
    std::sort(q.labels.begin(), q.labels.end(), [&](auto* l, auto* m) { return half * l->y < half * m->y; });
    // Text fits beside the circle only this far above or below its middle.
    const double half_room = std::max(0.0, box.w / 2 - widest);
    q.least_dy = std::sqrt(std::max(0.0, rim * rim - half_room * half_room));
    const auto n = static_cast<double>(q.labels.size());
    q.step = std::min(2.6 * u, n > 1 ? (most_dy - q.least_dy) / (n - 1) : 2.6 * u);
    return q;
  };
  for (const double half : {-1.0, 1.0}) {  // above, below
    // What a quarter cannot hold crosses to the other side: the outermost, which lies nearest to it.
    for (const bool right : {false, true})
      if (const Quarter q = quarter_of(right, half); q.step < 2.1 * u) q.labels.back()->right = !right;
    for (const bool right : {false, true}) {
      const Quarter q = quarter_of(right, half);
      double dy = q.least_dy;
      for (size_t i = 0; i < q.labels.size(); ++i) {
        const double outside = static_cast<double>(q.labels.size() - 1 - i) * q.step;  // kept for the others
        dy = std::min(std::max(dy, half * (q.labels[i]->y - g.centre.y)), most_dy - outside);
        q.labels[i]->y = g.centre.y + half * dy;
        dy += q.step;
      }
    }
  }
  for (const EventLabel& l : labels) {
    const double dy = l.y - g.centre.y;
    const double side = l.right ? 1 : -1;
    const double dx = std::max(std::sqrt(std::max(0.0, rim * rim - dy * dy)), 2.2 * u);
    const Point anchor{g.centre.x + side * dx, l.y};
    for (const auto& [track, event] : l.marks) {
      const Point across[] = {event, track};
      pen.canvas.line(across, {l.colour, 0.16 * u});
      const Point tie[] = {track, anchor, {anchor.x + side * 0.5 * u, anchor.y}};
      pen.canvas.line(tie, {l.colour, 0.07 * u});
    }
    const Align align = l.right ? Align::left : Align::right;
    const double x = anchor.x + side * 0.8 * u;
    pen.canvas.text({x, l.y - 0.15 * u}, l.name, u, pen.colours.text, align, Weight::bold);
    pen.canvas.text({x, l.y + 0.9 * u}, l.angle, 0.9 * u, pen.colours.dim_text, align);
  }
}

}  // namespace

Point DialGeometry::ray(double local_deg, double part) const {
  const double a = local_deg * std::numbers::pi / 180;
  return {centre.x + direction * part * radius * std::sin(a), centre.y - part * radius * std::cos(a)};
}

Point DialGeometry::at(double local_deg, double out) const {
  return ray(local_deg, kStart + kPitch * local_deg / kTurn_deg + out);
}

DialGeometry lay_out_dial(const DialView& view, Box box) {
  DialGeometry g;
  g.centre = {box.x + box.w / 2, box.y + box.h / 2};
  // Labels need the corners of the box, not its sides.
  const double beside = (view.labels ? 6.0 : 0.5) * view.text, above = (view.labels ? 3.2 : 1.8) * view.text;
  g.radius = std::max(1.0, std::min(box.w / 2 - beside, box.h / 2 - above));
  g.direction = view.engine->spec.layout.rotation == Rotation::clockwise ? 1 : -1;
  return g;
}

void draw_dial(Canvas& canvas, Box box, const DialView& view) {
  const Cylinder* cylinder = view.engine->find(view.windows->cylinder);
  if (!cylinder) return;
  const DialGeometry geometry = lay_out_dial(view, box);
  const DialPen pen{canvas, view, geometry, palette(view.theme), *cylinder, view.text};
  draw_cross(pen);
  draw_tracks(pen);
  if (view.labels) draw_labels(pen, box);
  if (view.what_if_deg) draw_needle(pen, *view.what_if_deg, pen.colours.what_if, true);
  if (view.crank_deg && view.plus_minus_deg > 0 && view.plus_minus_deg < kTurn_deg / 2)
    for (const double side : {-view.plus_minus_deg, view.plus_minus_deg}) {
      const double local = cylinder->local_deg(*view.crank_deg + side);
      const Point line[] = {geometry.ray(local, 0.235), geometry.ray(local, 1.0)};
      canvas.line(line, {pen.colours.crank, 0.06 * view.text});
    }
  if (view.crank_deg) draw_needle(pen, *view.crank_deg, pen.colours.crank, false);
}

}  // namespace shutlane
