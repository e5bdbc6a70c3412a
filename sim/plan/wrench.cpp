#include "sim/plan/wrench.hpp"

#include <algorithm>

#include "sim/mechanism/ranges.hpp"
#include <cmath>

#include "sim/cycle/runs.hpp"

namespace shutlane {

namespace {

static_assert(ranges::cylinder_number.high < kMostSets);

struct Aim {
  double turn_deg = 0;
  int rank = 0;  ///< 0 a full turn, 1 half a turn, 2 one and a half, 3 the middle of the run
};

/// Where to aim inside the run: a turn that the hand can feel, if it lies well inside.
Aim aim_inside(const Arc& run, double before_deg, double miss_deg) {
  int rank = 0;
  for (const double turn_deg : {360.0, 180.0, 540.0}) {
    const double into_deg = forward_or_same_deg(run.from_deg, before_deg + turn_deg);
    const double left_deg = run.length_deg - into_deg;
    const double edge_deg = std::max(run.length_deg / 4, miss_deg) - kSame_deg;
    if (into_deg >= edge_deg && left_deg >= edge_deg) return {turn_deg, rank};
    ++rank;
  }
  const double turn_deg = forward_deg(before_deg, run.from_deg + run.length_deg / 2);
  return {turn_deg > 0 ? turn_deg : kCycle_deg, rank};
}

/// Ports of the engine that are not surely shut over the whole interval.
std::vector<int> not_shut_over(const std::vector<Windows>& windows, const Arc& interval) {
  std::vector<int> ports;
  for (const Windows& w : windows)
    if (!w.sure.covers(interval)) ports.push_back(w.cylinder);
  return ports;
}

std::vector<int> loose_on_the_way(const std::vector<Windows>& windows, const std::vector<int>& blasted,
                                  const Arc& swept) {
  std::vector<int> ports;
  for (const Windows& w : windows)
    if (std::find(blasted.begin(), blasted.end(), w.cylinder) != blasted.end() &&
        !w.within_tolerance.covers(swept))
      ports.push_back(w.cylinder);
  return ports;
}

double longest_deg(const ArcSet& set) {
  double longest = 0;
  for (const Arc& arc : set.arcs()) longest = std::max(longest, arc.length_deg);
  return longest;
}

}  // namespace

WrenchPlan plan_wrench(const std::vector<Windows>& windows, const WrenchQuestion& question) {
  WrenchPlan plan;
  const double from_deg = wrap_deg(question.from_deg);
  const double start_miss_deg = question.plus_minus_deg;
  const double miss_deg = question.accuracy_deg + question.plus_minus_deg;
  const Arc start{wrap_deg(from_deg - start_miss_deg), 2 * start_miss_deg};

  Position first;
  first.at_deg = from_deg;
  first.not_shut = not_shut_over(windows, start);
  std::vector<int> later;
  std::vector<ArcSet> sure;
  for (const Windows& w : windows) {
    if (std::find(question.left.begin(), question.left.end(), w.cylinder) == question.left.end()) continue;
    if (w.sure.covers(start)) {
      first.blast.push_back(w.cylinder);
    } else if (longest_deg(w.sure) < 2 * miss_deg - kSame_deg || w.sure.empty()) {
      plan.no_plan.push_back(w.cylinder);
    } else {
      later.push_back(w.cylinder);
      sure.push_back(w.sure);
    }
  }
  if (!plan.no_plan.empty()) return plan;
  std::vector<int> blasted = question.done;
  blasted.insert(blasted.end(), first.blast.begin(), first.blast.end());
  plan.positions.push_back(std::move(first));

  Runs found = fewest_runs(sure, 2 * miss_deg, from_deg);
  plan.proven = found.proven;
  if (found.runs.size() == 1)  // of equally good runs take the one where the turn is easiest to feel
    found.runs[0] = *std::min_element(
        found.alternatives.begin(), found.alternatives.end(), [&](const Run& a, const Run& b) {
          const Aim x = aim_inside(a.run, from_deg, miss_deg), y = aim_inside(b.run, from_deg, miss_deg);
          return x.rank != y.rank ? x.rank < y.rank : x.turn_deg < y.turn_deg;
        });

  for (const Run& run : found.runs) {
    const double before_deg = plan.positions.back().at_deg;
    const double before_miss_deg = plan.positions.size() == 1 ? start_miss_deg : miss_deg;
    Position p;
    p.turn_deg = aim_inside(run.run, before_deg, miss_deg).turn_deg;
    p.at_deg = wrap_deg(before_deg + p.turn_deg);
    // The run, unrolled around the aim, and drawn in by how far off the position before may be.
    const double into_deg = std::max(0.0, forward_or_same_deg(run.run.from_deg, before_deg + p.turn_deg));
    p.turn_min_deg = std::max(0.0, p.turn_deg - into_deg + before_miss_deg);
    p.turn_max_deg = p.turn_deg + run.run.length_deg - into_deg - before_miss_deg;
    for (const size_t k : run.ports) p.blast.push_back(later[k]);
    p.not_shut = not_shut_over(windows, {wrap_deg(p.at_deg - miss_deg), 2 * miss_deg});
    p.suck_out_before = loose_on_the_way(windows, blasted, {before_deg, p.turn_max_deg});
    blasted.insert(blasted.end(), p.blast.begin(), p.blast.end());
    plan.total_turn_deg += p.turn_deg;
    plan.narrowest_run_deg = plan.positions.size() == 1
                                 ? run.run.length_deg
                                 : std::min(plan.narrowest_run_deg, run.run.length_deg);
    plan.positions.push_back(std::move(p));
  }
  return plan;
}

bool one_full_turn_always(const std::vector<Windows>& windows, double accuracy_deg, double plus_minus_deg) {
  for (const Windows& w : windows) {
    const ArcSet not_at_start = w.sure.shrunk(plus_minus_deg).complement();
    const ArcSet good_aim = w.sure.shrunk(accuracy_deg + plus_minus_deg);
    if (!good_aim.covers(not_at_start.shifted(kTurn_deg))) return false;
  }
  return true;
}

}  // namespace shutlane
