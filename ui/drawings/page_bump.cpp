// The page of one bump over time.
#include <fmt/format.h>

#include <cmath>

#include "ui/drawings/bump_curves.hpp"
#include "ui/drawings/page_parts.hpp"
#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"
#include "ui/drawings/words.hpp"

namespace shutlane {

namespace {

/// "Of 100 such bumps 70 rest 122 to 146 degrees on, 28 rest 240 to 261 degrees on."
std::string rests_in_words(const std::vector<Heap>& rests) {
  std::string text;
  for (const Heap& heap : rests)
    text += fmt::format("{}{} rest {:.0f} to {}", text.empty() ? " Of 100 such bumps " : ", ",
                        std::round(100 * heap.share), std::round(heap.from_deg),
                        degrees_in_words(std::round(heap.to_deg)) + " on");
  return text.empty() ? text : text + ".";
}

std::string course_in_words(const BumpRecord& r) {
  if (r.drive_to_s <= r.drive_from_s)
    return fmt::format("{:.2f} s is too short: the starter lets go before it takes hold.", r.press_s);
  const double on = std::round(r.advance_deg());
  const std::string rests =
      on == 0 ? "where it started" : degrees_in_words(std::abs(on)) + (on > 0 ? " on" : " back");
  std::string text = fmt::format(
      "The circuit is closed for {:.2f} s. The starter takes hold {:.2f} s after the press begins and lets "
      "go at "
      "{:.2f} s. The crank comes to rest {} after {:.1f} s",
      r.press_s, r.drive_from_s, r.drive_to_s, rests, r.rests_s);
  if (r.rolled_back_deg >= 1)
    text += fmt::format(", having rolled back {}", degrees_in_words(std::round(r.rolled_back_deg)));
  return text +
         ". This is reckoned for the car just as its file states it. Press, starter, friction and leaks "
         "differ a little "
         "each time, so that the next bump may end a compression earlier or later.";
}

LegendEntry line_entry(Stroke stroke, const std::string& words) {
  return {[stroke](Canvas& c, Box b) {
            const Point line[] = {{b.x, b.y + b.h / 2}, {b.right(), b.y + b.h / 2}};
            c.line(line, stroke);
          },
          words};
}

}  // namespace

void draw_bump_page(Canvas& canvas, Box paper, const Engine& engine, const PageRequest& request) {
  const Palette& colours = palette(request.theme);
  const BumpCourse& bump = *request.bump;
  const Box body = draw_frame(
      canvas, paper, engine, colours, fmt::format("One bump, pressed {:.2f} s", bump.record.press_s),
      fmt::format("crank at {} from firing TDC of cylinder 1", degrees_in_words(bump.record.from_deg)));
  std::vector<LegendEntry> entries{
      {[&colours](Canvas& c, Box b) { c.fill_box(b, colours.crank_soft); },
       "the starter's circuit is closed"},
      {[&colours](Canvas& c, Box b) {
         c.fill_box(b, colours.open_soft);
         hatch_box(c, b, Hatch::rising, 1.1, {colours.open, 0.17}, b);
       },
       "the crank rolls back"},
      line_entry({colours.exhaust, 0.17, 1.2}, "a cylinder passes its firing TDC"),
      line_entry({colours.position, 0.7}, "where this bump comes to rest"),
      request.cylinder
          ? line_entry({colours.text, 0.55},
                       fmt::format("pressure of cylinder {}; the others thin, numbered at their peaks",
                                   *request.cylinder))
          : line_entry({colours.text, 0.34}, "pressure of each cylinder, numbered at its peaks")};
  if (!bump.rests.empty())
    entries.push_back({[&colours](Canvas& c, Box b) {
                         hatch_box(c, b, Hatch::falling, 1.1, {colours.position, 0.17}, b);
                         c.stroke_box(b, {colours.position, 0.3});
                       },
                       "where most bumps of this press rest"});
  constexpr double legend_w = 96, gap = 8;
  const double words_w = body.w - legend_w - gap;
  const std::string words = course_in_words(bump.record) + rests_in_words(bump.rests);
  const double words_h =
      kLeading * kBody_mm * static_cast<double>(wrapped(canvas, words, words_w, kBody_mm).size()) +
      2 * kBody_mm;
  const double legend_h = 1.5 * kBody_mm + 5.0 * static_cast<double>(entries.size()) + 2 * kSmall_mm;
  const double below = std::max(words_h, legend_h);

  BumpCurvesView view;
  view.record = &bump.record;
  view.model = &bump.model;
  for (const Cylinder& c : engine.cylinders) view.cylinders.push_back(c.number);
  view.cylinder = request.cylinder;
  view.rests = bump.rests;
  view.theme = request.theme;
  view.text = 3.6;
  draw_bump_curves(canvas, {body.x, body.y, body.w, body.h - below - 4}, view);

  const double y = body.bottom() - below;
  draw_paragraph(canvas, {body.x, draw_heading(canvas, {body.x, y}, "What happens", colours)}, words_w, words,
                 kBody_mm, colours.text);
  const double legend_x = body.right() - legend_w;
  draw_legend(canvas, {legend_x, draw_heading(canvas, {legend_x, y}, "How to read it", colours)}, legend_w,
              entries, colours);
}

}  // namespace shutlane
