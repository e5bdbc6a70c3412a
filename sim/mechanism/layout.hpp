#pragma once
// Firing order, banks and crank pins: when each cylinder fires, and whether the stated crank can do it.
#include <map>
#include <vector>

#include "sim/mechanism/engine.hpp"

namespace shutlane {

/// Firing TDC of each cylinder, cylinder 1 at 0, [0, 720). Needs an order and intervals without mistakes.
std::map<int, double> firing_tdc_deg(const LayoutSpec& layout);

/// Crank pin angle of cylinder `number` that its firing TDC asks for, from cylinder 1's pin in the direction
/// of rotation, [0, 360): pin = d*(tilt - tilt_1) + d*(s - s_1) - firing_tdc, s = asin(bore_offset / (rod +
/// stroke/2)), d = +1 clockwise, -1 anticlockwise. (Pin at top dead centre of cylinder k at cycle angle
/// firing_tdc[k].)
double crank_pin_for_deg(const EngineSpec& spec, int number, double firing_tdc_deg);

const BankSpec& bank_of(const LayoutSpec& layout, int number);
double bore_offset_mm(const EngineSpec& spec, const BankSpec& bank);

/// Difference of two angles on one turn, (-180, 180].
double turn_difference_deg(double a_deg, double b_deg);

void check_layout(const EngineSpec& spec, std::vector<Mistake>& mistakes);

}  // namespace shutlane
