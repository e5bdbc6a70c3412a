#include "ui/window/study/timeline.hpp"

#include <algorithm>
#include <cmath>

namespace shutlane {

namespace {

TimelineRange from_and_span(double from_deg, double span_deg) {
  const double from = wrap_deg(from_deg);
  return {from, from + span_deg};
}

constexpr double kZoomPerNotch = 0.85;
constexpr double kPanPerNotch = 0.12;  // of the span

}  // namespace

TimelineRange zoomed(TimelineRange range, double part, double factor) {
  const double span_deg = std::clamp(range.span_deg() * factor, kNarrowest_deg, kCycle_deg);
  const double kept_deg = range.from_deg + part * range.span_deg();
  return from_and_span(kept_deg - part * span_deg, span_deg);
}

TimelineRange panned(TimelineRange range, double by_deg) {
  return from_and_span(range.from_deg + by_deg, range.span_deg());
}

TimelineRange holding(TimelineRange range, double after_start_deg) {
  const double span_deg = range.span_deg();
  if (span_deg >= kCycle_deg) return range;
  const double inside_deg = forward_deg(range.from_deg, after_start_deg);
  if (inside_deg <= span_deg) return range;
  const double border_deg = 0.1 * span_deg;
  // Beyond the right end, or before the left one: whichever is nearer.
  const double past_deg = inside_deg - span_deg, before_deg = kCycle_deg - inside_deg;
  return past_deg <= before_deg ? panned(range, past_deg + border_deg)
                                : panned(range, -before_deg - border_deg);
}

std::vector<CrankEvent> crank_events(const Engine& engine, const std::vector<Windows>& windows) {
  std::vector<CrankEvent> events;
  for (const Cylinder& c : engine.cylinders) {
    auto add = [&](double local_deg, CrankEventKind kind) {
      events.push_back({wrap_deg(c.firing_tdc_deg + local_deg), c.number, kind});
    };
    for (const size_t i : c.intake) {
      add(engine.trains[i].profile.seat_opens_deg(), CrankEventKind::intake_opens);
      add(engine.trains[i].profile.seat_closes_deg(), CrankEventKind::intake_closes);
    }
    for (const size_t i : c.exhaust) {
      add(engine.trains[i].profile.seat_opens_deg(), CrankEventKind::exhaust_opens);
      add(engine.trains[i].profile.seat_closes_deg(), CrankEventKind::exhaust_closes);
    }
  }
  for (const Windows& w : windows) {
    if (w.sure.full()) continue;
    for (const Arc& arc : w.sure.arcs()) {
      events.push_back({wrap_deg(arc.from_deg), w.cylinder, CrankEventKind::surely_shut_from});
      events.push_back({wrap_deg(arc.to_deg()), w.cylinder, CrankEventKind::surely_shut_to});
    }
  }
  std::stable_sort(events.begin(), events.end(),
                   [](const CrankEvent& a, const CrankEvent& b) { return a.at_deg < b.at_deg; });
  return events;
}

namespace {
/// How far it is from `from_deg` that way, (kSame, 720 + kSame]: what lies at the same place comes last.
double on_deg(double from_deg, double at_deg, Way way) {
  const double d = way == Way::forward ? forward_deg(from_deg, at_deg) : forward_deg(at_deg, from_deg);
  return d <= kSame_deg ? d + kCycle_deg : d;
}
}  // namespace

std::vector<CrankEvent> next_events(const std::vector<CrankEvent>& events, double from_deg, Way way) {
  double nearest_deg = 2 * kCycle_deg;
  for (const CrankEvent& e : events) nearest_deg = std::min(nearest_deg, on_deg(from_deg, e.at_deg, way));
  std::vector<CrankEvent> there;
  for (const CrankEvent& e : events)
    if (std::fabs(on_deg(from_deg, e.at_deg, way) - nearest_deg) <= kSame_deg) there.push_back(e);
  return there;
}

const Position* next_position(const WrenchPlan& plan, double from_deg, Way way) {
  const Position* found = nullptr;
  for (const Position& p : plan.positions)
    if (!found || on_deg(from_deg, p.at_deg, way) < on_deg(from_deg, found->at_deg, way)) found = &p;
  return found;
}

std::optional<double> follow(TimelineState& state, const LanesGeometry& geometry,
                             const TimelinePointer& pointer) {
  using Grip = TimelineState::Grip;
  const Box& plot = geometry.plot;
  if (plot.w <= 0) return std::nullopt;
  const double deg_per_unit = state.range.span_deg() / plot.w;
  const bool inside = pointer.over && pointer.at.x >= plot.x && pointer.at.x <= plot.right() &&
                      pointer.at.y >= plot.y && pointer.at.y <= plot.bottom();

  const bool held = pointer.left || pointer.pan;
  if (!held) state.grip = Grip::none;
  if (held && state.grip == Grip::none && inside) {
    state.grip = pointer.pan ? Grip::range : Grip::needle;
    state.grip_x = pointer.at.x;
  }
  state.hover_deg.reset();
  state.hover_cylinder.reset();
  if (inside && state.grip == Grip::none) {
    state.hover_deg = geometry.crank_deg_at(pointer.at.x);
    state.hover_cylinder = geometry.cylinder_at(pointer.at.y);
  }

  if (state.grip == Grip::range) {
    state.range = panned(state.range, (state.grip_x - pointer.at.x) * deg_per_unit);
    state.grip_x = pointer.at.x;
  } else if (inside && pointer.wheel != 0) {
    state.range =
        zoomed(state.range, (pointer.at.x - plot.x) / plot.w, std::pow(kZoomPerNotch, pointer.wheel));
  } else if (inside && pointer.wheel_sideways != 0) {
    state.range = panned(state.range, pointer.wheel_sideways * kPanPerNotch * state.range.span_deg());
  }
  if (state.grip != Grip::needle) return std::nullopt;
  // Dragged past an end the needle waits there.
  return geometry.crank_deg_at(std::clamp(pointer.at.x, plot.x, plot.right()));
}

double run_on(double needle_deg, const TimelineState& state, double seconds) {
  return wrap_deg(needle_deg + seconds * kRunSpeeds_rpm[state.speed] * kDegPerSecondPerRpm);
}

}  // namespace shutlane
