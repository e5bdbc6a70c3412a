// The page of the lift curves.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ui/drawings/event_table.hpp"
#include "ui/drawings/lift_curves.hpp"
#include "ui/drawings/page_parts.hpp"
#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"
#include "ui/drawings/words.hpp"

namespace shutlane {
namespace {

/// "at firing TDC", "120 degrees after firing TDC": nobody thinks of it as -240 from overlap.
std::string from_overlap(double local_deg) {
  const double from_firing_deg = std::remainder(local_deg, kCycle_deg);
  if (std::abs(from_firing_deg) < 0.05) return "at firing TDC";
  return degrees_in_words(std::abs(from_firing_deg)) + (from_firing_deg < 0 ? " before" : " after") +
         " firing TDC";
}

}  // namespace

void draw_lift_page(Canvas& canvas, Box paper, const Engine& engine, const PageRequest& request) {
  const Palette& colours = palette(request.theme);
  const int number = request.cylinder.value_or(engine.cylinders.front().number);
  const Cylinder& cylinder = *engine.find(number);
  const Box body = draw_frame(canvas, paper, engine, colours, fmt::format("Valve lift, cylinder {}", number),
                              "crank degrees from overlap TDC");

  constexpr double legend_w = 78, gap = 8;
  const double table_w = body.w - legend_w - gap;
  const size_t rows = 2 * (cylinder.intake.size() + cylinder.exhaust.size());
  std::vector<LegendEntry> entries{
      open_entry(colours, "intake lift"),
      exhaust_entry(colours, "exhaust lift"),
      {[&colours](Canvas& c, Box b) {
         c.stroke_circle({b.x + b.w / 2, b.y + b.h / 2}, 1.2, {colours.open, 0.37});
       },
       "the event as the data state it"},
      {[&colours](Canvas& c, Box b) {
         hatch_box(c, b, Hatch::falling, 1.1, {colours.open, 0.17}, b);
         c.stroke_box(b, {colours.open, 0.17, 0.9});
       },
       "where the valve may leave or meet its seat, under every tolerance"}};
  LiftView view;
  view.engine = &engine;
  view.cylinder = number;
  if (request.from_deg) view.crank_deg = wrap_deg(*request.from_deg);
  view.theme = request.theme;
  view.text = 3.6;
  // The plots end where no valve moves any more: a crank that stands out there has no line in them.
  const bool crank_drawn =
      view.crank_deg && !lay_out_lift(view, body).places_of(cylinder.local_deg(*view.crank_deg)).empty();
  if (crank_drawn)
    entries.push_back({[&colours](Canvas& c, Box b) {
                         const Point line[] = {{b.x, b.y + b.h / 2}, {b.right(), b.y + b.h / 2}};
                         c.line(line, {colours.crank, 0.75});
                       },
                       "where the crank stands now"});
  const double legend_h = 1.5 * kBody_mm + 5.0 * static_cast<double>(entries.size()) + kSmall_mm;
  const double table_h = (1.35 + 1.4 * static_cast<double>(rows)) * kSmall_mm + 3 * kLeading * kSmall_mm;
  const double below = std::max(legend_h, table_h);

  draw_lift(canvas, {body.x, body.y, body.w, body.h - below - 4}, view);

  const double y = body.bottom() - below;
  double text_y = draw_event_table(canvas, {body.x, y}, table_w, engine, cylinder, colours, kSmall_mm);
  std::string beside = durations_in_words(engine, cylinder);
  if (view.crank_deg && !crank_drawn)
    beside += " The crank stands " + from_overlap(cylinder.local_deg(*view.crank_deg)) +
              ", outside the stretch that is drawn.";
  draw_paragraph(canvas, {body.x, text_y}, table_w, beside, kSmall_mm, colours.text);
  const double legend_x = body.right() - legend_w;
  draw_legend(canvas, {legend_x, draw_heading(canvas, {legend_x, y}, "How to read it", colours)}, legend_w,
              entries, colours);
}

}  // namespace shutlane
