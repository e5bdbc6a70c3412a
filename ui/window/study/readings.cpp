#include "ui/window/study/readings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ui/drawings/events.hpp"
#include "ui/window/study/texts.hpp"

namespace shutlane {

namespace {

constexpr double kMm_per_in = 25.4;

const Cylinder& cylinder_of(const Engine& engine, const Windows& windows) {
  return *engine.find(windows.cylinder);
}

double greatest(const std::vector<double>& lifts_mm) {
  return lifts_mm.empty() ? 0 : *std::max_element(lifts_mm.begin(), lifts_mm.end());
}

/// One number when all valves of the kind stand alike, otherwise each.
std::string lifts_in_words(const std::vector<double>& lifts_mm, Measures measures) {
  if (greatest(lifts_mm) == 0) return texts::on_the_seat();
  const bool alike =
      std::all_of(lifts_mm.begin(), lifts_mm.end(), [&](double l) { return l == lifts_mm[0]; });
  if (alike) return texts::off_the_seat(length_in(lifts_mm[0], measures));
  std::string all;
  for (const double l : lifts_mm) all += (all.empty() ? "" : ", ") + length_in(l, measures);
  return texts::off_the_seat(all);
}

}  // namespace

std::string overlap_in_words(const Engine& engine, const Cylinder& c) {
  double opens_deg = kCycle_deg, closes_deg = 0;
  for (const size_t i : c.intake) opens_deg = std::min(opens_deg, engine.trains[i].profile.seat_opens_deg());
  for (const size_t i : c.exhaust)
    closes_deg = std::max(closes_deg, engine.trains[i].profile.seat_closes_deg());
  if (closes_deg <= opens_deg) return texts::no_overlap();
  return texts::overlap(angle_in(closes_deg - opens_deg), angle_in(kTurn_deg - opens_deg),
                        angle_in(closes_deg - kTurn_deg));
}

std::string on_this_engine(const Engine& engine, const Cylinder& c, const std::string& term,
                           Measures measures) {
  if (term == "overlap") return overlap_in_words(engine, c);
  std::string said;
  for (const ValveEvent& e : valve_events(engine, c)) {
    const bool first = said.empty();
    if (event_name(c, e, false) == term)
      said += (first ? "" : ", ") + event_angle(e, e.seat_deg);
    else if (term == "duration" && e.opens)
      said += (first ? "" : ", ") + std::string(e.kind == ValveKind::intake ? "intake " : "exhaust ") +
              angle_in(engine.trains[e.train].profile.seat_span_deg());
    else if (term == "lift" && e.opens)
      said += (first ? "" : ", ") + std::string(e.kind == ValveKind::intake ? "intake " : "exhaust ") +
              length_in(engine.trains[e.train].profile.peak_lift_mm(), measures);
  }
  return said.empty() ? "" : texts::here_is(said);
}

std::string length_in(double mm, Measures measures) {
  const bool small = mm > 0 && mm < 0.95;  // a valve that has just left its seat is not "0.0 mm" open
  return measures == Measures::metric
             ? fmt::format("{:.{}f} mm", small ? std::max(mm, 0.01) : mm, small ? 2 : 1)
             : fmt::format("{:.3f} in", mm / kMm_per_in);
}

std::string angle_in(double deg) {
  const double tenths = std::round(deg * 10) / 10 + 0.0;
  return tenths == std::round(tenths) ? fmt::format("{:.0f}°", tenths) : fmt::format("{:.1f}°", tenths);
}

Stroke4 stroke_at(double local_deg) {
  return static_cast<Stroke4>(std::clamp(static_cast<int>(wrap_deg(local_deg) / 180), 0, 3));
}

std::string port_in_words(const Windows& windows, double crank_deg) {
  switch (shut_state(windows, crank_deg)) {
    case ShutState::surely_shut: {
      if (windows.sure.full()) return texts::surely_shut();
      const Arc arc = windows.sure.arc_at(wrap_deg(crank_deg));
      const double left_deg = arc.length_deg - std::max(0.0, forward_or_same_deg(arc.from_deg, crank_deg));
      return texts::surely_shut_for(angle_in(std::floor(std::max(0.0, left_deg) * 10 + 1e-6) / 10));
    }
    case ShutState::not_surely_shut:
      return texts::not_surely_shut();
    case ShutState::open:
      break;
  }
  return texts::open();
}

std::vector<Reading> readings(const Engine& engine, const Windows& windows, double crank_deg,
                              Measures measures) {
  const Cylinder& c = cylinder_of(engine, windows);
  const double local_deg = c.local_deg(crank_deg);
  return {
      {texts::reading_port(), port_in_words(windows, crank_deg)},
      {texts::reading_stroke(), texts::stroke(stroke_at(local_deg), angle_in(local_deg))},
      {texts::reading_intake(), lifts_in_words(lifts_mm(engine, c, ValveKind::intake, crank_deg), measures)},
      {texts::reading_exhaust(),
       lifts_in_words(lifts_mm(engine, c, ValveKind::exhaust, crank_deg), measures)},
      {texts::reading_piston(),
       texts::below_top(length_in(c.crank.at_local(local_deg).below_top_mm, measures))},
  };
}

std::string happening(const Engine& engine, const Windows& windows, double crank_deg) {
  const Cylinder& c = cylinder_of(engine, windows);
  const bool intake_open = greatest(lifts_mm(engine, c, ValveKind::intake, crank_deg)) > 0;
  const bool exhaust_open = greatest(lifts_mm(engine, c, ValveKind::exhaust, crank_deg)) > 0;
  if (intake_open && exhaust_open)
    return overlap_in_words(engine, c) + " " + texts::meaning(shut_state(windows, crank_deg));
  return texts::happening(stroke_at(c.local_deg(crank_deg)), intake_open, exhaust_open) + " " +
         texts::meaning(shut_state(windows, crank_deg));
}

std::string in_words(const std::vector<CrankEvent>& events) {
  std::vector<std::string> all;
  for (const CrankEvent& e : events) {
    std::string one = texts::crank_event(e.kind, e.cylinder);
    if (std::find(all.begin(), all.end(), one) == all.end()) all.push_back(std::move(one));
  }
  if (all.empty()) return {};
  return all.size() == 1 ? all[0] : texts::and_others(all[0], static_cast<int>(all.size()) - 1);
}

std::string events_round(const std::vector<CrankEvent>& events, double crank_deg) {
  if (events.empty()) return {};
  const auto far_deg = [&](const std::vector<CrankEvent>& there, Way way) {
    return way == Way::forward ? forward_deg(crank_deg, there[0].at_deg)
                               : forward_deg(there[0].at_deg, crank_deg);
  };
  std::vector<CrankEvent> here;
  for (const CrankEvent& e : events)
    if (std::fabs(std::remainder(e.at_deg - crank_deg, kCycle_deg)) <= kSame_deg) here.push_back(e);
  const auto next = next_events(events, crank_deg, Way::forward);
  const std::string ahead = texts::event_ahead(in_words(next), angle_in(far_deg(next, Way::forward)));
  if (!here.empty()) return texts::event_here(in_words(here)) + " " + ahead;
  const auto last = next_events(events, crank_deg, Way::back);
  return texts::event_behind(in_words(last), angle_in(far_deg(last, Way::back))) + " " + ahead;
}

}  // namespace shutlane
