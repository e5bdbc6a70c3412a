// Rise laws against closed forms. Sources: R. L. Norton, Design of Machinery, ch. 8 (SCCA family, table 8-3;
// numbers from memory); every value below recomputed in closed form and numerically.
#include "sim/mechanism/lift_law.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tests/sim/dice.hpp"
#include "tests/sim/lift_oracle.hpp"

namespace shutlane::test {
namespace {

constexpr double kPi = std::numbers::pi;
const std::vector<LiftLaw> kLaws = {LiftLaw::polynomial_345, LiftLaw::polynomial_4567, LiftLaw::cycloidal,
                                    LiftLaw::harmonic};

struct Peaks {
  LiftLaw law;
  double v, a, a_at, s_tenth, s_quarter;
};
const std::vector<Peaks> kPeaks = {
    {LiftLaw::harmonic, kPi / 2, kPi* kPi / 2, 0, .02447174, .14644661},
    {LiftLaw::cycloidal, 2, 2 * kPi, 0.25, .006451072, .09084506},
    {LiftLaw::polynomial_345, 15.0 / 8, 10 / std::sqrt(3.0), .2113249, .00856, .103515625},
    {LiftLaw::polynomial_4567, 35.0 / 16, 84 * std::sqrt(5.0) / 25, .2763932, .002728, .0705566406},
};

TEST(RiseLaw, TableOfPeakValues) {
  for (const Peaks& row : kPeaks) {
    SCOPED_TRACE(static_cast<int>(row.law));
    EXPECT_NEAR(rise(row.law, 0.1).s, row.s_tenth, 5.1e-9);
    EXPECT_NEAR(rise(row.law, 0.25).s, row.s_quarter, 5.1e-9);
    EXPECT_NEAR(rise(row.law, 0.5).v, row.v, 1e-12);
    EXPECT_NEAR(rise(row.law, row.a_at).a, row.a, 1e-7);
    double v = 0, a = 0;
    for (int i = 0; i <= 100000; ++i) {
      v = std::max(v, rise(row.law, i * 1e-5).v);
      a = std::max(a, rise(row.law, i * 1e-5).a);
    }
    EXPECT_NEAR(v, row.v, 1e-8);
    EXPECT_NEAR(a, row.a, 1e-8);
  }
}

TEST(RiseLaw, EndsAndMiddleAreExact) {
  for (const LiftLaw law : kLaws) {
    EXPECT_EQ(rise(law, 0).s, 0);
    EXPECT_EQ(rise(law, 1).s, 1);
    EXPECT_EQ(rise(law, -1).s, 0);
    EXPECT_EQ(rise(law, 2).s, 1);
    EXPECT_EQ(rise(law, 0).v, 0);
    EXPECT_NEAR(rise(law, 1).v, 0, 1e-15);
    EXPECT_NEAR(rise(law, 0.5).s, 0.5, 1e-15);
  }
}

TEST(RiseLaw, SymmetryAndUnitArea) {
  for (const LiftLaw law : kLaws) {
    double area = 0;
    const int n = 20000;
    for (int i = 0; i < n; ++i) {
      const double u = (i + 0.5) / n;
      EXPECT_NEAR(rise(law, u).s + rise(law, 1 - u).s, 1, 1e-13);
      EXPECT_NEAR(rise(law, u).v, rise(law, 1 - u).v, 1e-12);
      EXPECT_NEAR(rise(law, u).a, -rise(law, 1 - u).a, 1e-11);
      area += rise(law, u).v / n;
    }
    EXPECT_NEAR(area, 1, 1e-8);  // midpoint rule: v''/(24 n^2), below 1e-8
  }
}

TEST(RiseLaw, AgreesWithTheContractsFormulaAndFiniteDifferences) {
  for_trials(2000, [](Dice& dice) {
    const LiftLaw which = dice.pick(kLaws);
    const double u = dice.between(0.001, 0.999), h = 1e-5;
    EXPECT_NEAR(rise(which, u).s, law(which, u), 1e-13);
    EXPECT_NEAR(rise(which, u).v, (law(which, u + h) - law(which, u - h)) / (2 * h), 1e-8);
    EXPECT_NEAR(rise(which, u).a, (rise(which, u + h).v - rise(which, u - h).v) / (2 * h), 1e-7);
  });
}

TEST(RiseLaw, Inverse) {
  for (const LiftLaw law : kLaws) {
    EXPECT_EQ(rise_inverse(law, 0), 0);
    EXPECT_EQ(rise_inverse(law, 1), 1);
  }
  for_trials(2000, [](Dice& dice) {
    const LiftLaw which = dice.pick(kLaws);
    const double s = dice.chance(0.5) ? dice.unit() : std::pow(10.0, dice.between(-12, 0));
    EXPECT_NEAR(rise_inverse(which, s), law_inverse(which, s), 1e-11);
    EXPECT_NEAR(rise(which, rise_inverse(which, s)).s, s, 4e-16 + 1e-13 * s);
  });
}

TEST(RiseLaw, TextbookHarmonicFollower) {
  // Sarkar, Theory of Machines, ch. 9, Illustration 2 (inputs read there, values recomputed): simple harmonic
  // motion, lift 40 mm, rise over 60 and fall over 90 degrees at 300 rpm: 177.6529 and 78.9568 m/s^2.
  const double omega = 300 * 2 * kPi / 60;
  auto peak = [&](double over_deg) {
    return rise(LiftLaw::harmonic, 0).a * 0.040 * std::pow(omega / (over_deg * kPi / 180), 2);
  };
  EXPECT_NEAR(peak(60), 177.6529, 5e-5);
  EXPECT_NEAR(peak(90), 78.9568, 5e-5);
}

}  // namespace
}  // namespace shutlane::test
