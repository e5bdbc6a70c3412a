#include "ui/drawings/bump_curves.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/cycle/angle.hpp"
#include "ui/drawings/bump_plots.hpp"
#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"

namespace shutlane {

namespace {

using namespace bump_plots;

constexpr double kRpm_per_rad_s = 60 / (2 * kPi);

// In lines of text.
constexpr double kHead = 1.35;    // the heading of a plot
constexpr double kFoot = 1.45;    // the seconds
constexpr double kLeft = 2.9;     // the scale
constexpr double kRight = 2.6;    // the dead centres beside the angle
constexpr double kBetween = 1.0;  // columns

void draw_speed(const CurvesPen& pen) {
  const Value rpm = [](const BumpSample& s) { return s.speed_rad_s * kRpm_per_rad_s; };
  const Range r = range_of(*pen.view.record, {rpm}, 20);
  const Box& box = pen.g.plots[Plot::speed];
  draw_grid(pen, Plot::speed, r);
  // Rolling back: hatched between the curve and zero.
  std::vector<Point> below;
  Box widest;
  const double zero = pen.y_of(Plot::speed, r, 0);
  const auto finish = [&] {
    if (below.size() > 1) {
      if (below.back().x - below.front().x > widest.w)
        widest = {below.front().x, zero, below.back().x - below.front().x, 0};
      below.insert(below.begin(), {below.front().x, zero});
      below.push_back({below.back().x, zero});
      pen.canvas.fill(below, pen.colours.open_soft);
      hatch(pen.canvas, below, Hatch::rising, 0.35 * pen.u, {pen.colours.open, pen.hair()}, box);
    }
    below.clear();
  };
  for (const Point& p : points_of(pen, Plot::speed, r, rpm)) {
    if (p.y > zero + 0.02 * pen.u)
      below.push_back(p);
    else
      finish();
  }
  finish();
  pen.canvas.line(points_of(pen, Plot::speed, r, rpm), {pen.colours.text, 1.5 * pen.thin()});
  const double size = 0.9 * pen.u;
  // Above zero there is room under the curve once the starter has taken hold.
  const double pressed_x = pen.g.x_of(Plot::speed, pen.view.record->press_s) - 0.3 * size;
  const double held_x = pen.g.x_of(Plot::speed, pen.view.record->drive_from_s) + 0.5 * size;
  if (pen.canvas.text_width("pressed", size, Weight::bold) < pressed_x - held_x)
    pen.canvas.text({pressed_x, zero - 0.35 * size}, "pressed", size, pen.colours.crank, Align::right,
                    Weight::bold);
  const double back_w = pen.canvas.text_width("rolls back", size, Weight::bold);
  if (widest.w > 0.9 * back_w) {
    const double x = std::min(widest.x + widest.w / 2, box.right() - back_w / 2);
    pen.canvas.text({x, zero - 0.35 * size}, "rolls back", size, pen.colours.open, Align::centre,
                    Weight::bold);
  }
  std::vector<HeadPart> head{{"Crank speed, turns a minute", pen.colours.dim_text, Weight::bold, {}}};
  if (pen.view.now_s)
    head.push_back(
        {number(rpm(sample_at(*pen.view.record, *pen.view.now_s)), 0), pen.colours.text, Weight::bold, {}});
  draw_head(pen, Plot::speed, head);
  draw_now(pen, Plot::speed, r, {rpm});
}

/// Hairlines where a cylinder passes its firing TDC, with its number where there is room.
void draw_dead_centres(const CurvesPen& pen, const Range& r) {
  const Box& box = pen.g.plots[Plot::turned];
  const double size = 0.9 * pen.u;
  struct Tdc {
    double turned_deg;
    int cylinder;
  };
  std::vector<Tdc> all;
  for (size_t k = 0; k < pen.view.model->cylinders.size() && k < pen.view.cylinders.size(); ++k) {
    const double first = forward_deg(pen.view.record->from_deg, pen.view.model->cylinders[k].firing_tdc_deg);
    for (double a = first - kCycle_deg * std::ceil((first - r.low) / kCycle_deg); a <= r.high;
         a += kCycle_deg)
      if (a >= r.low) all.push_back({a, pen.view.cylinders[k]});
  }
  std::sort(all.begin(), all.end(), [](const Tdc& a, const Tdc& b) { return a.turned_deg < b.turned_deg; });
  double apart = box.h;
  for (size_t i = 1; i < all.size(); ++i)
    apart = std::min(apart, pen.y_of(Plot::turned, r, all[i - 1].turned_deg) -
                                pen.y_of(Plot::turned, r, all[i].turned_deg));
  if (apart < 0.3 * pen.u) return;
  double free_below = box.bottom() + 0.5 * size;
  for (const Tdc& t : all) {
    const double y = pen.y_of(Plot::turned, r, t.turned_deg);
    const Point line[] = {{box.x, y}, {box.right(), y}};
    pen.canvas.line(line, {pen.colours.exhaust, pen.hair(), 0.35 * pen.u});
    if (y + 0.5 * size > free_below || y - 0.5 * size < box.y - 0.2 * size) continue;
    free_below = y - 0.55 * size;
    pen.canvas.text({box.right() + 0.3 * pen.u, y + kHalfCapital * size}, fmt::format("TDC {}", t.cylinder),
                    0.85 * size, pen.colours.dim_text);
  }
}

/// Where other bumps of the same press come to rest: a band at the right end for each heap.
void draw_rests(const CurvesPen& pen, const Range& r) {
  const Box& box = pen.g.plots[Plot::turned];
  const double w = 0.09 * box.w;
  for (const Heap& heap : pen.view.rests) {
    const double top = pen.y_of(Plot::turned, r, heap.to_deg),
                 bottom = pen.y_of(Plot::turned, r, heap.from_deg);
    const Box band{box.right() - w, top, w, std::max(bottom - top, pen.thin())};
    hatch_box(pen.canvas, band, Hatch::falling, 0.35 * pen.u, {pen.colours.position, pen.hair()}, box);
    pen.canvas.stroke_box(band, {pen.colours.position, pen.thin()});
  }
}

void draw_turned(const CurvesPen& pen) {
  const Value turned = [](const BumpSample& s) { return s.turned_deg; };
  Range r = range_of(*pen.view.record, {turned}, 20);
  for (const Heap& heap : pen.view.rests) {
    r.low = std::min(r.low, heap.from_deg);
    r.high = std::max(r.high, heap.to_deg + 0.05 * (r.high - r.low));
  }
  draw_grid(pen, Plot::turned, r);
  draw_rests(pen, r);
  draw_dead_centres(pen, r);
  const double rest_y = pen.y_of(Plot::turned, r, pen.view.record->advance_deg());
  const Box& box = pen.g.plots[Plot::turned];
  pen.canvas.line(points_of(pen, Plot::turned, r, turned), {pen.colours.text, 1.5 * pen.thin()});
  const Point rest[] = {{pen.g.x_of(Plot::turned, pen.view.record->rests_s), rest_y}, {box.right(), rest_y}};
  pen.canvas.line(rest, {pen.colours.position, 2.2 * pen.thin()});
  const double size = 0.9 * pen.u;
  const bool above = rest_y - 1.5 * size < box.y;  // then the label goes below
  const std::string words = fmt::format("this one rests at {}°", number(pen.view.record->advance_deg(), 0));
  const double words_w = pen.canvas.text_width(words, size, Weight::bold);
  const double base = above ? rest_y + 1.1 * size : rest_y - 0.4 * size;
  pen.canvas.fill_box(
      {box.right() - words_w - 0.4 * size, base - 0.75 * size, words_w + 0.4 * size, 0.95 * size},
      pen.colours.panel);
  pen.canvas.text({box.right() - 0.2 * size, base}, words, size, pen.colours.position, Align::right,
                  Weight::bold);
  std::vector<HeadPart> head{{"Crank turned, degrees", pen.colours.dim_text, Weight::bold, {}}};
  if (pen.view.now_s)
    head.push_back({number(sample_at(*pen.view.record, *pen.view.now_s).turned_deg, 0) + "°",
                    pen.colours.text,
                    Weight::bold,
                    {}});
  draw_head(pen, Plot::turned, head);
  draw_now(pen, Plot::turned, r, {turned});
}

/// The number of a cylinder over each of its peaks.
void number_peaks(const CurvesPen& pen, const Range& r, const std::vector<Value>& gauges) {
  const auto& samples = pen.view.record->samples;
  const Box& box = pen.g.plots[Plot::pressure];
  const double size = 0.9 * pen.u;
  struct Peak {
    Point at;
    int cylinder;
  };
  std::vector<Peak> peaks;
  for (size_t k = 0; k < gauges.size(); ++k)
    for (size_t i = 1; i + 1 < samples.size(); ++i) {
      const double p = gauges[k](samples[i]);
      if (p < 0.25 * r.high || gauges[k](samples[i - 1]) >= p) continue;
      size_t after = i + 1;  // two samples of one instant are level
      while (after + 1 < samples.size() && gauges[k](samples[after]) == p) ++after;
      if (gauges[k](samples[after]) > p) continue;
      peaks.push_back({{pen.g.x_of(Plot::pressure, samples[i].time_s), pen.y_of(Plot::pressure, r, p)},
                       pen.view.cylinders[k]});
    }
  std::stable_sort(peaks.begin(), peaks.end(), [&](const Peak& a, const Peak& b) {
    return (a.cylinder == pen.view.cylinder) > (b.cylinder == pen.view.cylinder);
  });
  std::vector<Box> taken;
  for (const Peak& peak : peaks) {
    const bool chosen = peak.cylinder == pen.view.cylinder;
    const std::string words = std::to_string(peak.cylinder);
    const double w = pen.canvas.text_width(words, size, Weight::bold);
    const Box place{peak.at.x - w / 2, peak.at.y - 1.15 * size, w, size};
    if (place.x < box.x || place.right() > box.right() || place.y < box.y - 0.2 * size) continue;
    if (std::any_of(taken.begin(), taken.end(), [&](const Box& t) {
          const Box shared = overlap({t.x - 0.3 * size, t.y, t.w + 0.6 * size, t.h}, place);
          return shared.w > 0 && shared.h > 0;
        }))
      continue;
    taken.push_back(place);
    pen.canvas.text({peak.at.x, place.y + kAscent * size}, words, size,
                    chosen ? pen.colours.text : pen.colours.dim_text, Align::centre, Weight::bold);
  }
}

void draw_pressure(const CurvesPen& pen) {
  const double bar = pen.bar(), ambient_pa = pen.view.model->ambient_pa;
  std::vector<Value> gauges;
  std::optional<size_t> chosen_k;
  const size_t n = std::min(pen.view.cylinders.size(), pen.view.model->cylinders.size());
  for (size_t k = 0; k < n; ++k) {
    gauges.push_back([=](const BumpSample& s) { return (s.pressure_pa[k] - ambient_pa) * bar; });
    if (pen.view.cylinders[k] == pen.view.cylinder) chosen_k = k;
  }
  if (n == 0) return;
  Range r = range_of(*pen.view.record, gauges, pen.view.us_units ? 10 : 0.7);
  // Room for the numbers over the peaks, beyond the tenth that the range has.
  const double number_part = 1.3 * pen.u / pen.g.plots[Plot::pressure].h;
  r.high += std::clamp(number_part / (1 - number_part), 0.05, 1.0) * (r.high - r.low);
  draw_grid(pen, Plot::pressure, r);
  for (size_t k = 0; k < n; ++k)
    if (k != chosen_k)
      pen.canvas.line(points_of(pen, Plot::pressure, r, gauges[k]),
                      chosen_k ? Stroke{pen.colours.exhaust, 0.9 * pen.thin()}
                               : Stroke{pen.colours.text, 1.1 * pen.thin()});
  if (chosen_k)
    pen.canvas.line(points_of(pen, Plot::pressure, r, gauges[*chosen_k]),
                    {pen.colours.text, 1.8 * pen.thin()});
  number_peaks(pen, r, gauges);
  std::vector<HeadPart> head{
      {pen.view.us_units ? "Cylinder pressure, psi above outside" : "Cylinder pressure, bar above outside",
       pen.colours.dim_text,
       Weight::bold,
       {}}};
  if (pen.view.now_s && chosen_k) {
    const double now = gauges[*chosen_k](sample_at(*pen.view.record, *pen.view.now_s));
    head.push_back(
        {fmt::format("of {}: {}", pen.view.cylinders[*chosen_k], number(now, pen.view.us_units ? 0 : 1)),
         pen.colours.text,
         Weight::bold,
         {}});
  }
  draw_head(pen, Plot::pressure, head);
  if (chosen_k)
    draw_now(pen, Plot::pressure, r, {gauges[*chosen_k]});
  else
    draw_now(pen, Plot::pressure, r, {});
}

void draw_torque(const CurvesPen& pen) {
  const double k = pen.torque();
  const Value starter = [=](const BumpSample& s) { return s.starter_nm * k; };
  const Value gas = [=](const BumpSample& s) { return s.gas_nm * k; };
  const Value friction = [=](const BumpSample& s) { return s.friction_nm * k; };
  const Range r = range_of(*pen.view.record, {starter, gas, friction}, 10);
  draw_grid(pen, Plot::torque, r);
  const Stroke of_friction{pen.colours.exhaust, 1.2 * pen.thin(), 0.35 * pen.u},
      of_gas{pen.colours.open, 1.2 * pen.thin()}, of_starter{pen.colours.crank, 2.2 * pen.thin()};
  pen.canvas.line(points_of(pen, Plot::torque, r, friction), of_friction);
  pen.canvas.line(points_of(pen, Plot::torque, r, gas), of_gas);
  pen.canvas.line(points_of(pen, Plot::torque, r, starter), of_starter);
  const auto now = [&](const char* word, const Value& value) {
    if (!pen.view.now_s) return std::string(word);
    return fmt::format("{} {}", word, number(value(sample_at(*pen.view.record, *pen.view.now_s)), 0));
  };
  draw_head(pen, Plot::torque,
            {{pen.view.us_units ? "Torque, lb\u00b7ft" : "Torque, N\u00b7m",
              pen.colours.dim_text,
              Weight::bold,
              {}},
             {now("starter", starter), pen.colours.text, Weight::regular, of_starter},
             {now("gas", gas), pen.colours.text, Weight::regular, of_gas},
             {now("friction", friction), pen.colours.text, Weight::regular, of_friction}});
  draw_now(pen, Plot::torque, r, {starter, gas, friction});
}

}  // namespace

std::optional<double> BumpCurvesGeometry::time_at(Point at) const {
  for (const Plot plot : {speed, pressure}) {
    const Box& box = plots[plot];
    if (at.x >= box.x && at.x <= box.right()) return std::clamp((at.x - box.x) / box.w, 0.0, 1.0) * to_s;
  }
  return std::nullopt;
}

BumpCurvesGeometry lay_out_bump_curves(const BumpCurvesView& view, Box box) {
  const double u = view.text;
  BumpCurvesGeometry g;
  g.to_s = view.record ? std::max(0.01, view.record->ends_s()) : 1;
  // The right column has no dead centres beside it, only half a label of seconds.
  const double w = std::max(2.0, box.w - (2 * kLeft + kRight + kBetween + 1.2) * u) / 2;
  const double h = std::max(2.0, box.h - (2 * kHead + kFoot + 0.5) * u) / 2;
  const double x[] = {box.x + kLeft * u, box.x + (2 * kLeft + kRight + kBetween) * u + w};
  const double y[] = {box.y + kHead * u, box.y + (2 * kHead + 0.5) * u + h};
  g.plots[BumpCurvesGeometry::speed] = {x[0], y[0], w, h};
  g.plots[BumpCurvesGeometry::turned] = {x[0], y[1], w, h};
  g.plots[BumpCurvesGeometry::pressure] = {x[1], y[0], w, h};
  g.plots[BumpCurvesGeometry::torque] = {x[1], y[1], w, h};
  return g;
}

void draw_bump_curves(Canvas& canvas, Box box, const BumpCurvesView& view) {
  if (!view.record || !view.model) return;
  const BumpCurvesGeometry geometry = lay_out_bump_curves(view, box);
  const Palette& colours = palette(view.theme);
  const CurvesPen pen{canvas, view, geometry, colours, view.text};
  draw_speed(pen);
  draw_turned(pen);
  draw_pressure(pen);
  draw_torque(pen);
  if (!view.stale) return;
  Colour veil = colours.panel;
  veil.a = 150;
  canvas.fill_box(box, veil);
}

}  // namespace shutlane
