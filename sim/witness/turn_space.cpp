#include "sim/witness/turn_space.hpp"

namespace shutlane {

ArcSet turns_into(const ArcSet& good, const ArcSet& stands) {
  ArcSet turns = ArcSet::all();
  if (good.full()) return turns;
  for (const Arc& start : stands.arcs()) {
    std::vector<Arc> right;
    for (const Arc& arc : good.arcs())
      if (arc.length_deg >= start.length_deg)
        right.push_back({arc.from_deg - start.from_deg, arc.length_deg - start.length_deg});
    turns = turns.intersected(ArcSet(std::move(right)));
  }
  return turns;
}

}  // namespace shutlane
