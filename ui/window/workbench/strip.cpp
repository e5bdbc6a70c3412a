#include "ui/window/workbench/strip.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {
namespace {

struct Axis {
  double left = 0, width = 0;
  double x(double deg) const { return left + width * deg / kCycle_deg; }
};

/// The arc's one or two stretches on the strip, as pairs of x.
std::vector<std::pair<double, double>> stretches(const Axis& axis, const Arc& arc) {
  const double to_deg = arc.to_deg();
  if (to_deg <= kCycle_deg) return {{axis.x(arc.from_deg), axis.x(to_deg)}};
  return {{axis.x(0), axis.x(to_deg - kCycle_deg)}, {axis.x(arc.from_deg), axis.x(kCycle_deg)}};
}

void draw_lane(Ui& ui, const Axis& axis, const JobModel& model, size_t i, bool done, Box lane) {
  const Palette& p = ui.palette();
  const double bar = lane.h * 0.58, y = lane.y + lane.h / 2;
  const Windows& windows = model.windows[i];
  for (const Arc& arc : windows.sure.arcs())
    for (const auto& [a, b] : stretches(axis, arc))
      ui.canvas().fill_box({a, y - bar / 2, b - a, bar}, done ? ui.colours().card_frame : p.shut,
                           std::min(bar / 2, ui.mm(0.5)));
  const ArcSet open = windows.within_tolerance.complement();
  for (const Arc& arc : open.arcs())
    for (const auto& [a, b] : stretches(axis, arc)) {
      const std::array<Point, 2> line{Point{a, y}, Point{b, y}};
      ui.canvas().line(line, {p.open, std::max(1.0, ui.mm(0.45)), ui.mm(0.8)});
    }
}

/// The middle of the one arc in which the crank can stand; nullopt while there are several or it is lost.
/// Where to draw the crank's needle; none while the crank may stand anywhere on a wide arc or on several,
/// since a line in its middle would look like knowledge.
std::optional<double> stands_at(const ArcSet& where) {
  constexpr double kWide_deg = 60;
  if (where.arcs().size() != 1 || where.arcs()[0].length_deg > kWide_deg) return {};
  return wrap_deg(where.arcs()[0].from_deg + where.arcs()[0].length_deg / 2);
}

struct Pill {
  double x;
  std::string text;
  Colour fill;
};

/// Returns what the labels leave of the row: its largest gap, the right end first.
Box draw_pills(Ui& ui, std::vector<Pill> pills, Box row, double wanted_w) {
  std::sort(pills.begin(), pills.end(), [](const Pill& a, const Pill& b) { return a.x < b.x; });
  const double size = row.h / kLabelHeight;
  std::vector<double> centres, widths;
  for (const Pill& pill : pills) {
    centres.push_back(pill.x);
    widths.push_back(label_width(ui.canvas(), pill.text, size));
  }
  spread_labels(centres, widths, row.x, row.right(), ui.mm(1.5));
  for (size_t i = 0; i < pills.size(); ++i) {
    const Box box = draw_label(ui.canvas(), {centres[i], row.y + row.h / 2}, pills[i].text, size,
                               pills[i].fill, ui.palette().on_fill);
    ui.items().texts.push_back({pills[i].text, box, row, size});
  }
  Box best{row.x, row.y, 0, row.h};
  double right = row.right();
  for (size_t i = pills.size() + 1; i-- > 0;) {
    const double left = i > 0 ? centres[i - 1] + widths[i - 1] / 2 + ui.mm(3) : row.x;
    if (right - left > best.w) best = {left, row.y, right - left, row.h};
    if (best.w >= wanted_w) break;
    if (i > 0) right = centres[i - 1] - widths[i - 1] / 2 - ui.mm(3);
  }
  return best;
}

}  // namespace

void draw_strip(Ui& ui, const Snapshot& s, Box box, double now_s) {
  const JobModel& model = *s.model;
  const Palette& p = ui.palette();
  const size_t n = model.ports.size();
  const double pills_h = std::min(ui.mm(7.5), box.h * 0.24);
  const double label_w = ui.mm(9);
  const Box lanes{box.x + label_w, box.y, box.w - label_w, box.h - pills_h - ui.mm(1)};
  const Axis axis{lanes.x, lanes.w};

  ui.canvas().push_clip(lanes);
  if (!s.advice.where.full())
    for (const Arc& arc : s.advice.where.arcs())
      for (const auto& [a, b] : stretches(axis, arc))
        ui.canvas().fill_box({a, lanes.y, b - a, lanes.h},
                             with_alpha(p.crank, ui.theme() == Theme::dark ? 0.38 : 0.30), ui.mm(0.8));
  ui.canvas().pop_clip();

  const double lane_h = lanes.h / static_cast<double>(n);
  for (size_t i = 0; i < n; ++i) {
    const Box lane{lanes.x, lanes.y + lane_h * static_cast<double>(i), lanes.w, lane_h};
    draw_lane(ui, axis, model, i, s.job.ports[i].done, lane);
    const double size = std::min(ui.mm(4.6), lane_h * 1.12);
    ui.canvas().text({box.x + label_w - ui.mm(2.5), lane.y + lane_h / 2 + size * kHalfCapital},
                     std::to_string(model.ports[i].cylinder), size, p.text, Align::right,
                     Weight::bold);
  }

  std::vector<Pill> pills;
  const double stroke = ui.mm(0.8);
  if (const std::optional<double> at_deg = stands_at(s.advice.where)) {
    const std::array<Point, 2> needle{Point{axis.x(*at_deg), lanes.y},
                                      Point{axis.x(*at_deg), lanes.bottom()}};
    ui.canvas().line(needle, {p.crank, stroke, 0});
    pills.push_back({axis.x(*at_deg), texts::position(s.advice.position), p.crank});
  }
  for (size_t i = 0; i < s.advice.ahead.size(); ++i) {
    const double x = axis.x(s.advice.ahead[i].at_deg);
    const std::array<Point, 2> needle{Point{x, lanes.y}, Point{x, lanes.bottom()}};
    ui.canvas().line(needle, {p.position, stroke, ui.mm(1.6)});
    pills.push_back({x, texts::position(s.advice.position + static_cast<int>(i) + 1), p.position});
  }
  if (s.what_if_deg) {  // hollow: two thin lines
    const double x = axis.x(wrap_deg(*s.what_if_deg)), half = ui.mm(0.7);
    ui.canvas().stroke_box({x - half, lanes.y, 2 * half, lanes.h}, {p.what_if, ui.mm(0.4), 0});
  }

  const Box row{box.x, box.bottom() - pills_h, box.w, pills_h};
  const double hours = s.job_started_s ? std::max(0.0, now_s - *s.job_started_s) / 3600 : -1;
  const std::string status =
      texts::status(s.advice.done, s.advice.of, s.advice.position, s.advice.positions, hours);
  const double status_px = std::min(ui.type_mm(4.8), pills_h * 0.85);
  const double status_w = ui.canvas().text_width(status, status_px) + 2;
  const Box free = draw_pills(ui, pills, row, status_w);
  const bool at_the_end = free.right() > row.right() - 1;
  ui.text_in(free, status,
             {status_px, p.dim_text, at_the_end ? Align::right : Align::left, Weight::regular, 0.6});
}

}  // namespace shutlane
