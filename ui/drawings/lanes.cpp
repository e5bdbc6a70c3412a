#include "ui/drawings/lanes.hpp"

#include <algorithm>
#include <cmath>

#include "ui/drawings/lanes_parts.hpp"
#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"
#include "ui/drawings/words.hpp"

namespace shutlane {

namespace {

struct Room {
  double from_x = 0, to_x = 0;
  double width() const { return to_x - from_x; }
};

// The widest part of [from, to] that keeps `clear` away from every needle.
Room widest_room(double from, double to, std::span<const double> needles, double clear) {
  Room best{from, from};
  double free_from = from;
  for (const double x : needles) {  // in rising order
    if (x + clear < free_from || x - clear > to) continue;
    if (x - clear - free_from > best.width()) best = {free_from, x - clear};
    free_from = std::max(free_from, x + clear);
  }
  if (to - free_from > best.width()) best = {free_from, to};
  return best;
}

double peak_lift_mm(const Engine& engine) {
  double peak = 0;
  for (const ValveTrain& t : engine.trains) peak = std::max(peak, t.profile.peak_lift_mm());
  return peak;
}

// Lift over a visible stretch, as a line standing on the track's top edge.
std::vector<Point> lift_line(const LanesPen& pen, const Cylinder& cylinder, std::span<const size_t> trains,
                             Box track, double room_h, double from_deg, double to_deg) {
  const LanesGeometry& g = pen.geometry;
  const double peak = std::max(peak_lift_mm(*pen.view.engine), 1e-9);
  const double step_deg = std::clamp((g.to_deg - g.from_deg) / 300, 0.2, 3.0);
  const auto steps = static_cast<size_t>(std::ceil((to_deg - from_deg) / step_deg));
  std::vector<Point> line;
  line.reserve(steps + 1);
  for (size_t i = 0; i <= steps; ++i) {
    const double a = from_deg + (to_deg - from_deg) * static_cast<double>(i) / static_cast<double>(steps);
    double lift = 0;
    for (const size_t t : trains)
      lift = std::max(lift, pen.view.engine->trains[t].profile.lift_mm(cylinder.local_deg(g.start_deg + a)));
    line.push_back({g.x_of(a), track.y - room_h * lift / peak});
  }
  return line;
}

void write_word(const LanesPen& pen, Box place, std::span<const double> needles, const char* word,
                Colour colour, std::optional<Colour> ground) {
  const double size = std::min(0.95 * pen.u, 0.72 * place.h);
  if (size < 0.55 * pen.u) return;
  const double width = pen.canvas.text_width(word, size, Weight::bold);
  const double pad = ground ? 0.35 * size : 0.5 * size;
  const Room room = widest_room(place.x, place.right(), needles, 0.45 * pen.u);
  if (room.width() < width + 2 * pad) return;
  const Point centre{(room.from_x + room.to_x) / 2, place.y + place.h / 2};
  if (ground)
    pen.canvas.fill_box({centre.x - width / 2 - pad, centre.y - 0.52 * size, width + 2 * pad, 1.04 * size},
                        *ground, 0.3 * size);
  pen.canvas.text({centre.x, centre.y + kHalfCapital * size}, word, size, colour, Align::centre,
                  Weight::bold);
}

void draw_open(const LanesPen& pen, const Cylinder& cylinder, const Windows& windows, Box track,
               double room_h, std::span<const double> needles) {
  const LanesGeometry& g = pen.geometry;
  for (const Span& s : visible_spans(g, windows.shut.complement())) {
    std::vector<Point> hump{{g.x_of(s.from_deg), track.bottom()}};
    for (const Point& p : lift_line(pen, cylinder, cylinder.intake, track, room_h, s.from_deg, s.to_deg))
      hump.push_back(p);
    hump.push_back({g.x_of(s.to_deg), track.bottom()});
    pen.canvas.fill(hump, pen.colours.open_soft);
    hatch(pen.canvas, hump, Hatch::rising, 0.38 * pen.u, {pen.colours.open, pen.hair()}, g.plot);
    pen.canvas.line(hump, {pen.colours.open, pen.thin()}, true);
    write_word(pen, {g.x_of(s.from_deg), track.y, g.x_of(s.to_deg) - g.x_of(s.from_deg), track.h}, needles,
               "open", pen.colours.open, pen.colours.panel);
  }
}

void draw_shut(const LanesPen& pen, const Windows& windows, Box track, std::span<const double> needles) {
  const LanesGeometry& g = pen.geometry;
  const double corner = std::min(0.18 * track.h, 0.3 * pen.u);
  const auto box_of = [&](const Span& s) {
    return Box{g.x_of(s.from_deg), track.y, g.x_of(s.to_deg) - g.x_of(s.from_deg), track.h};
  };
  for (const Span& s : visible_spans(g, windows.shut)) {
    pen.canvas.fill_box(box_of(s), pen.colours.shut_soft, corner);
    pen.canvas.stroke_box(box_of(s), {pen.colours.shut, pen.hair()}, corner);
  }
  for (const Span& s : visible_spans(g, windows.shut.minus(windows.sure)))
    hatch_box(pen.canvas, box_of(s), Hatch::falling, 0.30 * pen.u, {pen.colours.shut, pen.hair()}, g.plot);
  for (const Span& s : visible_spans(g, windows.sure)) {
    pen.canvas.fill_box(box_of(s), pen.colours.shut, corner);
    write_word(pen, box_of(s), needles, "surely shut", pen.colours.on_fill, std::nullopt);
  }
}

}  // namespace

void draw_lane(const LanesPen& pen, size_t row, std::span<const double> all_needles) {
  const LanesGeometry& g = pen.geometry;
  const Cylinder* cylinder = pen.view.engine->find(g.cylinders[row]);
  const auto windows = std::find_if(pen.view.windows->begin(), pen.view.windows->end(),
                                    [&](const Windows& w) { return w.cylinder == g.cylinders[row]; });
  if (!cylinder || windows == pen.view.windows->end()) return;
  const Box lane = g.lane(row), track = g.track(row);
  const double room_h = track.y - lane.y - 0.06 * lane.h;

  std::vector<double> needles(all_needles.begin(), all_needles.end());
  for (const double x : g.visible_x(cylinder->firing_tdc_deg)) needles.push_back(x);  // the notch below
  std::sort(needles.begin(), needles.end());

  pen.canvas.push_clip({g.plot.x, lane.y, g.plot.w, lane.h});
  draw_shut(pen, *windows, track, needles);
  if (pen.view.exhaust)
    for (const size_t t : cylinder->exhaust) {
      const LiftProfile& lift = pen.view.engine->trains[t].profile;
      const Arc off_seat{wrap_deg(cylinder->firing_tdc_deg + lift.seat_opens_deg()), lift.seat_span_deg()};
      const size_t only[] = {t};
      for (const Span& s : visible_spans(g, off_seat))
        pen.canvas.line(lift_line(pen, *cylinder, only, track, room_h, s.from_deg, s.to_deg),
                        {pen.colours.exhaust, pen.thin(), 0.3 * pen.u});
    }
  draw_open(pen, *cylinder, *windows, track, room_h, needles);

  // Firing TDC: a notch in the track's lower edge.
  for (const double x : g.visible_x(cylinder->firing_tdc_deg)) {
    const double h = std::min(0.5 * track.h, 0.6 * pen.u);
    const Point mark[] = {
        {x, track.bottom() - h}, {x + 0.7 * h, track.bottom()}, {x - 0.7 * h, track.bottom()}};
    pen.canvas.fill(mark, pen.colours.panel);
  }
  pen.canvas.pop_clip();

  const double size = std::min(1.5 * pen.u, 0.85 * lane.h);
  pen.canvas.text({g.plot.x - 0.9 * pen.u, track.y + track.h / 2 + kHalfCapital * size},
                  std::to_string(g.cylinders[row]), size, pen.colours.text, Align::right, Weight::bold);
}

void draw_lanes(Canvas& canvas, Box box, const LanesView& view) {
  const LanesGeometry geometry = lay_out_lanes(view, box);
  const LanesPen pen{canvas, view, geometry, palette(view.theme), view.text};

  std::vector<double> needles;
  const auto add = [&](double deg) {
    for (const double x : geometry.visible_x(deg)) needles.push_back(x);
  };
  if (view.crank_deg) {
    add(*view.crank_deg);
    add(*view.crank_deg - view.plus_minus_deg);
    add(*view.crank_deg + view.plus_minus_deg);
  }
  if (view.plan)
    for (const Position& p : view.plan->positions) add(p.at_deg);
  if (view.what_if_deg) add(*view.what_if_deg);
  std::sort(needles.begin(), needles.end());

  draw_fan_bands(pen);
  draw_bands(pen);
  draw_grid(pen, box);
  for (size_t row = 0; row < geometry.cylinders.size(); ++row) draw_lane(pen, row, needles);
  draw_belief(pen);
  draw_fan(pen);
  draw_positions(pen, box);
  draw_needles(pen);
}

}  // namespace shutlane
