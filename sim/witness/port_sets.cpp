#include "sim/witness/port_sets.hpp"

namespace shutlane {

std::vector<PortSets> port_sets(const Engine& engine, double eye_mm, double margin_deg) {
  std::vector<PortSets> all;
  for (const Cylinder& c : engine.cylinders) {
    const ArcSet tolerant = shut_within_tolerance(engine, c);
    const ArcSet if_shut = surely_above(engine, c, eye_mm).complement(), if_open = tolerant.complement();
    all.push_back({c.number, if_shut, if_open, nominally_shut(engine, c), tolerant,
                   tolerant.shrunk(margin_deg), if_shut.intersected(if_open)});
  }
  return all;
}

const PortSets* sets_of(const std::vector<PortSets>& ports, int cylinder) {
  for (const PortSets& p : ports)
    if (p.cylinder == cylinder) return &p;
  return nullptr;
}

Reckoned reckon(const PortSets& port, const ArcSet& where) {
  if (where.empty()) return Reckoned::unknown;
  if (port.sure.covers(where)) return Reckoned::shut;
  // Open under every tolerance is more than not surely shut; a port open in one corner only is unknown.
  if (where.intersected(port.tolerant).empty()) return Reckoned::open;
  return Reckoned::unknown;
}

ArcSet mark_arcs(const MarkRead& mark) {
  const Arc first{mark.at_deg - mark.plus_minus_deg, 2 * mark.plus_minus_deg};
  return ArcSet({first, {first.from_deg + kTurn_deg, first.length_deg}});
}

ArcSet lobe_arcs(const Engine& engine, const LobeSeen& lobe) {
  if (lobe.points == Lobe::unclear || lobe.points == Lobe::hidden) return ArcSet::all();
  return lobe_seen_at(engine, lobe.cylinder, ValveKind::intake, lobe.points == Lobe::away ? 180 : 0,
                      kLobeRead_deg);
}

ArcSet lobe_seen_at(const Engine& engine, int cylinder, ValveKind kind, double past_valve_deg,
                    double plus_minus_deg) {
  const Cylinder* c = engine.find(cylinder);
  if (c == nullptr) return ArcSet::all();
  std::vector<Arc> arcs;
  for (const size_t i : kind == ValveKind::intake ? c->intake : c->exhaust) {
    const ValveTrain& train = engine.trains[i];
    const double at_deg = c->firing_tdc_deg + train.profile.peak_deg() + 2 * past_valve_deg;
    const double from_deg = at_deg - train.phase_last_deg - train.timing_deg - 2 * plus_minus_deg;
    const double to_deg = at_deg - train.phase_first_deg + train.timing_deg + 2 * plus_minus_deg;
    arcs.push_back({from_deg, to_deg - from_deg});
  }
  return arcs.empty() ? ArcSet::all() : ArcSet(std::move(arcs));
}

}  // namespace shutlane
