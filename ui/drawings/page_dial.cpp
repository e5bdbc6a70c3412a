// The page of the valve-timing circle.
#include <fmt/format.h>

#include <algorithm>

#include "ui/drawings/dial.hpp"
#include "ui/drawings/event_table.hpp"
#include "ui/drawings/page_parts.hpp"
#include "ui/drawings/text.hpp"
#include "ui/drawings/words.hpp"

namespace shutlane {

void draw_dial_page(Canvas& canvas, Box paper, const Engine& engine, const PageRequest& request) {
  const Palette& colours = palette(request.theme);
  const int number = request.cylinder.value_or(engine.cylinders.front().number);
  const Cylinder& cylinder = *engine.find(number);
  const std::vector<Windows> all = shut_windows(engine, request.margin_deg);
  const auto windows =
      std::find_if(all.begin(), all.end(), [&](const Windows& w) { return w.cylinder == number; });

  const Box body =
      draw_frame(canvas, paper, engine, colours, fmt::format("Valve timing, cylinder {}", number),
                 "margin " + degrees_in_words(request.margin_deg));

  // From the bottom up: legend, table, the circle in what is left.
  std::vector<LegendEntry> entries{
      sure_entry(colours, "intake surely shut: under every tolerance, with " +
                              degrees_in_words(request.margin_deg) + " to spare on both sides"),
      unsure_entry(colours, "intake not surely shut: shut only as stated"),
      open_entry(colours, "intake open"),
      {[&colours](Canvas& c, Box b) {
         c.stroke_box({b.x, b.y + 0.2 * b.h, b.w, 0.6 * b.h}, {colours.exhaust, 0.31, 1.0});
       },
       "exhaust open"}};
  if (request.from_deg)
    entries.push_back({[&colours](Canvas& c, Box b) {
                         const Point line[] = {{b.x, b.y + b.h / 2}, {b.right(), b.y + b.h / 2}};
                         c.line(line, {colours.crank, 0.75});
                         c.fill_circle({b.x + b.w / 2, b.y + b.h / 2}, 1.6, colours.crank);
                       },
                       "where the crank stands now; the dot says in which of the two turns"});
  const double half_w = (body.w - 8) / 2;
  const double legend_h = 1.5 * kBody_mm + 5.6 * static_cast<double>(entries.size()) + kSmall_mm;
  const double legend_y = body.bottom() - legend_h;
  const size_t rows = 2 * (cylinder.intake.size() + cylinder.exhaust.size());
  const double table_h = 1.5 * kBody_mm + (1.35 + 1.4 * static_cast<double>(rows)) * kSmall_mm + 3;
  const double table_y = legend_y - table_h;

  DialView view;
  view.engine = &engine;
  view.windows = &*windows;
  if (request.from_deg) view.crank_deg = wrap_deg(*request.from_deg);
  view.plus_minus_deg = request.plus_minus_deg;
  view.theme = request.theme;
  view.text = 3.6;
  draw_dial(canvas, {body.x, body.y, body.w, table_y - body.y - 4}, view);

  const double rows_y = draw_heading(canvas, {body.x, table_y}, "The valve events", colours);
  draw_event_table(canvas, {body.x, rows_y}, body.w, engine, cylinder, colours, kSmall_mm);
  draw_legend(canvas, {body.x, draw_heading(canvas, {body.x, legend_y}, "How to read it", colours)}, half_w,
              entries, colours);
  const double words_x = body.x + half_w + 8;
  double y = draw_heading(canvas, {words_x, legend_y}, "In words", colours);
  y = draw_paragraph(canvas, {words_x, y}, half_w, durations_in_words(engine, cylinder), kSmall_mm,
                     colours.text) +
      1;
  y = draw_paragraph(
          canvas, {words_x, y}, half_w,
          fmt::format("Surely shut for {} of the 720.", degrees_in_words(windows->sure.total_deg())),
          kSmall_mm, colours.text) +
      1;
  draw_paragraph(
      canvas, {words_x, y}, half_w,
      fmt::format("Inner turn: power, then exhaust. Outer turn: intake, then compression. It runs {}, as the "
                  "crank does seen from the pulley end.",
                  view.engine->spec.layout.rotation == Rotation::clockwise ? "clockwise" : "anticlockwise"),
      kSmall_mm, colours.text);
}

}  // namespace shutlane
