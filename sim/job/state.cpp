#include "sim/job/state.hpp"

#include <algorithm>
#include <cmath>

#include "sim/job/may.hpp"

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
void suspect(JobPort& port) { port.maybe_inside = port.maybe_inside || port.exposed; }

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
  state.worked_here = false;  // whether anything is in a port changes with the next one that is opened
  state.mark_here = state.chalk_here = state.chalk_due = state.by_turn = false;
  state.just_moved = true;
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

void open_up(JobState& state, JobPort& port) {
  port.opened = true;
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
  bool operator()(const BlastStopped& e) const { return state.blasting == e.cylinder; }
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
  bool operator()(const NoMark&) const { return true; }
  bool operator()(const LobeSeen& e) const { return known(e.cylinder); }
  bool operator()(const ChalkSeen&) const { return true; }
  bool operator()(const NoChalk&) const { return true; }
  bool operator()(const SuckedOut&) const { return !state.blasting; }
  bool operator()(const InsideLooked& e) const {
    const JobPort* port = state.find(e.cylinder);
    return port && port->maybe_inside;
  }
  bool operator()(const PortsEmptied&) const { return !state.blasting; }
  bool operator()(const BungsCounted&) const { return !state.blasting; }
  bool operator()(const BungMissing&) const { return !state.blasting; }
  bool operator()(const Turned& e) const {
    return is_angle(e.min_deg, 0, 7200) && is_angle(e.max_deg, e.min_deg, 7200);
  }
  bool operator()(const Bumped& e) const { return e.press_s >= 0 && e.press_s <= 60; }
  bool operator()(const PressStarted& e) const { return e.press_s >= 0 && e.press_s <= 60; }
  bool operator()(const CrankMoved&) const { return true; }
  bool operator()(const AbrasiveLeft& e) const { return known(e.cylinder); }
};

struct Step {
  const JobModel& model;
  JobState& state;

  void operator()(const LookedInto& e) const {
    JobPort& port = *port_of(state, e.cylinder);
    ++state.cost.looks;
    if (state.worked_here && e.saw == Saw::open && state.blasting != e.cylinder)
      ++state.cost.looks_into_open_ports_after_blasting;
    port.confirmed = is_confirmed(port, e.saw);
    port.seen = e.saw;
    for (JobPort& other : state.ports) other.look_old = other.seen && other.cylinder != e.cylinder;
    port.look_due = false;
    if (e.saw == Saw::open || e.saw == Saw::touching) suspect(port);
    state.here.tell(model, e);
    if (!state.looks_due()) state.cause.reset();
    open_up(state, port);
    state.bunged = true;
    if (state.blasting == e.cylinder && e.saw != Saw::shut) state.blasting.reset();
  }
  void operator()(const LooksForgotten&) const {
    const bool disagreed = state.here.where(model).empty();
    for (JobPort& port : state.ports)
      if (disagreed)
        take_back(port);
      else
        port.seen.reset();
    state.here.forget_looks(model);
    // Marks, lobes and turns may be at fault as well as looks.
    if (disagreed) start_anew();
    state.blasting.reset();
  }
  void operator()(const CauseChosen& e) const {
    if (e.what == Suspicion::moved) return lost();
    state.blasting.reset();
    if (e.what == Suspicion::mark || e.what == Suspicion::lobe || e.what == Suspicion::turn) {
      if (e.what == Suspicion::mark) state.here.forget_marks(model), state.mark_here = false;
      if (e.what == Suspicion::lobe) state.here.forget_lobes(model);
      if (e.what == Suspicion::turn) state.here.forget_arrival(model);
      return blasted_on_a_mistake();
    }
    const bool one_look =
        (e.what == Suspicion::missed_look || e.what == Suspicion::wrong_port) && e.cylinder != 0;
    // A look is taken back alone only once: asked again and again it would one day give another answer.
    if (one_look && !port_of(state, e.cylinder)->confirmed) {
      JobPort& port = *port_of(state, e.cylinder);
      take_back(port);
      port.look_due = true;
      state.here.forget_look(model, e.cylinder);
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
    state.here.tell(model, e);
  }
  void operator()(const MarkRead& e) const {
    state.no_mark = false;
    state.mark_here = state.mark_here || std::abs(std::remainder(e.at_deg, kTurn_deg)) < kSame_deg;
    state.here.tell(model, e);
  }
  void operator()(const NoMark&) const { state.no_mark = true; }
  void operator()(const ChalkSeen& e) const {
    if (!e.in_line) return lost();
    state.no_chalk = false;
    state.chalk_here = true;
    state.chalk_due = false;
    for (JobPort& port : state.ports)
      if (port.done) port.exposed = false;  // its valve was shut, and it is sucked out
    state.here.tell(model, ChalkInLine{});
  }
  void operator()(const NoChalk&) const { state.no_chalk = true; }
  void operator()(const SuckedOut&) const {
    for (JobPort& port : state.ports) port.opened = port.loose = port.exposed = false;
    state.abrasive = false;
    state.sucked_out = true;
  }
  void operator()(const InsideLooked& e) const {
    state.parked = e.found == Inside::parked;
    if (!state.parked) port_of(state, e.cylinder)->maybe_inside = false;
  }
  void operator()(const PortsEmptied&) const {
    state.emptied = true;
    state.bunged = false;
  }
  void operator()(const BungsCounted&) const {
    state.counted = true;
    state.bunged = state.missing = false;
  }
  void operator()(const BungMissing&) const {
    state.missing = true;
    state.counted = false;
  }
  void operator()(const Turned& e) const {
    ++state.cost.moves;
    if (e.max_deg - e.min_deg >= kCycle_deg) return lost();
    state.here.turned(model, e.min_deg, e.max_deg);
    moved(state);
    state.by_turn = true;
  }
  void operator()(const Bumped&) const {
    ++state.cost.moves;
    lost();
  }
  void operator()(const PressStarted&) const {
    ++state.cost.moves;
    lost();
  }
  void operator()(const CrankMoved&) const { lost(); }
  void operator()(const AbrasiveLeft& e) const { blown_into(*port_of(state, e.cylinder)); }

  void blown_into(JobPort& port) const {
    open_up(state, port);
    port.loose = port.exposed = true;
    state.worked_here = state.abrasive = true;
  }
  void pause() const {
    state.blasting.reset();
    state.chalk_due = !state.no_chalk;
    state.here.tell(model, Pause{});
    for (JobPort& port : state.ports) port.look_old = port.seen.has_value();
  }
  /// What was blasted here was blasted on what has turned out wrong: is it shut by what is left?
  void blasted_on_a_mistake() const {
    const ArcSet where = state.here.where(model);
    for (size_t i = 0; i < state.ports.size(); ++i)
      if (state.ports[i].loose && !model.ports[i].sure.covers(where)) state.ports[i].maybe_inside = true;
  }
  void lost() const {
    state.here.lost(model);
    moved(state);
  }
  void start_anew() const {
    state.here = Here(model, model.rules.most_open < 1);
    state.mark_here = false;
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
  state.here = Here(model, model.rules.most_open < 1);
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
