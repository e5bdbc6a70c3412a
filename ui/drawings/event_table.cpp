#include "ui/drawings/event_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ui/drawings/text.hpp"
#include "ui/drawings/words.hpp"

namespace shutlane {

namespace {

std::string stated_in_words(const Engine& engine, const ValveEvent& e) {
  if (!e.stated_deg) return "by a lift table";
  const bool known = engine.spec.valves[e.train].at_lift_mm.has_value();
  const std::string at = e.stated_at_mm == 0
                             ? "at the seat"
                             : fmt::format("{} {:.4g} mm", known ? "at" : "assumed", e.stated_at_mm);
  return event_angle(e, *e.stated_deg) + ", " + at;
}

}  // namespace

double draw_event_table(Canvas& canvas, Point top_left, double width, const Engine& engine,
                        const Cylinder& cylinder, const Palette& colours, double size) {
  const double columns[] = {0, 0.17 * width, 0.48 * width, 0.71 * width, width};
  double y = top_left.y;
  const auto cell = [&](size_t column, const std::string& words, Colour colour, Weight weight) {
    const double room = columns[column + 1] - columns[column] - 0.8 * size;
    canvas.text({top_left.x + columns[column], y + kAscent * size}, fitted(canvas, words, room, size, weight),
                size, colour, Align::left, weight);
  };
  cell(1, "as stated", colours.dim_text, Weight::regular);
  cell(2, "leaves or meets its seat", colours.dim_text, Weight::regular);
  cell(3, "under every tolerance", colours.dim_text, Weight::regular);
  y += 1.35 * size;
  for (const ValveEvent& e : valve_events(engine, cylinder)) {
    const Point rule[] = {{top_left.x, y - 0.1 * size}, {top_left.x + width, y - 0.1 * size}};
    canvas.line(rule, {colours.grid, 0.06 * size});
    cell(0, event_name(cylinder, e), colours.text, Weight::bold);
    cell(1, stated_in_words(engine, e), colours.text, Weight::regular);
    cell(2, event_angle(e, e.seat_deg), colours.text, Weight::regular);
    cell(3, event_span(e), colours.text, Weight::regular);
    y += 1.4 * size;
  }
  return y;
}

std::string durations_in_words(const Engine& engine, const Cylinder& cylinder) {
  std::string text;
  double exhaust_closes = -1e9;
  for (const std::vector<size_t>* trains : {&cylinder.intake, &cylinder.exhaust}) {
    const bool intake = trains == &cylinder.intake;
    std::string spans;
    for (const size_t t : *trains) {
      const LiftProfile& lift = engine.trains[t].profile;
      spans += (spans.empty() ? "" : " and ") + degrees_in_words(lift.seat_span_deg());
      if (!intake) exhaust_closes = std::max(exhaust_closes, lift.seat_closes_deg());
    }
    if (spans.empty()) continue;
    text += (intake ? "Intake open for " : "Exhaust open for ") + spans + ", seat to seat. ";
  }
  if (cylinder.exhaust.empty() || cylinder.intake.empty()) return text;
  // Staggered intake valves each for itself, by the letters of the table.
  std::string both, apart;
  for (size_t i = 0; i < cylinder.intake.size(); ++i) {
    const double deg = exhaust_closes - engine.trains[cylinder.intake[i]].profile.seat_opens_deg();
    if (std::abs(deg) >= kCycle_deg) continue;
    std::string& said = deg > 0 ? both : apart;
    if (!said.empty()) said += ", ";
    if (cylinder.intake.size() > 1) said += std::string(1, static_cast<char>('a' + i)) + " ";
    said += degrees_in_words(std::abs(deg));
  }
  if (!both.empty()) text += "Both open round overlap TDC for " + both + ". ";
  if (!apart.empty()) text += "Never both open: " + apart + " between them. ";
  if (text.ends_with(' ')) text.pop_back();
  return text;
}

}  // namespace shutlane
