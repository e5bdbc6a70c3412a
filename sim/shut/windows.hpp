#pragma once
// When are all intake valves of a cylinder on their seats? Interval reasoning over every tolerance, never
// sampling.
#include "sim/cycle/arc_set.hpp"
#include "sim/mechanism/engine.hpp"

namespace shutlane {

inline constexpr double kDefaultMargin_deg = 10.0;

struct Windows {
  int cylinder = 0;
  ArcSet shut;              ///< events as stated, phaser at 0
  ArcSet within_tolerance;  ///< shut whatever the tolerances
  ArcSet sure;              ///< within tolerance over the whole margin to both sides
};

/// One entry a cylinder, in number order. margin_deg 0..360.
std::vector<Windows> shut_windows(const Engine& engine, double margin_deg = kDefaultMargin_deg);

ArcSet nominally_shut(const Engine& engine, const Cylinder& cylinder);
ArcSet shut_within_tolerance(const Engine& engine, const Cylinder& cylinder);
/// Where, under every tolerance, one of the intake valves stands more than `lift_mm` off its seat; at 0:
/// where the port is open under every tolerance.
ArcSet surely_above(const Engine& engine, const Cylinder& cylinder, double lift_mm);

/// not_surely_shut: shut as stated, but not surely.
enum class ShutState { surely_shut, not_surely_shut, open };
ShutState shut_state(const Windows& windows, double crank_deg);

/// Share of a spread over the cycle at which the port is surely shut. `weight_per_degree`: 720 weights >= 0
/// that sum to 1; a degree counts when the port is surely shut over all of it.
double surely_shut_share(const Windows& windows, const std::vector<double>& weight_per_degree);

}  // namespace shutlane
