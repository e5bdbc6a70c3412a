#include "sim/job/situation.hpp"

#include <algorithm>
#include <array>

#include "sim/job/moves.hpp"
#include "sim/witness/next_look.hpp"

namespace shutlane {
namespace {

using Ports = std::vector<int>;

/// What the rules read. Reckoned once; what only some rules need is reckoned by them.
struct View {
  const JobModel& model;
  const JobState& state;
  const Reckoning& reckoned;
  std::optional<int> picked;

  const JobPort& port(int cylinder) const { return state.ports[model.index_of(cylinder)]; }
  Reckoned of(int cylinder) const { return reckoned.ports[model.index_of(cylinder)]; }
  bool frees(int cylinder) const { return reckoned.own_look_frees[model.index_of(cylinder)]; }
  bool by_starter() const { return model.rules.turn_by == TurnBy::starter; }
  /// Ports in the order in which they stand that fulfil something.
  template <class Which>
  Ports walk(Which which) const {
    Ports found;
    for (const int cylinder : model.walk)
      if (which(port(cylinder))) found.push_back(cylinder);
    return found;
  }
  bool bungs_in() const { return state.bunged || state.abrasive; }
};

Ports rising(Ports list) {
  std::sort(list.begin(), list.end());
  return list;
}

// ---- looks ----

Ports own_looks(const View& v) {
  return v.walk([&](const JobPort& p) { return v.frees(p.cylinder); });
}

/// Where abrasive lies about, only ports that are reckoned shut are looked into.
bool may_look_into(const View& v, const JobPort& p) {
  if (!p.reachable || p.seen) return false;
  return !v.state.worked_here || v.of(p.cylinder) == Reckoned::shut;
}

Ports unseen(const View& v) {
  return rising(v.walk([&](const JobPort& p) { return may_look_into(v, p); }));
}

/// Is it likely enough (1 in 5) that looking into the other ports makes a witness for some port left that may
/// be shut here?
bool looking_helps(const View& v) {
  constexpr double kWorthALook = 0.2;
  constexpr size_t kCell = 30;  // bins: fifteen degrees
  if (v.reckoned.contradiction()) return false;
  const Belief* belief = v.state.here.belief();
  const Ports can_look = unseen(v);
  std::vector<double> angles;
  if (belief) angles = belief->angles();
  for (size_t i = 0; i < v.state.ports.size(); ++i) {
    const JobPort& port = v.state.ports[i];
    if (!port.left() || v.reckoned.ports[i] != Reckoned::unknown || (port.seen && port.seen != Saw::shut))
      continue;
    if (!belief) return true;  // nothing says how likely it is
    double chance = 0;
    for (size_t from = 0; from < kBeliefBins; from += kCell) {
      double mass = 0;
      for (size_t bin = from; bin < from + kCell; ++bin) mass += angles[bin];
      const double at_deg = static_cast<double>(from + kCell / 2) * kBeliefStep_deg;
      if (mass < 1e-3 || !v.model.ports[i].sure.contains(at_deg)) continue;
      ArcSet where = v.reckoned.without[i];
      for (const int other : can_look)
        if (other != port.cylinder) {
          const PortSets& p = v.model.ports[v.model.index_of(other)];
          where = where.intersected(p.nominal.contains(at_deg) ? p.if_shut : p.if_open);
        }
      if (!where.empty() && v.model.ports[i].sure.covers(where)) chance += mass;
    }
    if (chance >= kWorthALook) return true;
  }
  return false;
}

/// Where the crank stands; or, where only a look into the very port that is to be worked says so, another.
std::optional<int> narrowing_look(const View& v) {
  const Ports can_look = unseen(v);
  if (const auto look = look_that_narrows(v.model.ports, v.reckoned.where, can_look)) return look;
  for (size_t i = 0; i < v.state.ports.size(); ++i) {
    const JobPort& port = v.state.ports[i];
    if (!port.left() || v.reckoned.ports[i] != Reckoned::unknown || (port.seen && port.seen != Saw::shut))
      continue;
    if (v.model.ports[i].sure.intersected(v.reckoned.where).empty()) continue;
    Ports others = can_look;
    std::erase(others, port.cylinder);
    if (const auto look = look_that_narrows(v.model.ports, v.reckoned.without[i], others)) return look;
  }
  return {};
}

/// Both witnesses agree on them, but the doubt is too great, and the look that makes surer of the first that
/// has one.
struct Surer {
  int port = 0, look = 0;
};
std::optional<Surer> surer(const View& v) {
  for (const int port : v.walk([&](const JobPort& p) {
         return witnesses_agree(v.model, v.state, p.cylinder) && !may_blast_by_looks(v.model, v.state, p.cylinder);
       }))
    if (const auto look = surer_look(v.state, v.reckoned, port)) return Surer{port, *look};
  return {};
}

/// One pass over all ports in the order in which they stand, without planning anew in between; at a later
/// position over those that are left and not known to be open.
Ports pass(const View& v) {
  if (v.state.worked_here || v.state.mark_here || !(v.state.no_mark || v.by_starter())) return {};
  if (v.state.position > 1 && !own_looks(v).empty()) return {};
  return v.walk([&](const JobPort& p) {
    if (!p.left() || p.seen) return false;
    return v.state.position == 1 || v.of(p.cylinder) == Reckoned::unknown;
  });
}

/// Few ports cannot always witness each other: a port that may well be shut is looked into all the same, and
/// then lobes at the oil filler are witnesses of their own, its own first.
struct LobeAsked {
  int look = 0, lobe = 0, lobe_for = 0;
};
std::optional<LobeAsked> few_ports_ask(const View& v) {
  constexpr double kHardlyShut = 0.8;
  if (!few_ports(v.model) || !lobes_seen(v.model, v.state) || v.reckoned.contradiction()) return {};
  // The mark says more than lobes can: with it they were asked for and saved no turn.
  if (v.state.mark_here && v.model.ports.size() > 3) return {};
  for (size_t i = 0; i < v.state.ports.size(); ++i) {
    const JobPort& port = v.state.ports[i];
    const bool stuck = witnesses_agree(v.model, v.state, port.cylinder) &&
                       !may_blast_by_looks(v.model, v.state, port.cylinder);
    if (!port.left() || (v.reckoned.ports[i] != Reckoned::unknown && !stuck)) continue;
    if (may_look_into(v, port) && v.state.here.chance_open(port.cylinder) < kHardlyShut)
      return LobeAsked{port.cylinder, 0, 0};
    if (port.seen != Saw::shut) continue;
    Ports lobes{port.cylinder};
    for (const JobPort& other : v.state.ports) lobes.push_back(other.cylinder);
    for (const int lobe : lobes)
      if (!v.state.here.lobe_told(lobe)) return LobeAsked{0, lobe, port.cylinder};
  }
  return {};
}

// ---- what a rule gives ----

void look(Situation& s, int port, LookFor why, Ports left = {}) {
  s.stage = Stage::look;
  s.port = port;
  s.look_for = why;
  s.looks_left = std::move(left);
}

void stage_with_port(Situation& s, Stage stage, int port) {
  s.stage = stage;
  s.port = port;
}

/// Everything is taken out and counted before the crank moves.
void before_moving(const View& v, Situation& s, Stage then) {
  const bool clean = v.state.sucked_out || !v.state.abrasive;
  s.stage = clean && v.state.emptied && v.state.counted ? then : Stage::clear;
}

Ports stuck_or_open(const View& v) {
  return v.walk([&](const JobPort& p) {
    return v.of(p.cylinder) == Reckoned::shut && p.seen != Saw::open && p.seen != Saw::touching &&
           (p.seen != Saw::shut || may_blast_by_looks(v.model, v.state, p.cylinder) ||
            v.frees(p.cylinder));
  });
}

void move(const View& v, Situation& s) {
  PlannedMoves planned = planned_moves(v.model, v.state, v.reckoned, {});
  if (!planned.move) planned.move = blind_turn(v.model, v.state);
  s.move = planned.move;
  s.ahead = planned.ahead;
  if (planned.by_mark) return before_moving(v, s, Stage::mark);
  const bool three_blind = !lobes_seen(v.model, v.state) && v.model.ports.size() <= 3;
  const bool mark_alone = three_blind && v.model.mark_suffices && !v.state.mark_here;
  if (mark_alone || (mark_at_hand(v.model, v.state) && v.model.mark_suffices && !v.by_starter())) {
    const Ports then = s.move->then;
    s.move = to_the_mark();
    s.move->then = then;
    s.move->mark_alone = mark_alone;
    s.ahead.clear();
    return before_moving(v, s, Stage::mark);
  }
  before_moving(v, s, v.by_starter() ? Stage::bump : Stage::turn);
}

// ---- the rules, first come first served ----

struct Rule {
  const char* name;
  /// Gives its part of the situation and true, or leaves it alone.
  bool (*gives)(const View&, Situation&);
};

constexpr std::array kRules{
    Rule{"abrasive may be in a cylinder",
         [](const View&, Situation& s) {
           if (s.maybe_inside.empty()) return false;
           stage_with_port(s, Stage::inside, s.maybe_inside.front());
           return true;
         }},
    Rule{"a port is being blasted",
         [](const View& v, Situation& s) {
           if (!v.state.blasting) return false;
           stage_with_port(s, Stage::blasting, *v.state.blasting);
           return true;
         }},
    Rule{"a bung is missing",
         [](const View& v, Situation& s) {
           if (!v.state.missing) return false;
           s.stage = Stage::missing;
           return true;
         }},
    Rule{"the crank moved, or a look was taken back, over abrasive that still lies there",
         [](const View& v, Situation& s) {
           const Ports there = v.walk([](const JobPort& p) { return p.exposed && p.seen != Saw::shut; });
           if (there.empty()) return false;
           s.stage = Stage::clear;
           return true;
         }},
    Rule{"a port was pressed",
         [](const View& v, Situation& s) {
           if (!v.picked || !v.state.find(*v.picked)) return false;
           stage_with_port(s, Stage::picked, *v.picked);
           s.frees = chalk_holds(v.state) && v.frees(*v.picked);
           return true;
         }},
    Rule{"a look was taken back",
         [](const View& v, Situation& s) {
           if (s.looks_due.empty()) return false;
           stage_with_port(s, Stage::look_again, s.looks_due.front());
           if (v.state.cause) s.bank = bank_name(v.model.engine, v.state.cause->bank);
           return true;
         }},
    Rule{"it cannot all be true",
         [](const View& v, Situation& s) {
           if (!v.reckoned.contradiction()) return false;
           s.stage = Stage::disagreement;
           return true;
         }},
    Rule{"chalk after a blast",
         [](const View& v, Situation& s) {
           if (!v.state.chalk_due || !v.state.chalk_here) return false;
           s.stage = Stage::chalk;
           s.chalk_drawn = true;
           return true;
         }},
    Rule{"nothing is left",
         [](const View& v, Situation& s) {
           if (!v.state.nothing_left()) return false;
           before_moving(v, s, Stage::finished);
           return true;
         }},
    Rule{"lead with the mark",
         [](const View& v, Situation& s) {
           const bool looked = !v.walk([](const JobPort& p) { return p.seen.has_value(); }).empty();
           if (!s.lost || looked || v.by_starter() || !mark_at_hand(v.model, v.state)) return false;
           s.move = to_the_mark();
           if (v.bungs_in())
             before_moving(v, s, Stage::mark);
           else
             s.stage = Stage::mark;
           return true;
         }},
    Rule{"no mark: one pass over all ports",
         [](const View& v, Situation& s) {
           const Ports ports = pass(v);
           if (ports.empty()) return false;
           look(s, ports.front(), LookFor::pass, ports);
           return true;
         }},
    Rule{"its own look was the last",
         [](const View& v, Situation& s) {
           const Ports ready = v.walk(
               [&](const JobPort& p) { return may_blast_by_looks(v.model, v.state, p.cylinder); });
           if (ready.empty()) return false;
           stage_with_port(s, chalk_holds(v.state) ? Stage::blast : Stage::chalk, ready.front());
           return true;
         }},
    Rule{"which of the mark's two places",
         [](const View& v, Situation& s) {
           if (!v.state.mark_here || v.state.worked_here || v.reckoned.where.arcs().size() < 2) return false;
           Ports in_job, others;
           for (const int port : unseen(v)) (v.port(port).in_job ? in_job : others).push_back(port);
           auto found = look_that_decides(v.model.ports, v.reckoned.where, in_job);
           if (!found) found = look_that_decides(v.model.ports, v.reckoned.where, others);
           if (!found) return false;
           look(s, *found, LookFor::turn);
           return true;
         }},
    Rule{"a second look that tells the mark's two places apart, where no look to come does",
         [](const View& v, Situation& s) {
           if (!v.state.mark_here || v.state.worked_here || v.reckoned.where.arcs().size() != 1) return false;
           const Ports held_back = v.walk([&](const JobPort& p) {
             return p.left() && p.seen != Saw::open && p.seen != Saw::touching && !v.frees(p.cylinder) &&
                    v.model.ports[v.model.index_of(p.cylinder)].sure.covers(v.reckoned.where);
           });
           if (held_back.empty()) return false;
           const ArcSet places = v.state.here.where_before_looks(v.model);
           Ports to_come = own_looks(v);
           std::erase_if(to_come, [&](int port) { return v.port(port).seen.has_value(); });
           if (look_that_decides(v.model.ports, places, to_come)) return false;
           const auto found = look_that_decides(v.model.ports, places, unseen(v));
           if (!found) return false;
           look(s, *found, LookFor::turn);
           return true;
         }},
    Rule{"before abrasive lies about: more looks, where they would free another port",
         [](const View& v, Situation& s) {
           if (v.state.worked_here || (v.state.mark_here && !own_looks(v).empty()) || !looking_helps(v))
             return false;
           const auto found = narrowing_look(v);
           if (!found) return false;
           look(s, *found, LookFor::where);
           return true;
         }},
    Rule{"its own look, and straight on to the blast",
         [](const View& v, Situation& s) {
           const Ports ports = own_looks(v);
           if (ports.empty()) return false;
           if (!chalk_holds(v.state)) {
             stage_with_port(s, Stage::chalk, ports.front());
             return true;
           }
           look(s, ports.front(), LookFor::blast, ports);
           s.frees = true;
           return true;
         }},
    Rule{"both witnesses agree, but are to be made surer",
         [](const View& v, Situation& s) {
           const auto found = surer(v);
           if (!found) return false;
           look(s, found->look, LookFor::surer);
           s.surer_of = found->port;
           return true;
         }},
    Rule{"reckoned shut, and not looked into: its look tells more than nothing",
         [](const View& v, Situation& s) {
           const Ports ports = v.walk([&](const JobPort& p) {
             return p.left() && !p.seen && v.of(p.cylinder) == Reckoned::shut;
           });
           if (ports.empty()) return false;
           look(s, ports.front(), LookFor::where, ports);
           return true;
         }},
    Rule{"few ports: lobes",
         [](const View& v, Situation& s) {
           const auto asked = few_ports_ask(v);
           if (!asked) return false;
           if (asked->look) {
             look(s, asked->look, LookFor::where);
             return true;
           }
           stage_with_port(s, Stage::lobe, asked->lobe);
           s.surer_of = asked->lobe_for;
           return true;
         }},
    Rule{"left only because they can't be seen",
         [](const View& v, Situation& s) {
           if (s.unseen_left.empty()) return false;
           const Ports others = v.walk([&](const JobPort& p) {
             return p.left() && !(p.seen == Saw::hidden && v.of(p.cylinder) == Reckoned::shut);
           });
           if (!others.empty()) return false;  // seen perhaps after the move that these need
           stage_with_port(s, Stage::unseen, s.unseen_left.front());
           JobState as_if = v.state;  // its look is made anew
           as_if.ports[v.model.index_of(s.port)].seen.reset();
           s.frees = chalk_holds(v.state) && reckoning(v.model, as_if).own_look_frees[v.model.index_of(s.port)];
           return true;
         }},
    Rule{"the crank moves",
         [](const View& v, Situation& s) {
           move(v, s);
           return true;
         }},
};

void sort_ports(const View& v, Situation& s) {
  for (size_t i = 0; i < v.state.ports.size(); ++i) {
    const JobPort& port = v.state.ports[i];
    if (port.look_due) s.looks_due.push_back(port.cylinder);
    if (port.loose) s.loose.push_back(port.cylinder);
    if (port.loose && !port.done) s.stopped.push_back(port.cylinder);
    if (port.maybe_inside) s.maybe_inside.push_back(port.cylinder);
    if (!port.done && !port.left()) s.not_in_job.push_back(port.cylinder);
    if (port.left() && v.reckoned.ports[i] == Reckoned::shut && port.seen == Saw::hidden)
      s.unseen_left.push_back(port.cylinder);
    if (port.done && v.state.chalk_due) s.after_port = port.cylinder;
  }
}

}  // namespace

std::string bank_name(const Engine& engine, size_t bank) {
  const std::vector<BankSpec>& banks = engine.spec.layout.banks;
  return banks.size() > 1 && bank < banks.size() ? banks[bank].name : "";
}

Situation situation(const JobModel& model, const JobState& state, const Reckoning& reckoned,
                    std::optional<int> picked) {
  const View v{model, state, reckoned, picked};
  Situation s;
  s.lost = reckoned.where.full();
  sort_ports(v, s);
  s.untouched = s.lost && state.position == 1 && state.cost.looks == 0 && !v.bungs_in();
  for (const Rule& rule : kRules) {
    s.rule = rule.name;
    if (rule.gives(v, s)) break;
  }
  // What comes after this position, where that is known already.
  if (!s.move && !state.nothing_left() && s.stage != Stage::disagreement) {
    PlannedMoves planned = planned_moves(model, state, reckoned, stuck_or_open(v), true);
    s.move = planned.move;
    s.ahead = std::move(planned.ahead);
  }
  return s;
}

}  // namespace shutlane
