#pragma once
// How a person with a lamp sees a valve.
#include "sim/witness/port_sets.hpp"

namespace shutlane {

/// Chances of a look going wrong. All assumed, no source: they only rank and weigh; what may be blasted is
/// decided by the exact sets, never by these.
struct Eye {
  double limit_mm = kDefaultEye_mm;  ///< 0..3, a valve this far off its seat is called shut every other time
  double false_open = 0.005;         ///< 0..1, a valve on its seat called open (glare, a crust)
  double missed = 0.002;             ///< 0..1, a valve well open called shut
  double wrong_port = 0.005;         ///< 0..1, the look went into another port
};

/// Chance that a port whose valves stand `lift_mm` off their seats at most is called shut, the right port
/// being looked into: certain (but for `false_open`) up to half the limit, certain (but for `missed`) from
/// one and a half times the limit, a smooth step between.
double chance_called_shut(const Eye& eye, double lift_mm);

}  // namespace shutlane
