#pragma once
// Which positions serve which ports, and how wide each may be missed.
#include <vector>

#include "sim/cycle/arc_set.hpp"

namespace shutlane {

inline constexpr size_t kMostSets = 128;  ///< that are given at once

/// A position before its aim is chosen: the ports it serves (indices into the sets given) and its run.
struct Run {
  Arc run;  ///< the longest run of angles over which all of `ports` stay surely shut
  std::vector<size_t> ports;
};

/// The fewest runs, none shorter than `shortest_deg`, that serve every set, the narrowest as wide as
/// possible; in order forward from `from_deg`, each port in the first run that serves it. Every set must hold
/// an arc of at least `shortest_deg`. Exact: a run may always be slid forward until it ends where one of its
/// arcs ends, so only the arcs' ends need be tried, and a narrowest width is always the distance from some
/// arc's start to some arc's end. When one run is enough, every run that is equally good comes back in
/// `alternatives`.
/// With dozens of sets the work is bounded; where the bound was hit, the runs serve every set all the same.
struct Runs {
  std::vector<Run> runs;
  std::vector<Run> alternatives;
  bool proven = true;  ///< false: fewer, or wider ones, may exist
};
Runs fewest_runs(const std::vector<ArcSet>& sure, double shortest_deg, double from_deg);
/// How many they are.
size_t fewest_runs_count(const std::vector<ArcSet>& sure, double shortest_deg);

}  // namespace shutlane
