#include "sim/shut/windows.hpp"

#include <cmath>

namespace shutlane {

namespace {

/// The union of an opening (local angles, unwrapped) for every intake valve of the cylinder.
template <typename Opening>
ArcSet united_openings(const Engine& engine, const Cylinder& cylinder, Opening opening) {
  std::vector<Arc> arcs;
  arcs.reserve(cylinder.intake.size());
  for (const size_t i : cylinder.intake) {
    const auto [from_deg, to_deg] = opening(engine.trains[i]);
    if (to_deg - from_deg >= kSame_deg)
      arcs.push_back({cylinder.firing_tdc_deg + from_deg, to_deg - from_deg});
  }
  return ArcSet(std::move(arcs));
}

struct Span {
  double from_deg, to_deg;
};

}  // namespace

ArcSet nominally_shut(const Engine& engine, const Cylinder& cylinder) {
  return united_openings(engine, cylinder,
                         [](const ValveTrain& t) {
                           return Span{t.profile.seat_opens_deg(), t.profile.seat_closes_deg()};
                         })
      .complement();
}

ArcSet shut_within_tolerance(const Engine& engine, const Cylinder& cylinder) {
  // Each valve may be off its seat from its earliest opening to its latest closing; the tolerances of
  // different valves are independent, so the port's worst case is the union.
  return united_openings(engine, cylinder,
                         [](const ValveTrain& t) {
                           return Span{t.opens_earliest_deg(), t.closes_latest_deg()};
                         })
      .complement();
}

ArcSet surely_above(const Engine& engine, const Cylinder& cylinder, double lift_mm) {
  // The flank that passes lift_mm moves with its seat event; the seat tolerance only moves it outwards, so
  // the latest rise and the earliest fall have none of it.
  return united_openings(engine, cylinder, [&](const ValveTrain& t) {
    const auto reach = t.profile.reach(lift_mm);
    if (!std::isfinite(reach.after_opening_deg)) return Span{0, 0};
    return Span{t.opens_latest_deg() + reach.after_opening_deg,
                t.closes_earliest_deg() - reach.before_closing_deg};
  });
}

std::vector<Windows> shut_windows(const Engine& engine, double margin_deg) {
  std::vector<Windows> all;
  all.reserve(engine.cylinders.size());
  for (const Cylinder& cylinder : engine.cylinders) {
    Windows w;
    w.cylinder = cylinder.number;
    w.shut = nominally_shut(engine, cylinder);
    w.within_tolerance = shut_within_tolerance(engine, cylinder);
    w.sure = w.within_tolerance.shrunk(margin_deg);
    all.push_back(std::move(w));
  }
  return all;
}

ShutState shut_state(const Windows& windows, double crank_deg) {
  if (windows.sure.contains(crank_deg)) return ShutState::surely_shut;
  return windows.shut.contains(crank_deg) ? ShutState::not_surely_shut : ShutState::open;
}

double surely_shut_share(const Windows& windows, const std::vector<double>& weight_per_degree) {
  double share = 0;
  for (size_t i = 0; i < weight_per_degree.size(); ++i)
    if (weight_per_degree[i] > 0 && windows.sure.covers(Arc{double(i), 1.0})) share += weight_per_degree[i];
  return share;
}

}  // namespace shutlane
