#include "sim/witness/locate.hpp"

#include <algorithm>
#include <bitset>

#include "sim/cycle/cover.hpp"
#include "sim/witness/next_look.hpp"

namespace shutlane {

namespace {

/// One thing seen, and where the crank can stand if it is true.
struct Witness {
  int shut = 0, open = 0;  ///< the cylinder, 0: not that kind; both 0: the crank mark
  ArcSet allows;
};

std::vector<Witness> witnesses_of(const Engine& engine, const Looks& looks) {
  std::vector<Witness> all;
  for (const Cylinder& c : engine.cylinders) {
    if (std::find(looks.shut.begin(), looks.shut.end(), c.number) != looks.shut.end())
      all.push_back({c.number, 0, surely_above(engine, c, looks.eye_mm).complement()});
    if (std::find(looks.open.begin(), looks.open.end(), c.number) != looks.open.end())
      all.push_back({0, c.number, shut_within_tolerance(engine, c).complement()});
  }
  if (looks.mark) {
    all.push_back({0, 0, mark_arcs(*looks.mark)});
  }
  return all;
}

ArcSet all_true(const std::vector<Witness>& witnesses, int but_for_cylinder = 0) {
  ArcSet set = ArcSet::all();
  for (const Witness& w : witnesses)
    if (but_for_cylinder == 0 || (w.shut != but_for_cylinder && w.open != but_for_cylinder))
      set = set.intersected(w.allows);
  return set;
}

Contradiction named(const std::vector<Witness>& witnesses, const std::vector<size_t>& which) {
  Contradiction c;
  for (const size_t i : which) {
    const Witness& w = witnesses[i];
    if (w.shut != 0) c.shut.push_back(w.shut);
    if (w.open != 0) c.open.push_back(w.open);
    if (w.shut == 0 && w.open == 0) c.mark = true;
  }
  std::sort(c.shut.begin(), c.shut.end());
  std::sort(c.open.begin(), c.open.end());
  return c;
}

/// Looks contradict each other when the angles that they exclude cover the cycle: the smallest such set is a
/// cover of the pieces between the ends of all excluded arcs (a small one where there are dozens of looks).
Contradiction smallest_contradiction(const std::vector<Witness>& witnesses) {
  constexpr size_t kPieces = 1024;
  std::vector<size_t> everything(witnesses.size());
  for (size_t i = 0; i < everything.size(); ++i) everything[i] = i;
  std::vector<double> ends{0};
  for (const Witness& w : witnesses)
    for (const Arc& arc : w.allows.arcs()) {
      ends.push_back(wrap_deg(arc.from_deg));
      ends.push_back(wrap_deg(arc.to_deg()));
    }
  std::sort(ends.begin(), ends.end());
  ends.push_back(kCycle_deg);

  std::vector<std::bitset<kPieces>> excludes(witnesses.size());
  std::bitset<kPieces> pieces;
  size_t piece = 0;
  for (size_t i = 0; i + 1 < ends.size(); ++i) {
    if (ends[i + 1] - ends[i] < kSame_deg) continue;
    if (piece == kPieces) return named(witnesses, everything);  // a part of the cycle would be left out
    const double middle_deg = ends[i] + (ends[i + 1] - ends[i]) / 2;
    pieces.set(piece);
    for (size_t w = 0; w < witnesses.size(); ++w)
      excludes[w][piece] = !witnesses[w].allows.contains(middle_deg);
    ++piece;
  }
  CoverBudget budget{20'000};
  return named(witnesses, smallest_cover(excludes, pieces, witnesses.size(), budget).value_or(everything));
}

}  // namespace

Location locate(const Engine& engine, const Looks& looks) {
  Location found;
  const std::vector<Witness> witnesses = witnesses_of(engine, looks);
  found.consistent = all_true(witnesses);
  if (found.consistent.empty()) {
    found.contradiction = smallest_contradiction(witnesses);
    return found;
  }
  const std::vector<PortSets> ports = port_sets(engine, looks.eye_mm);
  std::vector<int> not_answered;
  for (const PortSets& port : ports) {
    if (port.tolerant.covers(found.consistent)) {
      found.surely_shut.push_back(port.cylinder);
      if (port.tolerant.covers(all_true(witnesses, port.cylinder))) found.witnessed.push_back(port.cylinder);
    } else if (surely_above(engine, *engine.find(port.cylinder), 0).covers(found.consistent)) {
      found.surely_open.push_back(port.cylinder);
    } else {
      found.undecided.push_back(port.cylinder);
      const auto answered = [&](const Witness& w) {
        return w.shut == port.cylinder || w.open == port.cylinder;
      };
      if (std::none_of(witnesses.begin(), witnesses.end(), answered)) not_answered.push_back(port.cylinder);
    }
  }
  found.next_look = look_that_narrows(ports, found.consistent, not_answered);
  return found;
}

}  // namespace shutlane
