#include "sim/cycle/runs.hpp"

#include <algorithm>
#include <limits>

#include "sim/cycle/cover.hpp"

namespace shutlane {

namespace {

using Ports = std::bitset<kMostSets>;  ///< one bit a set

/// Where a run of length `width` may start so that each set stays shut over it.
struct Starts {
  std::vector<double> from_deg;
  std::vector<Ports> serves;
};

/// The arc of the set that holds [from, from + width]; {0, 0} when none does.
Arc holder(const ArcSet& set, double from_deg, double width_deg) {
  for (const Arc& arc : set.arcs())
    if (arc.length_deg == kCycle_deg ||
        forward_or_same_deg(arc.from_deg, from_deg) + width_deg <= arc.length_deg + kSame_deg)
      return arc;
  return {};
}

Starts starts_of(const std::vector<ArcSet>& sure, double width_deg) {
  Starts starts;
  for (const ArcSet& set : sure)
    for (const Arc& arc : set.arcs()) {
      if (arc.length_deg < width_deg - kSame_deg) continue;
      const double from_deg = wrap_deg(arc.from_deg + std::max(0.0, arc.length_deg - width_deg));
      Ports serves;
      for (size_t k = 0; k < sure.size(); ++k)
        serves[k] = holder(sure[k], from_deg, width_deg).length_deg > 0;
      starts.from_deg.push_back(from_deg);
      starts.serves.push_back(serves);
    }
  return starts;
}

Run widened(const std::vector<ArcSet>& sure, double from_deg, double width_deg, std::vector<size_t> ports) {
  double back_deg = std::numeric_limits<double>::infinity(), ahead_deg = back_deg;
  for (const size_t k : ports) {
    const Arc arc = holder(sure[k], from_deg, width_deg);
    if (arc.length_deg == kCycle_deg) continue;
    const double before_deg = std::max(0.0, forward_or_same_deg(arc.from_deg, from_deg));
    back_deg = std::min(back_deg, before_deg);
    ahead_deg = std::min(ahead_deg, std::max(0.0, arc.length_deg - before_deg - width_deg));
  }
  if (back_deg > kCycle_deg) return {{0, kCycle_deg}, std::move(ports)};
  return {{wrap_deg(from_deg - back_deg), back_deg + width_deg + ahead_deg}, std::move(ports)};
}

std::vector<double> widths(const std::vector<ArcSet>& sure, double shortest_deg) {
  std::vector<double> all{shortest_deg};
  for (const ArcSet& start : sure)
    for (const Arc& a : start.arcs())
      for (const ArcSet& end : sure)
        for (const Arc& b : end.arcs())
          if (const double d = forward_deg(a.from_deg, b.to_deg()); d > shortest_deg) all.push_back(d);
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  return all;
}

std::vector<size_t> ports_in(const Ports& mask) {
  std::vector<size_t> ports;
  for (size_t k = 0; k < mask.size(); ++k)
    if (mask[k]) ports.push_back(k);
  return ports;
}

}  // namespace

size_t fewest_runs_count(const std::vector<ArcSet>& sure, double shortest_deg) {
  if (sure.empty()) return 0;
  Ports wanted;
  for (size_t k = 0; k < sure.size(); ++k) wanted.set(k);
  CoverBudget budget;
  const auto cover = smallest_cover(starts_of(sure, shortest_deg).serves, wanted, sure.size(), budget);
  return cover ? cover->size() : 0;
}

Runs fewest_runs(const std::vector<ArcSet>& sure, double shortest_deg, double from_deg) {
  if (sure.empty()) return {};
  Ports wanted;
  for (size_t k = 0; k < sure.size(); ++k) wanted.set(k);

  const std::vector<double> tried_deg = widths(sure, shortest_deg);
  Starts best = starts_of(sure, shortest_deg);
  CoverBudget budget;
  auto cover = smallest_cover(best.serves, wanted, sure.size(), budget);
  if (!cover) return {};
  double width_deg = shortest_deg;
  // Wider runs never serve more ports: bisect for the widest that needs no more positions.
  for (size_t low = 0, high = tried_deg.size(); high - low > 1;) {
    const size_t middle = low + (high - low) / 2;
    Starts starts = starts_of(sure, tried_deg[middle]);
    if (auto wider = smallest_cover(starts.serves, wanted, cover->size(), budget)) {
      low = middle;
      width_deg = tried_deg[middle];
      best = std::move(starts);
      cover = std::move(wider);
    } else {
      high = middle;
    }
  }

  Runs found;
  found.proven = budget.proven;
  if (cover->size() == 1)
    for (size_t i = 0; i < best.serves.size(); ++i)
      if ((wanted & ~best.serves[i]).none())
        found.alternatives.push_back(widened(sure, best.from_deg[i], width_deg, ports_in(wanted)));

  auto ahead_deg = [&](size_t i) { return forward_deg(from_deg, best.from_deg[i] + width_deg / 2); };
  std::sort(cover->begin(), cover->end(), [&](size_t a, size_t b) { return ahead_deg(a) < ahead_deg(b); });
  for (const size_t i : *cover) {
    found.runs.push_back(widened(sure, best.from_deg[i], width_deg, ports_in(best.serves[i] & wanted)));
    wanted &= ~best.serves[i];
  }
  return found;
}

}  // namespace shutlane
