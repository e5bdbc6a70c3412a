// The page of the lanes: the whole cycle above, what to do and how to read it below.
#include <fmt/format.h>

#include <algorithm>

#include "sim/plan/turn_words.hpp"
#include "ui/drawings/page_parts.hpp"
#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"
#include "ui/drawings/words.hpp"

namespace shutlane {

namespace {

constexpr double kStepNumber_mm = 9;  // the column of the discs
constexpr double kLegend_mm = 84;
constexpr double kLaneText_mm = 3.7;

bool listed(const std::vector<int>& list, int n) {
  return std::find(list.begin(), list.end(), n) != list.end();
}

WrenchQuestion question_of(const Engine& engine, const PageRequest& request) {
  WrenchQuestion q;
  q.from_deg = wrap_deg(*request.from_deg);
  q.plus_minus_deg = request.plus_minus_deg;
  q.accuracy_deg = request.accuracy_deg;
  for (const Cylinder& c : engine.cylinders) {
    if (listed(request.done, c.number))
      q.done.push_back(c.number);
    else if (request.only.empty() || listed(request.only, c.number))
      q.left.push_back(c.number);
  }
  return q;
}

std::vector<PlanLine> steps(const std::vector<Windows>& windows, const WrenchPlan* plan,
                            double accuracy_deg) {
  const bool always = windows.size() > 1 && one_full_turn_always(windows, accuracy_deg);
  if (plan) {
    std::vector<PlanLine> lines = plan_in_words(*plan, accuracy_deg);
    if (always && plan->turns() == 1)
      lines.push_back(
          {PlanLine::Kind::none, 0, "On this engine one full turn is right wherever the crank stands."});
    return lines;
  }
  const std::string accuracy = degrees_in_words(accuracy_deg);
  if (always)
    return {{PlanLine::Kind::none, 0,
             "Where the crank stands was not given. On this engine one full turn (to within " + accuracy +
                 ") is right wherever it stands."},
            {PlanLine::Kind::none, 0,
             "Look into every port. Blast those that are seen shut and, from what the other ports show, "
             "reckoned shut, "
             "one at a time; bungs in all others."},
            {PlanLine::Kind::none, 0,
             "Suck out, take everything out of every port, turn the crank forward one full turn. Look again "
             "and do "
             "the rest the same way."}};
  return {{PlanLine::Kind::none, 0,
           "Where the crank stands was not given, so no plan is drawn. One full turn is not right from "
           "everywhere on "
           "this engine."}};
}

/// Work where the crank stands, then a bump.
std::vector<PlanLine> bump_steps(const std::vector<Windows>& windows, const WrenchPlan& here,
                                 const WrenchQuestion& question, const PressFan& fan, double accuracy_deg) {
  std::vector<PlanLine> lines;
  std::vector<int> first;
  if (here.possible()) {
    for (const PlanLine& l : plan_in_words(here, accuracy_deg))
      if (l.kind == PlanLine::Kind::work && l.position == 0) lines.push_back(l);
    first = here.positions[0].blast;
  }
  lines.push_back(
      {PlanLine::Kind::turn, 1,
       fmt::format(
           "Suck out, take everything out of every port. Press the starter's remote switch for {} s: in "
           "nine bumps out of ten the crank goes on by {:.0f}° to {:.0f}°.",
           fan.press_s, fan.advance_p05_deg, fan.advance_p95_deg)});
  std::string after;
  for (const Windows& w : windows)
    if (listed(question.left, w.cylinder) && !listed(first, w.cylinder))
      after += fmt::format("{}port {} in {} of 100", after.empty() ? "" : ", ", w.cylinder,
                           static_cast<int>(100 * surely_shut_share(w, fan.weights) + 1e-9));
  if (!after.empty())
    lines.push_back(
        {PlanLine::Kind::none, 0, "Still to be done, and surely shut after such a bump: " + after + "."});
  lines.push_back({PlanLine::Kind::none, 0,
                   "Where one bump ends is chance: look into the ports again; what was seen before no longer "
                   "counts."});
  lines.push_back(
      {PlanLine::Kind::none, 0,
       "Never a hybrid. Fuel pump, injection and ignition disabled, out of gear, handbrake on; hands, "
       "wand and hoses clear; one person says \"clear\". A sudden stop may be liquid or an object: no second "
       "bump."});
  return lines;
}

double steps_height(Canvas& canvas, const std::vector<PlanLine>& lines, double width, double size) {
  double h = 0;
  for (const PlanLine& l : lines)
    h += kLeading * size * static_cast<double>(wrapped(canvas, l.text, width - kStepNumber_mm, size).size()) +
         0.3 * size;
  return h;
}

void draw_steps(Canvas& canvas, Box box, const std::vector<PlanLine>& lines, double size,
                const Palette& colours) {
  double y = box.y;
  for (const PlanLine& l : lines) {
    const Point centre{box.x + 0.75 * size, y + 0.5 * size * kLeading - 0.05 * size};
    if (l.kind == PlanLine::Kind::work) {
      draw_number(canvas, centre, 0.66 * size, std::to_string(l.position + 1),
                  l.position == 0 ? colours.crank : colours.position, colours.on_fill);
    } else if (l.kind == PlanLine::Kind::turn) {
      canvas.text({centre.x, y + kAscent * size}, "↓", size, colours.position, Align::centre, Weight::bold);
    } else {
      const double r = 0.2 * size;
      canvas.fill_circle(centre, r, colours.text);
    }
    y = draw_paragraph(canvas, {box.x + kStepNumber_mm, y}, box.w - kStepNumber_mm, l.text, size,
                       colours.text) +
        0.3 * size;
  }
}

std::vector<LegendEntry> legend(const PageRequest& request, const WrenchPlan* plan, const Palette& colours) {
  std::vector<LegendEntry> entries{
      sure_entry(colours, "surely shut: under every tolerance, with " + degrees_in_words(request.margin_deg) +
                              " to spare on both sides"),
      unsure_entry(colours, "not surely shut: shut only as stated"),
      open_entry(colours, "open: an intake valve is off its seat (lift)"),
      exhaust_entry(colours, "exhaust lift"),
      {[&colours](Canvas& c, Box b) {
         const double h = 0.6 * b.h, x = b.x + b.w / 2;
         c.fill_box(b, colours.shut, 0.6);
         const Point notch[] = {{x, b.bottom() - h}, {x + 0.7 * h, b.bottom()}, {x - 0.7 * h, b.bottom()}};
         c.fill(notch, colours.panel);
       },
       "firing TDC of that cylinder"}};
  if (request.from_deg)
    entries.push_back(
        {[&colours](Canvas& c, Box b) {
           const Point line[] = {{b.x, b.y + b.h / 2}, {b.right(), b.y + b.h / 2}};
           c.line(line, {colours.crank, 0.75});
           draw_number(c, {b.x + b.w / 2, b.y + b.h / 2}, 1.7, "1", colours.crank, colours.on_fill);
         },
         "where the crank stands now" + std::string(request.plus_minus_deg > 0 ? ", in its band" : "")});
  if (request.fan)
    entries.push_back(
        {[&colours](Canvas& c, Box b) {
           c.fill_box(b, colours.position_soft);
           constexpr double heights[] = {0.15, 0.5, 1.0, 0.6, 0.3, 0.1};
           for (size_t i = 0; i < std::size(heights); ++i) {
             const double w = b.w / static_cast<double>(std::size(heights)), h = heights[i] * b.h;
             c.fill_box({b.x + w * static_cast<double>(i), b.bottom() - h, w, h}, colours.position);
           }
         },
         "where the bump may leave the crank: the higher, the likelier"});
  if (plan && plan->turns() > 0)
    entries.push_back({[&colours](Canvas& c, Box b) {
                         const double y = b.y + b.h / 2;
                         draw_bracket(c, b.x, b.right(), y, 0.8 * b.h, {colours.position, 0.31}, true, true);
                         draw_number(c, {b.x + b.w / 2, y}, 1.7, "2", colours.position, colours.on_fill);
                       },
                       "the next position, and how far the turn to it may go"});
  return entries;
}

}  // namespace

void draw_lanes_page(Canvas& canvas, Box paper, const Engine& engine, const PageRequest& request) {
  const Palette& colours = palette(request.theme);
  const std::vector<Windows> windows = shut_windows(engine, request.margin_deg);
  std::optional<WrenchPlan> plan;
  if (request.from_deg) plan = plan_wrench(windows, question_of(engine, request));
  const bool bumped = plan && request.fan;
  if (bumped && plan->possible()) plan->positions.resize(1);  // what comes next is the bump
  if (plan && plan->possible()) plan = holding_together(*plan, request.accuracy_deg);  // for its brackets
  const WrenchPlan* shown = plan ? &*plan : nullptr;

  const Box body =
      draw_frame(canvas, paper, engine, colours, "When are the intake ports shut?",
                 bumped ? fmt::format("margin {}, a press of {} s", degrees_in_words(request.margin_deg),
                                      request.fan->press_s)
                        : fmt::format("margin {}, turns to within {}", degrees_in_words(request.margin_deg),
                                      degrees_in_words(request.accuracy_deg)));

  const std::vector<PlanLine> lines =
      bumped ? bump_steps(windows, *plan, question_of(engine, request), *request.fan, request.accuracy_deg)
             : steps(windows, shown, request.accuracy_deg);
  const double steps_w = body.w - kLegend_mm - 8;
  const double heading_h = 1.5 * kBody_mm;
  const double least_lanes = std::max(62.0, 5.4 * static_cast<double>(engine.cylinders.size()) + 24);
  double size = 4.8;
  while (size > 2.6 && steps_height(canvas, lines, steps_w, size) > body.h - least_lanes - heading_h - 4)
    size -= 0.2;
  constexpr double legend_h = 44;
  const double below = std::max(steps_height(canvas, lines, steps_w, size), legend_h - heading_h) + heading_h;

  const Box lanes_box{body.x, body.y, body.w, body.h - below - 4};
  canvas.text({lanes_box.right() - 1.3 * kLaneText_mm, lanes_box.y + kAscent * kSmall_mm},
              fmt::format("crank degrees from firing TDC of cylinder 1; lanes in {} order",
                          request.order == LaneOrder::firing ? "firing" : "number"),
              kSmall_mm, colours.dim_text, Align::right);
  LanesView view;
  view.engine = &engine;
  view.windows = &windows;
  view.plan = shown;
  view.order = request.order;
  if (request.from_deg) view.crank_deg = wrap_deg(*request.from_deg);
  view.plus_minus_deg = request.plus_minus_deg;
  if (bumped) view.fan_weights = request.fan->weights;
  view.theme = request.theme;
  view.text = kLaneText_mm;
  draw_lanes(canvas, {lanes_box.x, lanes_box.y + 1.2 * kSmall_mm, lanes_box.w, lanes_box.h - 1.2 * kSmall_mm},
             view);

  const double y = lanes_box.bottom() + 4;
  const double text_y = draw_heading(canvas, {body.x, y}, "What to do", colours);
  draw_steps(canvas, {body.x, text_y, steps_w, body.bottom() - text_y}, lines, size, colours);
  const double legend_x = body.right() - kLegend_mm;
  draw_legend(canvas, {legend_x, draw_heading(canvas, {legend_x, y}, "How to read it", colours)}, kLegend_mm,
              legend(request, shown, colours), colours);
}

}  // namespace shutlane
