#pragma once
// Turns that are right from every angle of a set.
#include "sim/witness/evidence.hpp"

namespace shutlane {

/// The turns t in [0, 720), as arcs, after which the crank lies in `good` from wherever in `stands` it
/// started; all turns when `stands` is empty.
ArcSet turns_into(const ArcSet& good, const ArcSet& stands);

}  // namespace shutlane
