#include "sim/belief/next_step.hpp"

#include <algorithm>
#include <cmath>

namespace shutlane {

namespace {

constexpr double kWorthALook = 0.2;  ///< least chance that looking on brings a port to be blasted here

bool lists(const std::vector<int>& list, int number) {
  return std::find(list.begin(), list.end(), number) != list.end();
}

/// Of the turns that the hand feels, the one that serves most of the ports left, from most of the angles.
double best_hand_turn_deg(const std::vector<PortSets>& ports, const ArcSet& stands,
                          const LooksPlanQuestion& question) {
  double best_deg = 360, best = -1;
  for (const double turn_deg : {360.0, 180.0, 540.0}) {
    double served = 0;
    for (const PortSets& p : ports)
      if (lists(question.left, p.cylinder))
        served += stands.shifted(turn_deg).intersected(p.sure.shrunk(question.accuracy_deg)).total_deg();
    if (served > best + kSame_deg) {
      best = served;
      best_deg = turn_deg;
    }
  }
  return best_deg;
}

/// The port that says most about whether `doubtful` is open: the least expected logarithm of that chance (its
/// expected value is the same whatever one looks at).
std::optional<int> look_against_doubt(const std::vector<PortSets>& ports, const LooksPlanQuestion& question,
                                      const DoubtLimit& doubt, int doubtful) {
  const auto log_of = [](double chance) { return std::log(std::max(chance, 1e-300)); };
  std::optional<int> found;
  double least = log_of(doubt.belief->chance_open(doubtful)) - 1e-6;
  for (const PortSets& p : ports) {
    if (lists(doubt.fresh, p.cylinder) || lists(question.cant_see, p.cylinder)) continue;
    const Belief::AfterLook after = doubt.belief->open_after_look(doubtful, p.cylinder);
    const double expected =
        after.called_shut * log_of(after.open_if_shut) + (1 - after.called_shut) * log_of(after.open_if_open);
    if (expected < least) {
      least = expected;
      found = p.cylinder;
    }
  }
  return found;
}

}  // namespace

NextStep next_step(const Engine& engine, const std::vector<PortSets>& ports, const Evidence& evidence,
                   const LooksPlanQuestion& question, const DoubtLimit& doubt) {
  NextStep step;
  if (question.left.empty()) return step;
  const ArcSet where = stands(ports, evidence);
  if (where.empty()) {
    step.kind = StepKind::disagree;
    return step;
  }
  std::vector<int> doubtful;
  for (const int port : question.left) {
    if (!lists(evidence.looks.shut, port) || !witnessed(ports, evidence, port, question.rule)) continue;
    const bool doubted = doubt.belief != nullptr && doubt.belief->chance_open(port) > doubt.most_open;
    (doubted ? doubtful : step.ports).push_back(port);
  }
  if (!step.ports.empty()) {
    step.kind = StepKind::blast;
    return step;
  }
  for (const int port : doubtful)
    if (const auto next = look_against_doubt(ports, question, doubt, port)) {
      step.kind = StepKind::look;
      step.ports = {*next};
      return step;
    }
  LookQuestion look;
  look.rule = question.rule;
  look.left = question.left;
  look.cant_see = question.cant_see;
  // Still doubtful with every port fresh: not here.
  for (const int port : doubtful) std::erase(look.left, port);
  const LookTree tree = look_tree(ports, evidence, look);
  if (tree.next && 1 - tree.stuck >= kWorthALook) {
    step.kind = StepKind::look;
    step.ports = {*tree.next};
    return step;
  }
  // Leaving: is there a turn that is right wherever the crank stands, and would a look make it fewer turns?
  look.enough = Enough::plan;
  look.left = question.left;
  look.accuracy_deg = question.accuracy_deg;
  const LookTree planning = look_tree(ports, evidence, look);
  if (planning.next && 1 - planning.stuck >= kWorthALook) {
    step.kind = StepKind::look;
    step.ports = {*planning.next};
    return step;
  }
  step.kind = StepKind::turn;
  const LooksPlan plan = plan_from_looks(engine, evidence, question);
  if (plan.unplaced.empty() && plan.turns.turns() > 0)
    step.turn_deg = plan.turns.positions[1].turn_deg;
  else
    step.turn_deg = best_hand_turn_deg(ports, where, question);
  return step;
}

ArcSet after_turn(const std::vector<PortSets>& ports, const Evidence& evidence, double turn_deg,
                  double accuracy_deg) {
  return stands(ports, evidence).shifted(turn_deg).grown(accuracy_deg);
}

}  // namespace shutlane
