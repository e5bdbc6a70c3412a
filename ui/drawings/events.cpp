#include "ui/drawings/events.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "ui/drawings/words.hpp"

namespace shutlane {

namespace {

const char* reference_name(const ValveEvent& e) {
  return e.reference_deg() == kTurn_deg ? "overlap TDC" : "BDC";
}

// Rounded as degrees_in_words rounds, so that the word before or after fits the number shown.
double shown(double deg) { return std::round(deg * 2) / 2; }

}  // namespace

double ValveEvent::reference_deg() const {
  if (kind == ValveKind::intake) return opens ? 360 : 540;
  return opens ? 180 : 360;
}

std::vector<ValveEvent> valve_events(const Engine& engine, const Cylinder& cylinder) {
  std::vector<ValveEvent> events;
  for (const std::vector<size_t>* trains : {&cylinder.intake, &cylinder.exhaust})
    for (const size_t t : *trains) {
      const ValveTrain& train = engine.trains[t];
      const ValveSpec& spec = engine.spec.valves[t];
      ValveEvent e;
      e.kind = train.kind;
      e.train = t;
      e.stated_at_mm = spec.at_lift_mm.value_or(kUnknownAtLift_mm);
      const bool stated = spec.lift_table.empty();

      e.opens = true;
      e.seat_deg = train.profile.seat_opens_deg();
      e.earliest_deg = train.opens_earliest_deg();
      e.latest_deg = train.opens_latest_deg();
      if (stated) e.stated_deg = e.reference_deg() - spec.opens_deg;
      events.push_back(e);

      e.opens = false;
      e.seat_deg = train.profile.seat_closes_deg();
      e.earliest_deg = train.closes_earliest_deg();
      e.latest_deg = train.closes_latest_deg();
      if (stated) e.stated_deg = e.reference_deg() + spec.closes_deg;
      events.push_back(e);
    }
  return events;
}

std::string event_name(const Cylinder& cylinder, const ValveEvent& event, bool which) {
  std::string name = event.kind == ValveKind::intake ? "intake" : "exhaust";
  const std::vector<size_t>& trains = event.kind == ValveKind::intake ? cylinder.intake : cylinder.exhaust;
  if (which && trains.size() > 1)
    for (size_t i = 0; i < trains.size(); ++i)
      if (trains[i] == event.train)
        name += std::string(" ") + static_cast<char>('a' + static_cast<int>(i % 26));
  return name + (event.opens ? " opens" : " closes");
}

std::string event_angle(const ValveEvent& event, double local_deg) {
  const double d = shown(local_deg - event.reference_deg());
  if (d == 0) return std::string("at ") + reference_name(event);
  return degrees_in_words(std::abs(d)) + (d < 0 ? " before " : " after ") + reference_name(event);
}

std::string event_angles(std::span<const ValveEvent> events) {
  std::vector<double> after_deg;
  for (const ValveEvent& e : events) after_deg.push_back(shown(e.seat_deg - e.reference_deg()));
  if (std::all_of(after_deg.begin(), after_deg.end(), [&](double d) { return d == after_deg[0]; }))
    return event_angle(events[0], events[0].seat_deg);
  std::string all;
  for (size_t i = 0; i < after_deg.size(); ++i) {
    const double d = after_deg[i];
    // The word stands once where it holds for the next one too.
    const bool said_later =
        i + 1 < after_deg.size() && (after_deg[i + 1] < 0) == (d < 0) && after_deg[i + 1] != 0;
    all += (i ? ", " : "") + std::string(1, static_cast<char>('a' + static_cast<int>(i % 26))) + " " +
           degrees_in_words(std::abs(d)) +
           (said_later || d == 0 ? ""
            : d < 0              ? " before"
                                 : " after");
  }
  return all + (after_deg.back() == 0 ? " at " : " ") + reference_name(events[0]);
}

std::string event_span(const ValveEvent& event) {
  const double a = shown(event.earliest_deg - event.reference_deg());
  const double b = shown(event.latest_deg - event.reference_deg());
  if (a == b) return event_angle(event, event.earliest_deg);
  const std::string first = degrees_in_words(std::abs(a)), second = degrees_in_words(std::abs(b));
  const std::string name = reference_name(event);
  if (b <= 0) return first + " to " + second + " before " + name;
  if (a >= 0) return first + " to " + second + " after " + name;
  return first + " before to " + second + " after " + name;
}

}  // namespace shutlane
