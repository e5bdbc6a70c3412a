#include "sim/witness/next_look.hpp"

#include <algorithm>
#include <cmath>

namespace shutlane {
namespace {

constexpr double kWideOpen_deg = 20;

double expected_deg(const PortSets& port, const ArcSet& where) {
  const double whole_deg = where.total_deg();
  const double chance_shut = where.intersected(port.nominal).total_deg() / whole_deg;
  return chance_shut * where.intersected(port.if_shut).total_deg() +
         (1 - chance_shut) * where.intersected(port.if_open).total_deg();
}

/// How far the arc lies from the nearest end of the set; negative when it is not inside.
double room_deg(const ArcSet& set, const Arc& arc) {
  if (!set.covers(arc)) return -1;
  const Arc round = set.arc_at(arc.from_deg);
  if (round.length_deg >= kCycle_deg) return kCycle_deg;
  const double before_deg = wrap_deg(arc.from_deg - round.from_deg);
  return std::min(before_deg, round.length_deg - before_deg - arc.length_deg);
}

double log_of(double chance) { return std::log(std::max(chance, 1e-300)); }

}  // namespace

std::optional<int> look_that_narrows(const std::vector<PortSets>& ports, const ArcSet& where,
                                     const std::vector<int>& candidates) {
  double best_deg = where.total_deg() - kSame_deg;
  std::optional<int> found;
  for (const int cylinder : candidates) {
    const double after_deg = expected_deg(*sets_of(ports, cylinder), where);
    if (after_deg >= best_deg - (found ? kSame_deg : 0)) continue;
    best_deg = after_deg;
    found = cylinder;
  }
  return found;
}

std::optional<int> look_that_decides(const std::vector<PortSets>& ports, const ArcSet& where,
                                     const std::vector<int>& candidates) {
  std::optional<int> found;
  double most_deg = kWideOpen_deg;
  for (const int cylinder : candidates) {
    const PortSets& port = *sets_of(ports, cylinder);
    const ArcSet open = port.if_shut.complement();
    double shut_deg = -1, open_deg = -1;
    for (const Arc& arc : where.arcs()) {
      shut_deg = std::max(shut_deg, room_deg(port.sure, arc));
      open_deg = std::max(open_deg, room_deg(open, arc));
    }
    const double least_deg = std::min(shut_deg, open_deg);
    if (least_deg <= most_deg + kSame_deg) continue;
    most_deg = least_deg;
    found = cylinder;
  }
  return found;
}

std::optional<int> look_that_makes_surer(const Here& here, int doubtful, const std::vector<int>& candidates) {
  if (here.belief() == nullptr) return {};
  constexpr double kLeast = 0.05;  // of the logarithm: less is not worth the walk round the engine
  // Its expected value is the same whatever one looks at; its expected logarithm is not.
  double least = log_of(here.chance_open(doubtful)) - kLeast;
  std::optional<int> found;
  for (const int port : candidates) {
    if (here.looked_since_pause(port)) continue;
    const Belief::AfterLook after = here.belief()->open_after_look(doubtful, port, here.answer(port));
    const double expected =
        after.called_shut * log_of(after.open_if_shut) + (1 - after.called_shut) * log_of(after.open_if_open);
    if (expected >= least) continue;
    least = expected;
    found = port;
  }
  return found;
}

}  // namespace shutlane
