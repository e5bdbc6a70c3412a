#include "sim/plan/plan_from_looks.hpp"

#include <algorithm>

#include "sim/witness/next_look.hpp"
#include "sim/witness/turn_space.hpp"

namespace shutlane {

namespace {

bool names(const std::vector<int>& list, int number) {
  return std::find(list.begin(), list.end(), number) != list.end();
}

/// The windows of every port over the turn from here instead of over the crank angle: a turn is in a window
/// when it is right from every angle where the crank can stand. The planner then needs no angle.
std::vector<Windows> over_the_turn(const std::vector<PortSets>& ports, const ArcSet& stands,
                                   const std::vector<int>& blast_now) {
  std::vector<Windows> all;
  for (const PortSets& p : ports) {
    Windows w;
    w.cylinder = p.cylinder;
    w.shut = turns_into(p.nominal, stands);
    w.within_tolerance = turns_into(p.tolerant, stands);
    w.sure = turns_into(p.sure, stands);
    // Surely shut here, but on its own look alone: not here, then.
    if (!names(blast_now, p.cylinder)) w.sure = w.sure.minus(ArcSet({{-3 * kSame_deg, 6 * kSame_deg}}));
    all.push_back(std::move(w));
  }
  return all;
}

/// As `locate` has it: of the ports that were not answered.
std::optional<int> next_look(const std::vector<PortSets>& ports, const Evidence& evidence,
                             const ArcSet& stands, const std::vector<int>& cant_see) {
  std::vector<int> candidates;
  for (const PortSets& p : ports)
    if (!names(evidence.looks.shut, p.cylinder) && !names(evidence.looks.open, p.cylinder) &&
        !names(cant_see, p.cylinder))
      candidates.push_back(p.cylinder);
  return look_that_narrows(ports, stands, candidates);
}

double longest_arc_deg(const ArcSet& set) {
  double longest = 0;
  for (const Arc& arc : set.arcs()) longest = std::max(longest, arc.length_deg);
  return longest;
}

/// One full turn for whatever is left: right from every angle, though nobody knows which ports it serves.
void add_full_turn(WrenchPlan& plan, const std::vector<Windows>& turning, const LooksPlanQuestion& question,
                   const std::vector<int>& blast_now) {
  Position first, second;
  first.blast = blast_now;
  second.at_deg = second.turn_deg = kTurn_deg;
  second.turn_min_deg = kTurn_deg - question.accuracy_deg;
  second.turn_max_deg = kTurn_deg + question.accuracy_deg;
  const double miss_deg = question.accuracy_deg;
  for (const Windows& w : turning) {
    if (!w.sure.covers(Arc{0, 0})) first.not_shut.push_back(w.cylinder);
    const bool sure = w.sure.covers(Arc{wrap_deg(kTurn_deg - miss_deg), 2 * miss_deg});
    if (!sure) second.not_shut.push_back(w.cylinder);
    if (sure && names(question.left, w.cylinder) && !names(blast_now, w.cylinder))
      second.blast.push_back(w.cylinder);
    const bool loose = names(question.done, w.cylinder) || names(blast_now, w.cylinder);
    if (loose && !w.within_tolerance.covers(Arc{0, kTurn_deg + miss_deg}))
      second.suck_out_before.push_back(w.cylinder);
  }
  plan.total_turn_deg = kTurn_deg;
  plan.narrowest_run_deg = 2 * miss_deg;
  plan.positions = {std::move(first), std::move(second)};
}

}  // namespace

LooksPlan plan_from_looks(const Engine& engine, const Evidence& evidence, const LooksPlanQuestion& question) {
  const std::vector<PortSets> ports = port_sets(engine, evidence.looks.eye_mm, question.margin_deg);
  LooksPlan plan;
  plan.stands = stands(ports, evidence);
  plan.mends = mends(ports, evidence);
  if (plan.contradiction()) return plan;
  plan.one_full_turn = one_full_turn_always(shut_windows(engine, question.margin_deg), question.accuracy_deg);

  for (const PortSets& p : ports)
    if (names(question.left, p.cylinder) && !names(evidence.looks.open, p.cylinder) &&
        witnessed(ports, evidence, p.cylinder, question.rule)) {
      plan.blast_now.push_back(p.cylinder);
      if (names(evidence.looks.shut, p.cylinder)) plan.seen.push_back(p.cylinder);
    } else if (names(question.left, p.cylinder) && p.sure.covers(plan.stands)) {
      plan.own_look_only.push_back(p.cylinder);
    }
  if (plan.blast_now.empty()) plan.look_to_blast = next_look(ports, evidence, plan.stands, question.cant_see);
  const std::vector<Windows> turning = over_the_turn(ports, plan.stands, plan.blast_now);
  WrenchQuestion ask{0, 0, question.accuracy_deg, {}, question.done};
  for (const Windows& w : turning) {
    if (!names(question.left, w.cylinder)) continue;
    const bool placed = names(plan.blast_now, w.cylinder) ||
                        (!w.sure.empty() && longest_arc_deg(w.sure) >= 2 * question.accuracy_deg - kSame_deg);
    (placed ? ask.left : plan.unplaced).push_back(w.cylinder);
  }
  if (plan.unplaced.empty()) plan.turns = plan_wrench(turning, ask);
  // With that rule two positions do, wherever the crank stands; turns right from every angle at once may be
  // more.
  if (plan.one_full_turn && (!plan.unplaced.empty() || plan.turns.turns() > 1)) {
    add_full_turn(plan.turns, turning, question, plan.blast_now);
    for (const int number : question.left)
      if (!names(plan.blast_now, number) && !names(plan.turns.positions[1].blast, number) &&
          !names(plan.unplaced, number))
        plan.unplaced.push_back(number);
    std::sort(plan.unplaced.begin(), plan.unplaced.end());
  } else if (!plan.unplaced.empty()) {
    plan.look_next = next_look(ports, evidence, plan.stands, question.cant_see);
  }
  for (size_t i = 0; i < plan.turns.positions.size(); ++i)
    plan.at.push_back(
        plan.stands.shifted(plan.turns.positions[i].at_deg).grown(i == 0 ? 0 : question.accuracy_deg));
  return plan;
}

LooksPlan plan_from_looks(const Engine& engine, const Looks& looks, const LooksPlanQuestion& question) {
  return plan_from_looks(engine, Evidence{looks, ArcSet::all()}, question);
}

}  // namespace shutlane
