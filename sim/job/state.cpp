#include "sim/job/state.hpp"

#include <algorithm>
#include <cmath>

#include "sim/job/evidence.hpp"

namespace shutlane {
namespace {

JobPort* port_of(JobState& state, int cylinder) {
  for (JobPort& port : state.ports)
    if (port.cylinder == cylinder) return &port;
  return nullptr;
}

bool is_angle(double deg, double least, double most) {
  return std::isfinite(deg) && deg >= least && deg <= most;
}

/// Nobody can tell whether its valve was shut while abrasive lay before it.
void suspect(JobPort& port) { port.maybe_inside = port.maybe_inside || port.loose; }

/// After any move: what was seen holds no longer, and a blast in work counts as broken off. A valve may have
/// opened over abrasive that was not sucked out.
void moved(JobState& state) {
  for (JobPort& port : state.ports) {
    suspect(port);
    port.seen.reset();
    port.look_due = port.look_old = port.confirmed = false;
    port.taken_back.reset();
  }
  state.cause.reset();
  state.blasting.reset();
  if (state.worked_here) ++state.position;
  state.worked_here = state.sucked_out = state.emptied = state.counted = false;
  state.plugged = state.mark_here = false;
  state.just_moved = true;
}

void know_nothing(JobState& state) {
  state.reckoned = ArcSet::all();
  state.reckoned_without.assign(state.ports.size(), ArcSet::all());
  state.mark_here = false;
}

/// From here on nothing is blasted until the look is made again.
void take_back(JobPort& port) {
  suspect(port);
  port.look_due = port.look_due || port.seen.has_value();
  if (port.seen) port.taken_back = port.seen;
  port.seen.reset();
}

/// Twice the same is no slip of one look.
bool is_confirmed(const JobPort& port, Saw saw) {
  if (port.look_due) return port.taken_back == saw && (saw == Saw::shut || saw == Saw::open);
  return port.confirmed && port.seen == saw;
}

void unplug(JobState& state, JobPort& port) {
  port.unplugged = true;
  state.sucked_out = state.emptied = state.counted = false;
}

struct Check {
  const JobModel& model;
  const JobState& state;
  bool on_record = false;
  bool known(int cylinder) const { return state.find(cylinder) != nullptr; }

  bool operator()(const LookedInto& e) const { return known(e.cylinder); }
  bool operator()(const LooksForgotten&) const { return true; }
  bool operator()(const CauseChosen& e) const {
    return (e.cylinder == 0 || known(e.cylinder)) && e.bank < model.engine.spec.layout.banks.size();
  }
  bool operator()(const BlastStarted& e) const {
    return on_record ? known(e.cylinder) : may_blast(model, state, e.cylinder);
  }
  bool operator()(const BlastStopped&) const { return state.blasting.has_value(); }
  bool operator()(const PortDone& e) const { return state.blasting == e.cylinder; }
  bool operator()(const PortAgain& e) const {
    const JobPort* port = state.find(e.cylinder);
    return port && port->done;
  }
  bool operator()(const Reachable& e) const {
    const JobPort* port = state.find(e.cylinder);
    return port && port->reachable != e.reachable && state.blasting != e.cylinder;
  }
  bool operator()(const OnlyBank& e) const {
    return !state.blasting && (!e.bank || *e.bank < model.engine.spec.layout.banks.size());
  }
  bool operator()(const MarkRead& e) const {
    return is_angle(e.at_deg, -1e6, 1e6) && is_angle(e.plus_minus_deg, 0.5, 180);
  }
  bool operator()(const LobeSeen& e) const { return known(e.cylinder); }
  bool operator()(const SuckedOut&) const { return !state.blasting; }
  bool operator()(const InsideClean& e) const {
    const JobPort* port = state.find(e.cylinder);
    return port && port->maybe_inside;
  }
  bool operator()(const PortsEmptied&) const { return !state.blasting; }
  bool operator()(const PlugsCounted&) const { return !state.blasting; }
  bool operator()(const Turned& e) const {
    return is_angle(e.min_deg, 0, 7200) && is_angle(e.max_deg, e.min_deg, 7200);
  }
  bool operator()(const TurnedTooFar&) const { return true; }
  bool operator()(const Bumped& e) const { return e.press_s >= 0 && e.press_s <= 60; }
  bool operator()(const PressStarted& e) const { return e.press_s >= 0 && e.press_s <= 60; }
  bool operator()(const CrankMoved&) const { return true; }
  bool operator()(const AbrasiveLeft& e) const { return known(e.cylinder); }
  bool operator()(const NoMark&) const { return true; }
};

struct Step {
  const JobModel& model;
  JobState& state;

  void operator()(const LookedInto& e) const {
    JobPort& port = *port_of(state, e.cylinder);
    port.confirmed = is_confirmed(port, e.saw);
    port.seen = e.saw;
    for (JobPort& other : state.ports) other.look_old = other.seen && other.cylinder != e.cylinder;
    port.look_due = false;
    if (e.saw == Saw::open || e.saw == Saw::touching) suspect(port);
    state.doubt.tell(model, e);
    if (!state.looks_due()) state.cause.reset();
    unplug(state, port);
    state.plugged = true;
    if (state.blasting == e.cylinder && e.saw != Saw::shut) state.blasting.reset();
  }
  void operator()(const LooksForgotten&) const {
    const bool disagreed = whereabouts(model, state).where.empty();
    for (JobPort& port : state.ports)
      if (disagreed)
        take_back(port);
      else
        port.seen.reset();
    state.doubt.take_back_looks(model);
    // Marks, lobes and turns may be at fault as well as looks.
    if (disagreed) start_anew();
    state.blasting.reset();
  }
  void operator()(const CauseChosen& e) const {
    if (e.what == Suspicion::moved) return lost();
    state.blasting.reset();
    const bool one_look =
        (e.what == Suspicion::missed_look || e.what == Suspicion::wrong_port) && e.cylinder != 0;
    // A look is taken back alone only once: asked again and again it would one day give another answer.
    if (one_look && !port_of(state, e.cylinder)->confirmed) {
      JobPort& port = *port_of(state, e.cylinder);
      take_back(port);
      port.look_due = true;
      state.doubt.take_back_look(model, e.cylinder);
    } else {
      for (JobPort& port : state.ports) take_back(port);
      start_anew();
    }
    state.cause = e;
    if (!state.looks_due()) state.cause.reset();
  }
  void operator()(const BlastStarted& e) const {
    blown_into(*port_of(state, e.cylinder));
    state.blasting = e.cylinder;
  }
  void operator()(const BlastStopped&) const { pause(); }
  void operator()(const PortDone& e) const {
    port_of(state, e.cylinder)->done = true;
    pause();
  }
  void operator()(const PortAgain& e) const { port_of(state, e.cylinder)->done = false; }
  void operator()(const Reachable& e) const { port_of(state, e.cylinder)->reachable = e.reachable; }
  void operator()(const OnlyBank& e) const {
    state.only_bank = e.bank;
    for (size_t i = 0; i < state.ports.size(); ++i)
      state.ports[i].in_job = !e.bank || model.engine.cylinders[i].bank == *e.bank;
  }
  void operator()(const LobeSeen& e) const {
    if (e.points == Lobe::hidden)
      ++state.lobes_hidden;
    else
      state.lobe_told = true;
    state.doubt.tell(model, e);
    stands_in(lobe_arcs(model.engine, e));
  }
  void operator()(const MarkRead& e) const {
    state.no_mark = false;
    state.mark_here = state.mark_here || (std::abs(std::remainder(e.at_deg, kTurn_deg)) < kSame_deg &&
                                          e.plus_minus_deg <= kMarkReads_deg);
    state.doubt.tell(model, e);
    const Arc first{e.at_deg - e.plus_minus_deg, 2 * e.plus_minus_deg};
    const Arc second{first.from_deg + kTurn_deg, first.length_deg};
    stands_in(ArcSet({first, second}));
  }
  void operator()(const SuckedOut&) const {
    for (JobPort& port : state.ports) port.unplugged = port.loose = false;
    state.abrasive = false;
    state.sucked_out = true;
  }
  void operator()(const InsideClean& e) const { port_of(state, e.cylinder)->maybe_inside = false; }
  void operator()(const PortsEmptied&) const {
    state.emptied = true;
    state.plugged = false;
  }
  void operator()(const PlugsCounted&) const {
    state.counted = true;
    state.plugged = false;
  }
  void operator()(const Turned& e) const {
    // What the looks at this position told goes with the crank, for each port without its own.
    const Whereabouts now = whereabouts(model, state);
    auto carry = [&](const ArcSet& where) {
      if (where.empty()) return ArcSet::all();  // what contradicts itself tells nothing
      return where.shifted((e.min_deg + e.max_deg) / 2).grown((e.max_deg - e.min_deg) / 2);
    };
    state.reckoned = now.where.empty() ? ArcSet::all() : carry(now.where);
    for (size_t i = 0; i < state.ports.size(); ++i)
      state.reckoned_without[i] = now.where.empty() ? ArcSet::all() : carry(now.without[i]);
    state.doubt.turned(e.min_deg, e.max_deg);
    moved(state);
  }
  void operator()(const TurnedTooFar&) const { lost(); }
  void operator()(const Bumped&) const { lost(); }
  void operator()(const PressStarted&) const { lost(); }
  void operator()(const CrankMoved&) const { lost(); }
  void operator()(const NoMark&) const { state.no_mark = true; }
  void operator()(const AbrasiveLeft& e) const { blown_into(*port_of(state, e.cylinder)); }

  void blown_into(JobPort& port) const {
    unplug(state, port);
    port.loose = true;
    state.worked_here = state.abrasive = true;
  }
  void pause() const {
    state.blasting.reset();
    state.doubt.tell(model, Pause{});
    for (JobPort& port : state.ports) port.look_old = port.seen.has_value();
  }
  void lost() const {
    state.doubt.lost();
    know_nothing(state);
    moved(state);
  }
  void start_anew() const {
    if (model.rules.most_open < 1) state.doubt = Doubt(model);
    know_nothing(state);
  }
  /// Told by something that is no look into a port, and so a witness for every port.
  void stands_in(const ArcSet& arcs) const {
    state.reckoned = state.reckoned.intersected(arcs);
    for (ArcSet& where : state.reckoned_without) where = where.intersected(arcs);
  }
};

}  // namespace

const JobPort* JobState::find(int cylinder) const {
  for (const JobPort& port : ports)
    if (port.cylinder == cylinder) return &port;
  return nullptr;
}

bool JobState::nothing_left() const {
  return std::none_of(ports.begin(), ports.end(), [](const JobPort& port) { return port.left(); });
}

bool JobState::looks_due() const {
  return std::any_of(ports.begin(), ports.end(), [](const JobPort& port) { return port.look_due; });
}

bool JobState::maybe_inside() const {
  return std::any_of(ports.begin(), ports.end(), [](const JobPort& port) { return port.maybe_inside; });
}

JobState start_job(const JobModel& model) {
  JobState state;
  if (model.rules.most_open < 1) state.doubt = Doubt(model);
  state.reckoned = ArcSet::all();
  state.reckoned_without.assign(model.ports.size(), ArcSet::all());
  for (const Cylinder& cylinder : model.engine.cylinders) {
    JobPort port;
    port.cylinder = cylinder.number;
    state.ports.push_back(port);
  }
  return state;
}

bool may(const JobModel& model, const JobState& state, const JobEvent& event) {
  return std::visit(Check{model, state, false}, event);
}

JobState after(const JobModel& model, JobState state, const JobEvent& event) {
  if (!may(model, state, event)) return state;
  return replayed(model, std::move(state), event);
}

JobState replayed(const JobModel& model, JobState state, const JobEvent& event) {
  if (!std::visit(Check{model, state, true}, event)) return state;
  state.just_moved = false;
  std::visit(Step{model, state}, event);
  return state;
}

JobState fold(const JobModel& model, std::span<const JobEvent> events) {
  JobState state = start_job(model);
  for (const JobEvent& event : events) state = replayed(model, std::move(state), event);
  return state;
}

}  // namespace shutlane
