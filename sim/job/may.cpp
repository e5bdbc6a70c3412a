#include "sim/job/may.hpp"

#include <algorithm>

#include "sim/witness/next_look.hpp"

namespace shutlane {

bool witnesses_agree(const JobModel& model, const JobState& state, int cylinder) {
  const size_t i = model.index_of(cylinder);
  if (i == model.ports.size() || state.blasting || state.looks_due()) return false;
  const JobPort& port = state.ports[i];
  if (!port.left() || port.seen != Saw::shut) return false;
  if (state.here.where(model).empty()) return false;
  return reckon(model.ports[i], state.here.where_without(model, i)) == Reckoned::shut;
}

bool few_ports(const JobModel& model) { return model.ports.size() <= 5; }

bool lobes_seen(const JobModel& model, const JobState& state) {
  return model.rules.lobes_visible && (state.lobe_told || state.lobes_hidden < 2);
}

double limit_of_doubt(const JobModel& model) {
  // With less, whole jobs on three ports took dozens of moves or never ended (tests/job/whole_jobs_test).
  return model.ports.size() <= 3 ? std::max(3e-3, model.rules.most_open) : model.rules.most_open;
}

double limit_of_harm(const JobModel& model, const JobState& state) {
  const double most = model.rules.most_harmed * (state.mark_here ? 1 : 2);
  return model.ports.size() <= 3 ? std::max(1e-3, most) : most;
}

namespace {

bool own_look_frees(const JobModel& model, const JobState& state, const JobPort& port) {
  if (!port.left() || state.looks_due() || (port.seen && port.seen != Saw::shut)) return false;
  const double most_open = limit_of_doubt(model);
  if (most_open >= 1) return true;
  Here after = state.here;  // told in full, so that what is offered is what will be allowed
  after.tell(model, LookedInto{port.cylinder, Saw::shut});
  return after.chance_open(port.cylinder) < most_open &&
         after.chance_harmed(port.cylinder) < limit_of_harm(model, state);
}

}  // namespace

Reckoning reckoning(const JobModel& model, const JobState& state) {
  Reckoning found{state.here.where(model), {}, {}, {}};
  for (size_t i = 0; i < state.ports.size(); ++i) {
    found.without.push_back(state.here.where_without(model, i));
    found.ports.push_back(reckon(model.ports[i], found.without[i]));
    found.own_look_frees.push_back(!found.contradiction() && found.ports[i] == Reckoned::shut &&
                                   own_look_frees(model, state, state.ports[i]));
  }
  return found;
}

bool chalk_holds(const JobState& state) { return state.no_chalk || (state.chalk_here && !state.chalk_due); }

bool may_blast_by_looks(const JobModel& model, const JobState& state, int cylinder) {
  // Its bung is out for the blast, and a look costs nothing then. Of simulated jobs, four in 50,000 blasted a
  // port whose crank had been moved while another was blasted, and one in 30,000 one that a crumb held open
  // and whose only look had gone into another port.
  if (!witnesses_agree(model, state, cylinder) || state.find(cylinder)->look_old) return false;
  const double most_open = limit_of_doubt(model);
  return most_open >= 1 || (state.here.chance_open(cylinder) < most_open &&
                            state.here.chance_harmed(cylinder) < limit_of_harm(model, state));
}

bool may_blast(const JobModel& model, const JobState& state, int cylinder) {
  return chalk_holds(state) && may_blast_by_looks(model, state, cylinder);
}

std::optional<int> surer_look(const JobState& state, const Reckoning& reckoned, int cylinder) {
  // The ports of a bank that is left out are witnesses all the same, where those of the job say too little.
  std::vector<int> in_job, others;
  for (size_t i = 0; i < state.ports.size(); ++i) {
    const JobPort& port = state.ports[i];
    if (port.cylinder == cylinder || !port.reachable || port.seen == Saw::hidden) continue;
    if (state.worked_here && (reckoned.ports[i] != Reckoned::shut || port.seen == Saw::open)) continue;
    (port.in_job ? in_job : others).push_back(port.cylinder);
  }
  if (const auto look = look_that_makes_surer(state.here, cylinder, in_job)) return look;
  return look_that_makes_surer(state.here, cylinder, others);
}

bool mark_at_hand(const JobModel& model, const JobState& state) {
  return !state.no_mark && !state.mark_here &&
         (model.rules.turn_by != TurnBy::starter || model.rules.wrench_too);
}

std::optional<WaitsFor> waits_for(const JobModel& model, const JobState& state, const Reckoning& reckoned,
                                  int cylinder) {
  if (!witnesses_agree(model, state, cylinder) || may_blast(model, state, cylinder)) return {};
  using What = WaitsFor::What;
  if (may_blast_by_looks(model, state, cylinder)) return WaitsFor{What::chalk, 0};
  if (reckoned.own_look_frees[model.index_of(cylinder)])
    return chalk_holds(state) ? WaitsFor{What::look, cylinder} : WaitsFor{What::chalk, 0};
  if (const auto look = surer_look(state, reckoned, cylinder)) return WaitsFor{What::look, *look};
  if (mark_at_hand(model, state)) return WaitsFor{What::mark, 0};
  return {};
}

}  // namespace shutlane
