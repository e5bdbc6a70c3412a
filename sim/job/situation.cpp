#include "sim/job/situation.hpp"

#include <algorithm>

namespace shutlane {
namespace {

bool holds(const std::vector<int>& list, int number) {
  return std::find(list.begin(), list.end(), number) != list.end();
}

NextMove turn_of(const JobModel& model, double turn_deg) {
  NextMove move;
  move.turn.aim_deg = move.turn.min_deg = move.turn.max_deg = turn_deg;
  move.turn.logged_min_deg = std::max(0.0, turn_deg - model.rules.accuracy_deg);
  move.turn.logged_max_deg = turn_deg + model.rules.accuracy_deg;
  return move;
}

/// One full turn; but where a lobe pointed to neither side it would do so again after it, so half a turn.
NextMove blind_turn(const JobModel& model, const JobState& state) {
  const bool half = few_ports(model) && lobes_seen(model, state) && state.doubt.lobe_unclear();
  NextMove move = turn_of(model, half ? kTurn_deg / 2 : kTurn_deg);
  move.blind = true;
  return move;
}

/// Where all that is left is just touching and surely shut a little further on: that little.
std::optional<NextMove> a_little_further(const JobModel& model, const JobState& state,
                                         const Weighed& evidence, const std::vector<int>& left) {
  constexpr double kALittle_deg = 45;
  const double off_deg = std::min(model.rules.accuracy_deg, kALittle_deg);
  const ArcSet after = evidence.where.shifted(kALittle_deg).grown(off_deg);
  for (const int cylinder : left) {
    const size_t i = model.index_of(cylinder);
    if (state.ports[i].seen != Saw::touching || !model.ports[i].windows.sure.covers(after)) return {};
  }
  NextMove move;
  move.a_little = true;
  move.turn = {kALittle_deg, kALittle_deg, kALittle_deg, kALittle_deg - off_deg, kALittle_deg + off_deg};
  move.then = left;
  return move;
}

/// The plan from here for the ports that a turn can help. Ports that can't be seen here are tried again after
/// it.
void plan_ahead(const JobModel& model, const JobState& state, const Weighed& evidence, Situation& s) {
  WrenchQuestion question;
  question.accuracy_deg = model.rules.accuracy_deg;
  for (size_t i = 0; i < state.ports.size(); ++i) {
    const JobPort& port = state.ports[i];
    if (port.done) question.done.push_back(port.cylinder);
    const bool here = evidence.ports[i] == Reckoned::shut && port.seen != Saw::open &&
                      port.seen != Saw::touching && !holds(s.stuck, port.cylinder);
    if (port.left() && !here) question.left.push_back(port.cylinder);
  }
  if (question.left.empty()) return;
  s.move = blind_turn(model, state);
  s.move->then = question.left;
  if (model.rules.turn_by == TurnBy::starter) {
    s.move->bump = true;
    return;
  }
  if (evidence.contradiction()) return;
  if (const auto little = a_little_further(model, state, evidence, question.left)) {
    s.move = little;
    return;
  }
  const Arc stands = evidence.where.hull();
  if (stands.length_deg >= kTurn_deg) return;  // no turn can be aimed from it
  question.from_deg = wrap_deg(stands.from_deg + stands.length_deg / 2);
  question.plus_minus_deg = stands.length_deg / 2;
  const WrenchPlan plan = plan_wrench(model.windows, question);
  if (!plan.possible() || plan.turns() == 0) return;
  s.move->blind = false;
  s.move->turn = tell_turn(plan.positions[1], model.rules.accuracy_deg);
  s.move->then = plan.positions[1].blast;
  double from_deg = question.from_deg;
  for (size_t i = 1; i < plan.positions.size(); ++i) {
    const Position& p = plan.positions[i];
    s.ahead.push_back(
        {p.at_deg, {wrap_deg(from_deg + p.turn_min_deg), p.turn_max_deg - p.turn_min_deg}, p.blast});
    from_deg = p.at_deg;
  }
}

void sort_ports(const JobModel& model, const JobState& state, const Weighed& evidence, Situation& s) {
  for (size_t i = 0; i < state.ports.size(); ++i) {
    const JobPort& port = state.ports[i];
    if (port.seen) s.seen.push_back(port.cylinder);
    if (port.look_due) s.looks_due.push_back(port.cylinder);
    if (port.unplugged) s.to_suck_out.push_back(port.cylinder);
    if (port.loose) s.loose.push_back(port.cylinder);
    if (port.loose && !port.done) s.stopped.push_back(port.cylinder);
    if (port.maybe_inside) s.maybe_inside.push_back(port.cylinder);
    if (!port.done && !port.left()) s.not_in_job.push_back(port.cylinder);
    if (!port.left()) continue;
    if (may_blast(model, state, port.cylinder))
      s.ready = port.cylinder;
    else if (witnesses_agree(model, state, port.cylinder))
      s.doubtful.push_back(port.cylinder);
    if (evidence.ports[i] == Reckoned::shut && !port.seen) s.looks_ahead.push_back(port.cylinder);
    if (evidence.ports[i] == Reckoned::shut && port.seen == Saw::hidden)
      s.unseen_left.push_back(port.cylinder);
  }
}

/// Few ports cannot witness each other; the crank's mark witnesses them all, and a turn later those that are
/// left.
void go_by_mark(const JobModel& model, const JobState& state, Situation& s) {
  if (!few_ports(model) || !model.mark_suffices || limit_of_doubt(model, state) >= 1) return;
  const bool mark_alone = !lobes_seen(model, state) && model.ports.size() <= 3;
  if (state.no_mark && !mark_alone) return;
  const bool starter = model.rules.turn_by == TurnBy::starter;
  if (starter && !mark_alone) return;  // a bump cannot stop at the mark, but need not
  const std::vector<int> then = s.move->then;
  if (state.mark_here || starter) {
    s.move = turn_of(model, kTurn_deg);
    s.move->then = then;
    s.ahead.clear();
  }
  s.move->by_mark = !state.mark_here;
  s.move->mark_alone = mark_alone;
}

/// Few ports cannot witness each other: where two places of the mark do, the job begins at one of them, while
/// nothing is in any port.
bool begins_at_mark(const JobModel& model, const JobState& state, const Situation& s) {
  return s.untouched && s.lost && few_ports(model) && model.mark_suffices && !state.mark_here &&
         !state.no_mark && model.rules.turn_by != TurnBy::starter;
}

/// Would knowing the crank better help a port that is left and might be shut here?
bool narrowing_helps(const JobState& state, const Weighed& evidence) {
  for (size_t i = 0; i < state.ports.size(); ++i)
    if (state.ports[i].left() && evidence.ports[i] == Reckoned::unknown &&
        (!state.ports[i].seen || state.ports[i].seen == Saw::shut))
      return true;
  return false;
}

std::vector<int> without(std::vector<int> ports, int port) {
  std::erase(ports, port);
  return ports;
}

/// The look that is to make a doubtful port sure, and the ports for which there is none.
std::optional<int> look_for_the_doubtful(const JobModel& model, const JobState& state, Situation& s) {
  // The ports of a bank that is left out are witnesses all the same, where those of the job say too little.
  std::vector<int> can_look, in_job;
  for (const JobPort& port : state.ports)
    if (port.reachable && port.seen != Saw::hidden) {
      can_look.push_back(port.cylinder);
      if (port.in_job) in_job.push_back(port.cylinder);
    }
  for (const int port : s.doubtful) {
    const bool old = state.find(port)->look_old;
    std::optional<int> look;
    // Its own look comes last, just before the blast.
    if (old && enough_after_its_look(model, state, port)) look = port;
    if (!look) look = one_more_look(state.doubt, without(in_job, port), port);
    if (!look) look = one_more_look(state.doubt, without(can_look, port), port);
    if (!look && old && !state.doubt.looked_since_pause(port)) look = port;
    if (look) {
      s.one_more = port;
      return look;
    }
    s.stuck.push_back(port);
  }
  return {};
}

/// Few ports cannot always witness each other: a port that may well be shut is looked into all the same, and
/// then lobes at the oil filler are witnesses of their own, its own first. False: nothing more can be told
/// here.
bool few_ports_ask(const JobModel& model, const JobState& state, const Weighed& evidence, Situation& s) {
  constexpr double kHardlyShut = 0.8;
  if (!few_ports(model) || !lobes_seen(model, state)) return false;
  // The mark says more than lobes can: with it they were asked for and saved no turn.
  if (state.mark_here && model.ports.size() > 3) return false;
  for (size_t i = 0; i < state.ports.size(); ++i) {
    const JobPort& port = state.ports[i];
    if (!port.left() || (evidence.ports[i] != Reckoned::unknown && !holds(s.stuck, port.cylinder))) continue;
    if (!port.seen && state.doubt.chance_open(port.cylinder) < kHardlyShut) {
      s.stage = Stage::look;
      s.port = port.cylinder;
      return true;
    }
    if (port.seen != Saw::shut) continue;
    std::vector<int> lobes{port.cylinder};
    for (const JobPort& other : state.ports) lobes.push_back(other.cylinder);
    for (const int lobe : lobes) {
      if (state.doubt.lobe_told(lobe)) continue;
      s.stage = Stage::lobe;
      s.port = lobe;
      s.lobe_for = port.cylinder;
      return true;
    }
  }
  return false;
}

Stage before_moving(const JobState& state) {
  if (state.abrasive && !state.sucked_out) return Stage::suck_out;
  if (!state.emptied) return Stage::empty;
  return state.counted ? Stage::turn : Stage::count;
}

/// The crank moved, or a look was taken back, over abrasive that still lies there.
bool loose_before_a_doubtful_valve(const JobState& state) {
  return std::any_of(state.ports.begin(), state.ports.end(),
                     [](const JobPort& port) { return port.loose && port.seen != Saw::shut; });
}

void at_picked(const JobModel& model, const JobState& state, const Weighed& evidence, int picked,
               Situation& s) {
  const JobPort& port = *state.find(picked);
  s.stage = Stage::picked;
  s.port = picked;
  s.port_reckoned_shut = evidence.ports[model.index_of(picked)] == Reckoned::shut;
  s.port_seen_shut = port.seen == Saw::shut;
  s.port_done = port.done;
  s.port_out_of_reach = !port.reachable;
  s.may_blast = may_blast(model, state, picked);
  s.port_doubted = witnesses_agree(model, state, picked) && !s.may_blast;
}

}  // namespace

std::string bank_name(const Engine& engine, size_t bank) {
  const std::vector<BankSpec>& banks = engine.spec.layout.banks;
  return banks.size() > 1 && bank < banks.size() ? banks[bank].name : "";
}

Situation situation(const JobModel& model, const JobState& state, const Weighed& evidence,
                    std::optional<int> picked) {
  Situation s;
  s.ports = state.ports.size();
  s.turn_by = model.rules.turn_by;
  s.turns = model.engine.spec.layout.turns;
  s.plugged = state.plugged;
  s.mark_here = state.mark_here;
  s.mark_suffices = model.mark_suffices;
  s.lost = evidence.where.full();
  sort_ports(model, state, evidence, s);
  s.untouched = state.position == 1 && s.to_suck_out.empty() && !state.abrasive;
  const std::optional<int> one_more = look_for_the_doubtful(model, state, s);
  const bool helps =
      evidence.next_look && (limit_of_doubt(model, state) < 1 ? looking_helps(model, state, evidence)
                                                              : narrowing_helps(state, evidence));
  if (!state.nothing_left()) plan_ahead(model, state, evidence, s);
  if (s.move) go_by_mark(model, state, s);

  if (!s.maybe_inside.empty()) {
    s.stage = Stage::inside;
    s.port = s.maybe_inside.front();
  } else if (state.blasting) {
    s.stage = Stage::blasting;
    s.port = *state.blasting;
  } else if (loose_before_a_doubtful_valve(state)) {
    s.stage = Stage::suck_out;
  } else if (picked && state.find(*picked)) {
    at_picked(model, state, evidence, *picked, s);
  } else if (!s.looks_due.empty()) {
    s.stage = Stage::look_again;
    s.port = s.looks_due.front();
    s.cause = state.cause;
    if (s.cause) s.bank = bank_name(model.engine, s.cause->bank);
  } else if (evidence.contradiction()) {
    s.stage = Stage::contradiction;
  } else if (state.nothing_left()) {
    s.stage = before_moving(state);
    if (s.stage == Stage::turn) s.stage = Stage::finished;
  } else if (begins_at_mark(model, state, s)) {
    s.stage = Stage::turn;
    s.move = turn_of(model, kTurn_deg);
    s.move->by_mark = s.move->mark_first = true;
  } else if (s.ready) {
    s.stage = Stage::blast;
    s.port = *s.ready;
  } else if (!s.looks_ahead.empty()) {
    s.stage = Stage::look;
    s.port = s.looks_ahead.front();
    s.port_reckoned_shut = true;
  } else if (one_more) {
    s.stage = Stage::look;
    s.port = *one_more;
  } else if (helps) {
    s.stage = Stage::look;
    s.port = *evidence.next_look;
  } else if (few_ports_ask(model, state, evidence, s)) {
    // The stage is set.
  } else if (!s.move && !s.unseen_left.empty()) {
    s.stage = Stage::unseen_left;
    s.port = s.unseen_left.front();
  } else {
    if (!s.move) s.move = blind_turn(model, state);
    s.stage = before_moving(state);
  }
  if (const JobPort* port = state.find(s.port)) {
    s.port_left_out = !port->in_job;
    s.port_open =
        port->seen ? port->seen == Saw::open : evidence.ports[model.index_of(s.port)] == Reckoned::open;
  }
  // While looks can still narrow where the crank stands, a plan of several positions would only mislead.
  if (helps) s.ahead.clear();
  return s;
}

}  // namespace shutlane
