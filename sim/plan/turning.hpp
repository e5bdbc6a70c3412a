#pragma once
// The ways to turn a crank, and how near to its aim each of them brings it.
#include <cstddef>

namespace shutlane {

/// How the crank is turned. Sets how well a turn is known, and what to beware of.
enum class TurnBy { wrench, bar, road_wheel, starter };

/// Where nothing rolls back: a crank turned by hand to a mark, with the spark plugs out. Common practice, no
/// source.
inline constexpr double kDefaultAccuracy_deg = 10.0;

/// How near a turn made this way ends, the way itself taken at its worst: plugs in, so that a crank let go of
/// rolls back by up to half a firing interval. The starter's rest angle is not known at all: 360.
double usual_accuracy_deg(TurnBy turn_by, size_t cylinders);

}  // namespace shutlane
