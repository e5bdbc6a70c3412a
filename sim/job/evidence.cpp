#include "sim/job/evidence.hpp"

#include <algorithm>

namespace shutlane {
namespace {

const ArcSet& left_by(const PortArcs& port, Saw saw) {
  static const ArcSet kAll = ArcSet::all();
  switch (saw) {
    case Saw::shut:
      return port.if_seen_shut;
    case Saw::open:
      return port.if_seen_open;
    case Saw::touching:
      return port.if_touching;
    case Saw::hidden:
      break;
  }
  return kAll;
}

/// The set narrowed by every look at this position but that into port `left_out`.
ArcSet narrowed(const JobModel& model, const JobState& state, ArcSet where, size_t left_out) {
  for (size_t i = 0; i < state.ports.size(); ++i)
    if (i != left_out && state.ports[i].seen && state.ports[i].seen != Saw::touching)
      where = where.intersected(left_by(model.ports[i], *state.ports[i].seen));
  // "Just touching" is a matter of opinion: it says where the crank stands, but never that others misled.
  for (size_t i = 0; i < state.ports.size(); ++i) {
    if (i == left_out || state.ports[i].seen != Saw::touching) continue;
    const ArcSet fewer = where.intersected(left_by(model.ports[i], Saw::touching));
    if (!fewer.empty()) where = fewer;
  }
  return where;
}

ArcSet everything_said(const JobModel& model, const JobState& state) {
  return narrowed(model, state, state.reckoned, state.ports.size());
}

ArcSet without_own_looks(const JobModel& model, const JobState& state, size_t port) {
  return narrowed(model, state, state.reckoned_without[port], port);
}

Reckoned reckon(const PortArcs& port, const ArcSet& where) {
  if (where.empty()) return Reckoned::unknown;
  if (port.windows.sure.covers(where)) return Reckoned::shut;
  // Open under every tolerance is more than not surely shut; a port open in one corner only is unknown.
  if (where.intersected(port.windows.within_tolerance).empty()) return Reckoned::open;
  return Reckoned::unknown;
}

/// The expected length of `where` after a look, each angle equally likely, the answer the nominal one.
double expected_deg(const PortArcs& port, const ArcSet& where) {
  const double whole_deg = where.total_deg();
  const double shut_deg = where.intersected(port.windows.shut).total_deg();
  return (shut_deg * where.intersected(port.if_seen_shut).total_deg() +
          (whole_deg - shut_deg) * where.intersected(port.if_seen_open).total_deg()) /
         whole_deg;
}

}  // namespace

Whereabouts whereabouts(const JobModel& model, const JobState& state) {
  Whereabouts found{everything_said(model, state), {}};
  for (size_t i = 0; i < state.ports.size(); ++i) found.without.push_back(without_own_looks(model, state, i));
  return found;
}

Weighed weigh(const JobModel& model, const JobState& state) {
  Weighed evidence;
  Whereabouts found = whereabouts(model, state);
  for (size_t i = 0; i < state.ports.size(); ++i)
    evidence.ports.push_back(reckon(model.ports[i], found.without[i]));
  evidence.where = std::move(found.where);
  if (evidence.where.empty()) return evidence;

  double best_deg = evidence.where.total_deg() - kSame_deg;
  for (size_t i = 0; i < state.ports.size(); ++i) {
    if (state.ports[i].seen || !state.ports[i].reachable) continue;
    const double expected = expected_deg(model.ports[i], evidence.where);
    if (expected >= best_deg - kSame_deg) continue;
    best_deg = expected;
    evidence.next_look = state.ports[i].cylinder;
  }
  return evidence;
}

bool looking_helps(const JobModel& model, const JobState& state, const Weighed& weighed) {
  constexpr double kWorthALook = 0.2;
  constexpr size_t kCell = 30;  // bins: fifteen degrees
  if (weighed.contradiction() || state.doubt.belief() == nullptr) return false;
  const std::vector<double> angles = state.doubt.belief()->angles();
  for (size_t i = 0; i < state.ports.size(); ++i) {
    const JobPort& port = state.ports[i];
    if (!port.left() || weighed.ports[i] != Reckoned::unknown || (port.seen && port.seen != Saw::shut))
      continue;
    const ArcSet before = without_own_looks(model, state, i);
    double chance = 0;
    for (size_t from = 0; from < kBeliefBins; from += kCell) {
      double mass = 0;
      for (size_t bin = from; bin < from + kCell; ++bin) mass += angles[bin];
      const double at_deg = static_cast<double>(from + kCell / 2) * kBeliefStep_deg;
      if (mass < 1e-3 || !model.ports[i].windows.sure.contains(at_deg)) continue;
      ArcSet where = before;
      for (size_t other = 0; other < state.ports.size(); ++other)
        if (other != i && !state.ports[other].seen && state.ports[other].reachable) {
          const PortArcs& p = model.ports[other];
          where = where.intersected(p.windows.shut.contains(at_deg) ? p.if_seen_shut : p.if_seen_open);
        }
      if (!where.empty() && model.ports[i].windows.sure.covers(where)) chance += mass;
    }
    if (chance >= kWorthALook) return true;
  }
  return false;
}

bool witnesses_agree(const JobModel& model, const JobState& state, int cylinder) {
  const size_t i = model.index_of(cylinder);
  if (i == model.ports.size() || state.blasting || state.looks_due()) return false;
  const JobPort& port = state.ports[i];
  if (!port.left() || port.seen != Saw::shut) return false;
  if (everything_said(model, state).empty()) return false;
  return reckon(model.ports[i], without_own_looks(model, state, i)) == Reckoned::shut;
}

bool few_ports(const JobModel& model) { return model.ports.size() <= 5; }

double limit_of_doubt(const JobModel& model) {
  // Looks at so few ports cannot be surer than that from one position, and without lobes not even that: with
  // less, whole jobs took dozens of moves or never ended (tests/job/whole_jobs_test).
  if (!few_ports(model)) return model.rules.most_open;
  if (!model.rules.lobes_visible) return 1;
  return std::max(model.ports.size() <= 3 ? 3e-3 : 1e-3, model.rules.most_open);
}

bool may_blast(const JobModel& model, const JobState& state, int cylinder) {
  if (!witnesses_agree(model, state, cylinder)) return false;
  const double most_open = limit_of_doubt(model);
  return most_open >= 1 || state.doubt.chance_open(cylinder) < most_open;
}

}  // namespace shutlane
