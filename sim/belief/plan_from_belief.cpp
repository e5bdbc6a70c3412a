#include "sim/belief/plan_from_belief.hpp"

#include <algorithm>

namespace shutlane {

namespace {

constexpr double kNearlyAsGood = 0.01;

std::vector<char> inside(const ArcSet& set) {
  std::vector<char> in(kBeliefBins);
  for (size_t bin = 0; bin < kBeliefBins; ++bin)
    in[bin] = set.contains(static_cast<double>(bin) * kBeliefStep_deg) ? 1 : 0;
  return in;
}

/// Middle of the longest run of bins that are within a hair of the best.
size_t middle_of_best(const std::vector<double>& served) {
  const double best = *std::max_element(served.begin(), served.end());
  size_t found = 0, longest = 0;
  for (size_t from = 1; from < served.size(); ++from) {
    size_t length = 0;
    while (from + length < served.size() && served[from + length] >= best - 1e-9) ++length;
    if (length > longest) {
      longest = length;
      found = from + length / 2;
    }
    from += length;
  }
  return found;
}

}  // namespace

BeliefPlan plan_from_belief(const Engine& engine, const Belief& belief, const Evidence& evidence,
                            const LooksPlanQuestion& question) {
  BeliefPlan plan;
  plan.doubt = belief.doubt();
  const std::vector<PortSets> ports = port_sets(engine, evidence.looks.eye_mm, question.margin_deg);
  const std::vector<double> angles = belief.angles();
  std::vector<std::vector<double>> by_turn;
  std::vector<double> served(kBeliefBins, 0.0);
  for (const PortSets& p : ports) {
    if (std::find(question.left.begin(), question.left.end(), p.cylinder) == question.left.end()) continue;
    const std::vector<char> here = inside(p.sure), there = inside(p.sure.shrunk(question.accuracy_deg));
    std::vector<double> chance(kBeliefBins, 0.0);
    double now = 0;
    for (size_t bin = 0; bin < kBeliefBins; ++bin) {
      if (here[bin]) {
        now += angles[bin];
        continue;
      }
      if (angles[bin] < 1e-12) continue;
      for (size_t turn = 0; turn < kBeliefBins; ++turn)
        if (there[(bin + turn) % kBeliefBins]) chance[turn] += angles[bin];
    }
    for (size_t turn = 0; turn < kBeliefBins; ++turn) served[turn] += chance[turn] += now;
    plan.ports.push_back({p.cylinder, belief.chance_shut(p.cylinder), 0});
    by_turn.push_back(std::move(chance));
  }
  if (plan.ports.empty()) return plan;
  size_t turn = middle_of_best(served);
  for (const double by_hand_deg : {360.0, 180.0, 540.0}) {
    const size_t bin = static_cast<size_t>(by_hand_deg / kBeliefStep_deg);
    if (served[bin] < served[turn] - kNearlyAsGood) continue;
    turn = bin;
    plan.hand_turn = true;
    break;
  }
  plan.turn_deg = static_cast<double>(turn) * kBeliefStep_deg;
  plan.served_ports = served[turn];
  for (size_t k = 0; k < plan.ports.size(); ++k) plan.ports[k].served = by_turn[k][turn];

  LookQuestion look;
  look.rule = question.rule;
  look.left = question.left;
  look.cant_see = question.cant_see;
  look.chances = angles;
  plan.next_look = look_tree(ports, evidence, look).next;
  return plan;
}

}  // namespace shutlane
