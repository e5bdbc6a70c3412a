#include "ui/drawings/lift_curves.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "ui/drawings/scale.hpp"
#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"
#include "ui/drawings/words.hpp"

namespace shutlane {

namespace {

struct LiftPen {
  Canvas& canvas;
  const LiftView& view;
  const LiftGeometry& g;
  const Palette& colours;
  const Cylinder& cylinder;
  double u;
  double hair() const { return 0.045 * u; }
  double thin() const { return 0.085 * u; }
  double unit_mm() const { return view.inches ? 25.4 : 1; }
};

std::vector<size_t> trains_of(const Cylinder& c) {
  std::vector<size_t> all = c.exhaust;
  all.insert(all.end(), c.intake.begin(), c.intake.end());
  return all;
}

double greatest_speed(const LiftProfile& lift) {  // mm per crank degree, either way
  double most = 0;
  for (double a = lift.seat_opens_deg(); a < lift.seat_closes_deg(); a += 1)
    most = std::max(most, std::abs(lift.at(a).velocity_mm_per_deg));
  return most;
}

void draw_axes(const LiftPen& pen) {
  const LiftGeometry& g = pen.g;
  const double u = pen.u;
  constexpr std::array steps{5.0, 10.0, 15.0, 30.0, 60.0, 90.0, 180.0};
  double step = steps.back();
  for (const double s : steps)
    if (g.x_of(s) - g.x_of(0) >= 4.2 * u) {
      step = s;
      break;
    }
  for (double a = std::ceil(g.from_deg / step) * step; a <= g.to_deg + 1e-9; a += step) {
    const double x = g.x_of(a);
    const bool dead_centre = std::fmod(std::abs(a), 180.0) < 1e-9;
    const Stroke stroke{dead_centre ? pen.colours.dim_text : pen.colours.grid, pen.hair()};
    for (const Box& plot : {g.lift, g.strips, g.velocity}) {
      const Point line[] = {{x, plot.y}, {x, plot.bottom()}};
      pen.canvas.line(line, stroke);
    }
    pen.canvas.text({x, g.velocity.bottom() + 1.2 * u}, fmt::format("{:.0f}°", a + 0.0), u,
                    pen.colours.dim_text, Align::centre);
    if (dead_centre) {
      const char* name = std::fmod(std::abs(a), 360.0) < 1 ? (a == 0 ? "overlap TDC" : "firing TDC") : "BDC";
      const double half = pen.canvas.text_width(name, u, Weight::bold) / 2;
      pen.canvas.text({std::min(x, g.lift.right() + 1.2 * u - half), g.lift.y - 0.5 * u}, name, u,
                      pen.colours.dim_text, Align::centre, Weight::bold);
    }
  }
  const double unit_mm = pen.unit_mm();
  const double most_lift = g.most_lift_mm / unit_mm, most_velocity = g.most_velocity / unit_mm;
  int parts = std::max(2, static_cast<int>(g.lift.h / (2.6 * u)));
  double lift_step = nice_step(most_lift, parts);
  while (lift_step > most_lift)
    lift_step = nice_step(most_lift, ++parts);  // an axis of "0" alone tells nothing
  for (double k = 0; k * lift_step <= most_lift + 1e-9; k += 1) {
    const double y = g.y_of(k * lift_step * unit_mm);
    const Point line[] = {{g.lift.x, y}, {g.lift.right(), y}};
    pen.canvas.line(line, {k == 0 ? pen.colours.dim_text : pen.colours.grid, pen.hair()});
    pen.canvas.text({g.lift.x - 0.6 * u, y + kHalfCapital * u}, fmt::format("{:.6g}", k * lift_step), u,
                    pen.colours.dim_text, Align::right);
  }
  double speed_step = nice_step(2 * most_velocity, std::max(2, static_cast<int>(g.velocity.h / (1.3 * u))));
  if (speed_step > most_velocity) {  // little room: one tick each way, as far out as it may stand
    const double ten = std::pow(10, std::floor(std::log10(most_velocity)));
    for (const double k : {1.0, 1.5, 2.0, 3.0, 5.0, 7.0})
      if (k * ten <= most_velocity && k * ten * g.velocity.h / 2 >= 0.9 * u * most_velocity)
        speed_step = k * ten;
  }
  for (double k = -std::floor(most_velocity / speed_step); k * speed_step <= most_velocity + 1e-9; k += 1) {
    const double y = g.y_of_velocity(k * speed_step * unit_mm);
    const Point line[] = {{g.velocity.x, y}, {g.velocity.right(), y}};
    pen.canvas.line(line, {k == 0 ? pen.colours.dim_text : pen.colours.grid, pen.hair()});
    pen.canvas.text({g.velocity.x - 0.6 * u, y + kHalfCapital * u},
                    fmt::format("{:.6g}", k * speed_step + 0.0), u, pen.colours.dim_text, Align::right);
  }
  pen.canvas.text({g.lift.x, g.lift.y - 0.5 * u}, pen.view.inches ? "lift, in" : "lift, mm", u,
                  pen.colours.dim_text, Align::right);
  pen.canvas.text({g.velocity.x, g.velocity.y - 0.45 * u},
                  pen.view.inches ? "velocity, in per crank degree" : "velocity, mm per crank degree", u,
                  pen.colours.dim_text);
}

enum class Part { fill, lines };

void draw_curves(const LiftPen& pen, size_t t, Part part) {
  const LiftGeometry& g = pen.g;
  const ValveTrain& train = pen.view.engine->trains[t];
  const LiftProfile& lift = train.profile;
  const bool intake = train.kind == ValveKind::intake;
  const Colour colour = intake ? pen.colours.open : pen.colours.exhaust;
  std::vector<Point> rise, speed;
  const double span = lift.seat_span_deg();
  const int n = std::clamp(static_cast<int>(std::ceil(span)), 60, 720);
  for (int i = 0; i <= n; ++i) {
    const double a = lift.seat_opens_deg() + span * i / n;
    const bool end = i == 0 || i == n;
    const Lift at = lift.at(a);
    rise.push_back({g.x_of(a - kTurn_deg), g.y_of(end ? 0 : at.lift_mm)});
    speed.push_back({g.x_of(a - kTurn_deg), g.y_of_velocity(end ? 0 : at.velocity_mm_per_deg)});
  }
  if (part == Part::fill) {
    if (!intake) return;
    pen.canvas.fill(rise, pen.colours.open_soft);
    hatch(pen.canvas, rise, Hatch::rising, 0.5 * pen.u, {colour, 0.7 * pen.hair()}, g.lift);
    return;
  }
  const double dash = intake ? 0 : 0.4 * pen.u;
  pen.canvas.line(rise, {colour, 1.6 * pen.thin(), dash});
  pen.canvas.line(speed, {colour, 1.2 * pen.thin(), dash});
}

// The stated height of an event, and where on the curve it is stated. Names of heights that lie close stand
// one above the other.
void draw_stated(const LiftPen& pen, const std::vector<ValveEvent>& events) {
  const LiftGeometry& g = pen.g;
  std::vector<double> heights_mm;
  for (const ValveEvent& e : events)
    if (e.stated_deg && e.stated_at_mm > 0) heights_mm.push_back(e.stated_at_mm);
  std::sort(heights_mm.begin(), heights_mm.end());
  heights_mm.erase(std::unique(heights_mm.begin(), heights_mm.end()), heights_mm.end());
  double free_y = g.lift.bottom();
  for (const double mm : heights_mm) {
    const double y = g.y_of(mm);
    const Point line[] = {{g.lift.x, y}, {g.lift.right(), y}};
    pen.canvas.line(line, {pen.colours.text, pen.hair(), 0.6 * pen.u});
    const double base = std::min(y - 0.35 * pen.u, free_y);
    pen.canvas.text({g.lift.right() - 0.3 * pen.u, base}, "check height " + small_length(mm, pen.view.inches),
                    0.9 * pen.u, pen.colours.text, Align::right);
    free_y = base - 0.85 * pen.u;
  }
  for (const ValveEvent& e : events) {
    if (!e.stated_deg) continue;
    const Colour colour = e.kind == ValveKind::intake ? pen.colours.open : pen.colours.exhaust;
    const Point at{g.x_of(*e.stated_deg - kTurn_deg), g.y_of(e.stated_at_mm)};
    pen.canvas.fill_circle(at, 0.34 * pen.u, pen.colours.panel);
    pen.canvas.stroke_circle(at, 0.34 * pen.u, {colour, 1.2 * pen.thin()});
  }
}

// One strip a valve: solid outline where it is off its seat as stated, hatched as far as the tolerances
// reach.
void draw_strips(const LiftPen& pen, const std::vector<ValveEvent>& events) {
  const LiftGeometry& g = pen.g;
  const double row_h = g.strips.h / static_cast<double>(std::max<size_t>(1, events.size() / 2));
  for (size_t i = 0; i + 1 < events.size(); i += 2) {
    const ValveEvent &opens = events[i], &closes = events[i + 1];
    const bool intake = opens.kind == ValveKind::intake;
    const Colour colour = intake ? pen.colours.open : pen.colours.exhaust;
    const Box row{g.strips.x, g.strips.y + row_h * static_cast<double>(i / 2), g.strips.w, row_h};
    const double h = std::min(std::max(0.62 * row_h, row_h - 0.25 * pen.u), 1.1 * pen.u),
                 y = row.y + (row.h - h) / 2;
    const auto x = [&](double local) { return g.x_of(local - kTurn_deg); };
    const Box reach{x(opens.earliest_deg), y, x(closes.latest_deg) - x(opens.earliest_deg), h};
    const Box stated{x(opens.seat_deg), y, x(closes.seat_deg) - x(opens.seat_deg), h};
    pen.canvas.fill_box(reach, pen.colours.panel);
    for (const ValveEvent* e : {&opens, &closes})
      hatch_box(pen.canvas, {x(e->earliest_deg), y, x(e->latest_deg) - x(e->earliest_deg), h}, Hatch::falling,
                0.3 * pen.u, {colour, pen.hair()}, g.strips);
    pen.canvas.stroke_box(reach, {colour, pen.hair(), 0.25 * pen.u});
    pen.canvas.stroke_box(stated, {colour, 1.2 * pen.thin()});
    std::string name = event_name(pen.cylinder, opens);
    name = name.substr(0, name.rfind(' '));
    const double size = std::min(0.95 * pen.u, 0.9 * h);
    pen.canvas.text({stated.x + stated.w / 2, y + h / 2 + kHalfCapital * size},
                    name + " off its seat " + degrees_in_words(closes.seat_deg - opens.seat_deg), size,
                    pen.colours.text, Align::centre, Weight::bold);
  }
}

void draw_marks(const LiftPen& pen) {
  const LiftGeometry& g = pen.g;
  const auto mark = [&](double crank_deg, Stroke stroke) {
    for (const double a : g.places_of(pen.cylinder.local_deg(crank_deg))) {
      for (const Box& plot : {g.lift, g.strips, g.velocity}) {
        const Point line[] = {{g.x_of(a), plot.y}, {g.x_of(a), plot.bottom()}};
        pen.canvas.line(line, stroke);
      }
      for (const size_t t : trains_of(pen.cylinder)) {
        const double lift = pen.view.engine->trains[t].profile.lift_mm(a + kTurn_deg);
        if (lift > 0) pen.canvas.fill_circle({g.x_of(a), g.y_of(lift)}, 0.4 * pen.u, stroke.colour);
      }
    }
  };
  if (pen.view.hover_deg) mark(*pen.view.hover_deg, {pen.colours.dim_text, pen.hair(), 0.2 * pen.u});
  if (pen.view.what_if_deg) mark(*pen.view.what_if_deg, {pen.colours.what_if, pen.thin(), 0.5 * pen.u});
  if (pen.view.crank_deg) mark(*pen.view.crank_deg, {pen.colours.crank, 0.2 * pen.u});
}

}  // namespace

double LiftGeometry::x_of(double a) const { return lift.x + lift.w * (a - from_deg) / (to_deg - from_deg); }
double LiftGeometry::y_of(double mm) const { return lift.bottom() - lift.h * mm / most_lift_mm; }
double LiftGeometry::y_of_velocity(double v) const {
  return velocity.y + velocity.h / 2 * (1 - v / most_velocity);
}

std::vector<double> LiftGeometry::places_of(double local_deg) const {
  std::vector<double> places;
  for (const double a : {local_deg - kTurn_deg - kCycle_deg, local_deg - kTurn_deg, local_deg + kTurn_deg})
    if (a >= from_deg && a <= to_deg) places.push_back(a);
  return places;
}

LiftGeometry lay_out_lift(const LiftView& view, Box box) {
  const double u = view.text;
  const Cylinder& cylinder = *view.engine->find(view.cylinder);
  LiftGeometry g;
  double from = 0, to = 0;
  for (const size_t t : trains_of(cylinder)) {
    const ValveTrain& train = view.engine->trains[t];
    from = std::min(from, train.opens_earliest_deg() - kTurn_deg);
    to = std::max(to, train.closes_latest_deg() - kTurn_deg);
    g.most_lift_mm = std::max(g.most_lift_mm, train.profile.peak_lift_mm());
    g.most_velocity = std::max(g.most_velocity, greatest_speed(train.profile));
  }
  g.from_deg = view.from_deg.value_or(std::floor((from - 10) / 30) * 30);
  g.to_deg = view.to_deg.value_or(std::ceil((to + 10) / 30) * 30);
  g.most_lift_mm = std::max(1e-3, g.most_lift_mm * 1.1);
  g.most_velocity = std::max(1e-6, g.most_velocity * 1.12);

  const double left = 3.2 * u, right = 1.2 * u, rows = static_cast<double>(trains_of(cylinder).size());
  const double strips_h = rows * (box.h < 18 * u ? 1.3 : 1.7) * u;
  const double rest = std::max(1.0, box.h - 1.6 * u - 0.5 * u - strips_h - 2.0 * u - 1.8 * u);
  g.lift = {box.x + left, box.y + 1.6 * u, std::max(1.0, box.w - left - right), 0.66 * rest};
  g.strips = {g.lift.x, g.lift.bottom() + 0.5 * u, g.lift.w, strips_h};
  g.velocity = {g.lift.x, g.strips.bottom() + 2.0 * u, g.lift.w, 0.34 * rest};
  return g;
}

void draw_lift(Canvas& canvas, Box box, const LiftView& view) {
  const Cylinder* cylinder = view.engine->find(view.cylinder);
  if (!cylinder) return;
  const LiftGeometry geometry = lay_out_lift(view, box);
  const LiftPen pen{canvas, view, geometry, palette(view.theme), *cylinder, view.text};
  const std::vector<ValveEvent> events = valve_events(*view.engine, *cylinder);
  draw_axes(pen);
  canvas.push_clip({geometry.lift.x, box.y, geometry.lift.w, box.h});
  // Every fill before every line: of staggered valves one would hide the flank of the other.
  for (const Part part : {Part::fill, Part::lines}) {
    for (const size_t t : cylinder->intake) draw_curves(pen, t, part);
    for (const size_t t : cylinder->exhaust) draw_curves(pen, t, part);
  }
  draw_strips(pen, events);
  draw_stated(pen, events);
  draw_marks(pen);
  canvas.pop_clip();
}

}  // namespace shutlane
