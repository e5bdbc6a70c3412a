// Crank pins by plain geometry: narrow-angle engines with leaning and offset bores, both directions of
// rotation.
#include <cmath>

#include "sim/mechanism/layout.hpp"
#include "tests/sim/dice.hpp"
#include "tests/sim/some_engines.hpp"

namespace shutlane::test {
namespace {

TEST(Layout, PinsByGeometryWithLeaningAndOffsetBores) {
  // Set out in the plane: at its firing TDC each piston must stand at the top of its travel. Narrow-angle
  // engines with offset bores, both directions of rotation; the top found by trying every 0.001 degree around
  // it.
  for_trials(60, [](Dice& dice) {
    EngineSpec spec = random_engine(dice, {.cylinders_most = 8});
    const double d = spec.layout.rotation == Rotation::clockwise ? 1 : -1;
    for (BankSpec& b : spec.layout.banks)
      if (dice.chance(0.6)) b.bore_offset_mm = dice.between(-25, 25);
    const Engine engine = built(spec);
    const double r = spec.cylinder.stroke_mm / 2, rod = spec.cylinder.rod_mm, rad = std::acos(-1.0) / 180;
    auto piston = [&](const Cylinder& c, double pin_clockwise_deg) {  // height along the bore
      const BankSpec& bank = spec.layout.banks[c.bank];
      const double e = bank.bore_offset_mm.value_or(spec.cylinder.bore_offset_mm);
      const double from_bore = (pin_clockwise_deg - bank.tilt_deg) * rad;
      const double aside =
          r * std::sin(from_bore) - e;  // e to the side to which positive tilt leans: clockwise
      return r * std::cos(from_bore) + std::sqrt(rod * rod - aside * aside);
    };
    auto top = [&](const Cylinder& c) {  // clockwise angle of the pin at the top
      double best = 0, at = 0;
      for (double step = 1, low = -180, high = 180; step > 1e-7;
           step /= 10, low = at - 20 * step, high = at + 20 * step)
        for (double a = low; a <= high; a += step)
          if (piston(c, a) > best) best = piston(c, a), at = a;
      return at;
    };
    const double first_top = d * top(*engine.find(1));  // in the direction of rotation
    for (const Cylinder& c : engine.cylinders) {
      const double pin_at_firing = first_top + c.crank_pin_deg + c.firing_tdc_deg;
      EXPECT_NEAR(turn_difference_deg(pin_at_firing, d * top(c)), 0, 1e-3) << "cylinder " << c.number;
      EXPECT_NEAR(c.crank.at_local(0).below_top_mm, 0, 1e-9);
      const double at = dice.between(0, 720);  // and anywhere else in the cycle
      const double below_mm = piston(c, top(c)) - piston(c, d * (first_top + c.crank_pin_deg + at));
      EXPECT_NEAR(c.crank.at_local(c.local_deg(at)).below_top_mm, below_mm,
                  1e-5);  // the top is found to 1e-6 degrees or so
    }
  });
}

}  // namespace
}  // namespace shutlane::test
