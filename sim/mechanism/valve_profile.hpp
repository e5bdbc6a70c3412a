#pragma once
// From a [[valves]] entry to its lift curve and its tolerances.
#include "sim/mechanism/engine.hpp"

namespace shutlane {

/// The lift curve of an entry without mistakes, events as stated, phaser at 0, in local angles.
LiftProfile valve_profile(const ValveSpec& valve);

ValveTrain valve_train(const ValveSpec& valve, const ToleranceSpec& tolerance);

}  // namespace shutlane
