#pragma once
// Scales of plots.

namespace shutlane {

/// 1, 2 or 5 times a power of ten, so that no more than `most` steps lie in `span` (> 0).
double nice_step(double span, int most);

}  // namespace shutlane
