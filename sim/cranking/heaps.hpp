#pragma once
// Where rests gather: a mean or a median between two heaps names a place where the crank hardly ever stops.
#include <span>
#include <vector>

#include "sim/cranking/trials.hpp"

namespace shutlane {

struct Heap {
  double from_deg = 0, to_deg = 0;  ///< nine tenths of it lie between
  double share = 0;                 ///< of all that lies between these ends, 0..1
};

/// The heaps of at least a tenth of all, in order; between two lie at least 20 degrees that hold next to
/// nothing (less than a hundredth in ten degrees). `advance_deg`: in any order, finite.
std::vector<Heap> heaps_of(std::span<const float> advance_deg);

/// Where most bumps rest: their heaps where there are several, else nine tenths of all.
std::vector<Heap> rests_of(const TrialsAnswer& answer);

}  // namespace shutlane
