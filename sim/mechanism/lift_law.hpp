#pragma once
// Rise laws of a cam flank on the unit interval: s(0) = 0, s(1) = 1, both dwells met with zero velocity.
// Sources: R. L. Norton, Design of Machinery, ch. 8 (cycloidal, 3-4-5 and 4-5-6-7 polynomials, simple
// harmonic).

namespace shutlane {

enum class LiftLaw { polynomial_345, polynomial_4567, cycloidal, harmonic, table };

/// s, ds/du and d2s/du2 of a law at u; u is clamped to [0, 1]. `table` has no law of its own and is treated
/// as 4567.
struct Rise {
  double s = 0;
  double v = 0;
  double a = 0;
};
Rise rise(LiftLaw law, double u);

/// The u in [0, 1] at which s(u) = s, by bracketed root finding to the last bits; s in [0, 1].
double rise_inverse(LiftLaw law, double s);

}  // namespace shutlane
