// Bumps first, the wrench to finish: at every rest, another bump or the wrench for all that is left.
#include <algorithm>
#include <cmath>
#include <unordered_map>

#include "sim/cycle/angle.hpp"
#include "sim/plan/bump_plan.hpp"

namespace shutlane {

/// Fewest aimed positions that between them reach every port left. A turn forward of up to a full cycle
/// reaches any angle, so the number does not depend on where the crank stands.
int BumpPlanner::wrench_turns(PortSet left, const std::vector<PortSet>& aims) const {
  std::vector<PortSet> reached{0};
  for (int turns = 0; turns <= int(number_at_.size()); ++turns) {
    for (const PortSet r : reached)
      if ((left & ~r) == 0) return turns;
    std::vector<PortSet> more;
    for (const PortSet r : reached)
      for (const PortSet a : aims) more.push_back(r | (a & left));
    std::sort(more.begin(), more.end());
    more.erase(std::unique(more.begin(), more.end()), more.end());
    reached = std::move(more);
  }
  return -1;
}

MixedPlan BumpPlanner::mixed(const BumpStart& start, const std::vector<int>& left_numbers,
                             double accuracy_deg, double turn_cost) {
  // The set of ports within reach of an aim changes only at the ends of the windows drawn in by the accuracy.
  std::vector<PortSet> aims;
  std::vector<ArcSet> drawn_in;
  for (const Windows& w : windows_) drawn_in.push_back(w.sure.shrunk(accuracy_deg));
  for (const ArcSet& set : drawn_in)
    for (const Arc& arc : set.arcs())
      for (const double aim : {arc.from_deg, wrap_deg(arc.to_deg())}) {
        PortSet at = 0;
        for (size_t i = 0; i < windows_.size(); ++i)
          if (drawn_in[i].contains(aim)) at |= ports({windows_[i].cylinder});
        aims.push_back(at);
      }
  std::sort(aims.begin(), aims.end());
  aims.erase(std::unique(aims.begin(), aims.end()), aims.end());

  std::unordered_map<PortSet, int> turns;
  const auto turns_for = [&](PortSet set) {
    const auto found = turns.find(set);
    if (found != turns.end()) return found->second;
    return turns.emplace(set, wrench_turns(set, aims)).first->second;
  };
  const auto stop = [&](PortSet set) { return turns_for(set) < 0 ? kNever : turn_cost * turns_for(set); };

  MixedPlan plan;
  const PortSet left = ports(left_numbers);
  const std::vector<Case> all = cases(start, left);
  plan.expected_bumps_only = expected(solver_, all, first_presses(start));
  BumpSolver solver(law_, bins_, {}, stop);

  // The first move is one for the whole start; after it the looks tell where the crank stands.
  double by_wrench = 0;
  for (const Case& c : all) {
    double weight = 0;
    for (const auto& b : c.bins) weight += b.second;
    by_wrench += weight * (c.left == 0 ? 0 : stop(c.left));
    plan.turns_if_wrench_only = std::max(plan.turns_if_wrench_only, c.left == 0 ? 0 : turns_for(c.left));
  }
  const bool open_start = !start.known || start.known->length_deg > 2 * accuracy_deg;
  if (open_start) by_wrench = kNever;  // a turn cannot be aimed from an angle that is not known
  const double by_bump = expected(solver, all, first_presses(start));
  plan.wrench_first = by_wrench <= by_bump;
  plan.expected_moves = std::min(by_wrench, by_bump);
  if (plan.wrench_first) {
    plan.expected_turns = turn_cost > 0 ? by_wrench / turn_cost : plan.turns_if_wrench_only;
    return plan;
  }
  // Follow the policy to tell bumps from turns.
  int first = -1;
  double best = kNever;
  for (const int h : first_presses(start)) {
    double sum = 0;
    for (const Case& c : all)
      for (const auto& [bin, weight] : c.bins) sum += weight * solver.bumps_with(bin, c.left, h);
    if (sum < best) {
      best = sum;
      first = h;
    }
  }
  plan.press_s = table_->presses_s[size_t(first)];
  std::unordered_map<PortSet, std::vector<double>> now, then;  // chance of (ports left, bin), still bumping
  for (const Case& c : all)
    for (const auto& [bin, weight] : c.bins) {
      auto& row = now[c.left];
      if (row.empty()) row.assign(kBins, 0);
      row[size_t(bin)] += weight;
    }
  for (int move = 0; move < 10000; ++move) {
    double bumping = 0;
    then.clear();
    for (const auto& [set, row] : now)
      for (int b = 0; b < kBins; ++b) {
        const double chance = row[size_t(b)];
        if (chance <= 0) continue;
        const PortSet here = move == 0 ? set : set & ~bins_.sure[size_t(b)];
        if (here == 0) continue;
        const int press = move == 0 ? first : solver.best_press(b, here);
        if (press < 0) {
          plan.expected_turns += chance * turns_for(here);
          continue;
        }
        plan.expected_bumps += chance;
        bumping += chance;
        law_.rests(b, press, [&](int rest, double p) {
          auto& to = then[here];
          if (to.empty()) to.assign(kBins, 0);
          to[size_t(rest)] += chance * p;
        });
      }
    std::swap(now, then);
    if (bumping < 1e-12) break;
  }
  return plan;
}

}  // namespace shutlane
