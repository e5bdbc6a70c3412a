#pragma once
// The least number of points that pierce one arc at least of every family: an integer programme for GLPK.
#include <vector>

#include "sim/cycle/arc_set.hpp"

namespace shutlane::test {

/// families[k]: closed arcs of which one must hold a point. `slack_deg` counts as inside. A point can always
/// be moved on to the nearest end of an arc that holds it, so ends of arcs are the only candidates. -1 when a
/// family is empty.
int fewest_points(const std::vector<std::vector<Arc>>& families, double slack_deg = 0.5e-6);

/// The arcs on which a position may be aimed for a cylinder: `by_deg` inside both ends; touching ends count.
std::vector<Arc> aims(const ArcSet& sure, double by_deg);

}  // namespace shutlane::test
