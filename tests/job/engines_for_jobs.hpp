#pragma once
// The engines of the job's tests, invented; the six is the one of the engine file's documentation.
#include "sim/mechanism/engine.hpp"

namespace shutlane {

inline Engine engine_with(LayoutSpec layout, double opens_deg = 12, double closes_deg = 48,
                          double timing_deg = 3, double phase_last_deg = 0) {
  EngineSpec spec;
  spec.name = "invented";
  spec.source = "invented test values";
  spec.cylinder = {84, 89.6, 141, 0, 10.2};
  spec.layout = std::move(layout);
  ValveSpec intake;
  intake.opens_deg = opens_deg;
  intake.closes_deg = closes_deg;
  intake.peak_lift_mm = 9.7;
  intake.lift_law = LiftLaw::polynomial_4567;
  intake.phase_range_deg = {0, phase_last_deg};
  ValveSpec exhaust = intake;
  exhaust.kind = ValveKind::exhaust;
  exhaust.opens_deg = 50;
  exhaust.closes_deg = 10;
  exhaust.phase_range_deg = {0, 0};
  spec.valves = {intake, exhaust};
  spec.tolerance.timing_deg = timing_deg;
  return std::get<Engine>(build_engine(spec));
}

inline Engine inline_six() {
  LayoutSpec layout;
  layout.firing_order = {1, 5, 3, 6, 2, 4};
  layout.banks = {{"row", 0, {1, 2, 3, 4, 5, 6}, {}}};
  return engine_with(layout);
}

inline Engine cross_plane_v8() {
  LayoutSpec layout;
  layout.firing_order = {1, 8, 4, 3, 6, 5, 7, 2};
  layout.banks = {{"left", -45, {1, 3, 5, 7}, {}}, {"right", 45, {2, 4, 6, 8}, {}}};
  return engine_with(layout);
}

inline Engine inline_four() {
  LayoutSpec layout;
  layout.firing_order = {1, 3, 4, 2};
  layout.banks = {{"row", 0, {1, 2, 3, 4}, {}}};
  return engine_with(layout, 20, 60, 5, 40);
}

inline Engine single() {
  LayoutSpec layout;
  layout.firing_order = {1};
  layout.banks = {{"row", 0, {1}, {}}};
  return engine_with(layout);
}

}  // namespace shutlane
