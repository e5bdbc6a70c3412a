#include "sim/job/evidence.hpp"

#include <algorithm>

namespace shutlane {
namespace {

/// How far from where the eye stops telling shut from open a valve may be called "just touching", crank
/// degrees. Common practice, no source; wide, for it only says where to look next.
constexpr double kTouching_deg = 20;

const ArcSet& left_by(const PortArcs& port, Saw saw) {
  static const ArcSet kAll = ArcSet::all();
  switch (saw) {
    case Saw::shut:
      return port.if_seen_shut;
    case Saw::open:
      return port.if_seen_open;
    case Saw::touching:
    case Saw::hidden:
      break;
  }
  return kAll;
}

/// Of each arc what lies near where the valve may be called so. An arc is dropped as a whole only for one in
/// which it really may: between two places of the crank's mark a matter of opinion must not choose.
ArcSet near_touching(const PortArcs& port, const ArcSet& where) {
  const ArcSet near = port.touching.grown(kTouching_deg);
  if (!where.intersected(port.touching).empty()) return where.intersected(near);
  ArcSet left;
  for (const Arc& arc : where.arcs()) {
    const ArcSet fewer = ArcSet({arc}).intersected(near);
    left = left.united(fewer.empty() ? ArcSet({arc}) : fewer);
  }
  return left;
}

/// The set narrowed by every look at this position but that into port `left_out`.
ArcSet narrowed(const JobModel& model, const JobState& state, ArcSet where, size_t left_out) {
  for (size_t i = 0; i < state.ports.size(); ++i)
    if (i != left_out && state.ports[i].seen && state.ports[i].seen != Saw::touching)
      where = where.intersected(left_by(model.ports[i], *state.ports[i].seen));
  // "Just touching" is a matter of opinion: it says where the crank stands, but never that others misled.
  for (size_t i = 0; i < state.ports.size(); ++i) {
    if (i == left_out || state.ports[i].seen != Saw::touching) continue;
    where = near_touching(model.ports[i], where);
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

/// The look, not into port `but`, after which the least is expected to be left of the set; nullopt: none
/// helps.
std::optional<int> best_look(const JobModel& model, const JobState& state, const ArcSet& where, size_t but) {
  double best_deg = where.total_deg() - kSame_deg;
  std::optional<int> found;
  for (size_t i = 0; i < state.ports.size(); ++i) {
    if (i == but || state.ports[i].seen || !state.ports[i].reachable) continue;
    const double expected = expected_deg(model.ports[i], where);
    if (expected >= best_deg - kSame_deg) continue;
    best_deg = expected;
    found = state.ports[i].cylinder;
  }
  return found;
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
  evidence.where = found.where;
  if (evidence.where.empty()) return evidence;

  evidence.next_look = best_look(model, state, evidence.where, state.ports.size());
  // Where the crank stands may be known by a look into the very port that is to be worked, before a turn:
  // then it takes a look into another.
  for (size_t i = 0; i < state.ports.size() && !evidence.next_look; ++i) {
    const JobPort& port = state.ports[i];
    const bool open_to_doubt = port.left() && evidence.ports[i] == Reckoned::unknown &&
                               (!port.seen || port.seen == Saw::shut) && !found.without[i].empty() &&
                               !model.ports[i].windows.sure.intersected(evidence.where).empty();
    if (open_to_doubt) evidence.next_look = best_look(model, state, found.without[i], i);
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

bool lobes_seen(const JobModel& model, const JobState& state) {
  return model.rules.lobes_visible && (state.lobe_told || state.lobes_hidden < 2);
}

double limit_of_doubt(const JobModel& model, const JobState& state) {
  // Looks at so few ports cannot be surer than that from one position: with less, whole jobs took dozens of
  // moves or never ended (tests/job/whole_jobs_test).
  constexpr double kByMark = 2e-4;
  if (!few_ports(model)) return model.rules.most_open;
  // By the mark alone three ports that are seen right would never come below that either.
  const bool three = model.ports.size() <= 3;
  const bool by_mark = state.mark_here && (!three || lobes_seen(model, state));
  const double few = by_mark ? kByMark : three ? 3e-3 : 1e-3;
  return std::max(few, model.rules.most_open);
}

bool enough_after_its_look(const JobModel& model, const JobState& state, int cylinder) {
  const double most_open = limit_of_doubt(model, state);
  if (most_open >= 1) return true;
  if (state.doubt.belief() == nullptr) return false;
  const auto answer = state.doubt.answer_here(cylinder);
  return state.doubt.belief()->open_after_look(cylinder, cylinder, answer).open_if_shut < most_open;
}

bool may_blast(const JobModel& model, const JobState& state, int cylinder) {
  // Its plug is pulled for the blast, and a look costs nothing then. Of simulated jobs, four in 50,000
  // blasted a port whose crank had been moved while another was blasted, and one in 30,000 one that a crumb
  // held open and whose only look had gone into another port.
  if (!witnesses_agree(model, state, cylinder) || state.find(cylinder)->look_old) return false;
  const double most_open = limit_of_doubt(model, state);
  return most_open >= 1 || state.doubt.chance_open(cylinder) < most_open;
}

}  // namespace shutlane
