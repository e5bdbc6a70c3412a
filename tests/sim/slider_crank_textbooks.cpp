// Worked examples of textbooks. Inputs and printed figures were read in open companion files to B. K. Sarkar,
// Theory of Machines, ch. 5 (Illustrations 1-8, pp. 160-166), to a second set whose chapter and figure
// numbers are those of R. S. Khurmi, Theory of Machines, ch. 15 (the attribution is from memory), and in HELM
// workbook 12.2, Engineering Example 4. Books print the two-term series, so the exact linkage stands beside
// each figure: the exact value is the check, the printed one only shows that we talk about the same crank.
#include <cmath>
#include <numbers>

#include "sim/mechanism/slider_crank.hpp"

#include <gtest/gtest.h>

namespace shutlane {
namespace {

constexpr double kPi = std::numbers::pi;

/// In metres: radius and rod; motion in m/s and m/s^2 at a speed.
struct Machine {
  SliderCrank crank;
  double omega;
  Machine(double radius_m, double rod_m, double omega_rad_s)
      : crank{.bore_mm = 100,
              .crank_radius_mm = radius_m * 1000,
              .rod_mm = rod_m * 1000,
              .compression_ratio = 10},
        omega(omega_rad_s) {}
  double speed(double deg) const { return omega * crank.at_pin(deg).velocity_mm_per_rad / 1000; }
  double acceleration(double deg) const {
    return omega * omega * crank.at_pin(deg).acceleration_mm_per_rad2 / 1000;
  }
  /// Where the acceleration changes sign between 60 and 90 degrees: the fastest piston.
  double fastest_deg() const {
    double low = 60, high = 90;
    for (int i = 0; i < 60; ++i) (acceleration((low + high) / 2) > 0 ? low : high) = (low + high) / 2;
    return low;
  }
};
double rpm(double n) { return n * 2 * kPi / 60; }

TEST(Textbook, Sarkar1FastestPiston) {
  const Machine m(0.3, 1, rpm(200));
  EXPECT_NEAR(m.fastest_deg(), 74.52893, 1e-5);
  EXPECT_NEAR(m.speed(m.fastest_deg()), 6.561732, 1e-6);
  EXPECT_NEAR(m.speed(75), 6.54,
              0.005 * 6.54);  // printed in the second book; the first prints 7.0 by a wrong factor
  EXPECT_GT(std::abs(m.speed(74.96) - 7.0), 0.4);
}

TEST(Textbook, Sarkar2SpeedAndAcceleration) {
  const Machine m(0.3, 1.5, rpm(180));
  EXPECT_NEAR(m.speed(40), 4.196434, 1e-6);
  EXPECT_NEAR(m.acceleration(40), 85.59886, 1e-5);
  EXPECT_NEAR(m.fastest_deg(), 79.10014, 1e-5);
  EXPECT_NEAR(m.fastest_deg(), 79.3, 0.3);  // printed, two-term series
}

TEST(Textbook, KhurmiKleinConstruction) {
  const Machine m(0.2, 0.7, 120);
  EXPECT_NEAR(m.speed(30), 15, 1e-12);  // sin 30 = 1/2 and sqrt(.7^2 - .1^2) = .4 sqrt 3: exactly 15
  EXPECT_NEAR(m.acceleration(30), 2922.836, 5e-4);
  EXPECT_NEAR(m.acceleration(30), 2880, 0.02 * 2880);  // printed, measured off a drawing
}

TEST(Textbook, Sarkar5NetForce) {
  const Machine m(0.06, 0.24, rpm(1800));
  EXPECT_NEAR(m.crank.at_pin(33.12294).below_top_mm, 12, 1e-5);
  const double gas_N = 0.8e6 * kPi / 4 * 0.1 * 0.1;  // on a piston of 1 kg
  EXPECT_NEAR(gas_N - m.acceleration(32), 4232.668, 6e-4);
  EXPECT_NEAR(gas_N - m.acceleration(32), 4241.2, 0.005 * 4241.2);  // printed
  const double reversal_rpm = 1800 * std::sqrt(gas_N / m.acceleration(32));
  EXPECT_NEAR(reversal_rpm, 3150.87, 5e-3);
  EXPECT_NEAR(reversal_rpm, 3158.0, 0.005 * 3158);  // printed
}

TEST(Textbook, KhurmiNetForce) {
  const Machine m(0.05, 0.2, rpm(1800));
  EXPECT_NEAR(m.crank.at_pin(33.12294).below_top_mm, 10, 1e-5);
  const double gas_N = 0.7e6 * kPi / 4 * 0.08 * 0.08;
  EXPECT_NEAR(gas_N - m.acceleration(33), 1840.362, 5e-4);
  EXPECT_NEAR(1800 * std::sqrt(gas_N / m.acceleration(33)), 2606.34, 5e-3);
}

TEST(Textbook, Sarkar6CrankTorqueIsForceTimesSpeed) {
  // Virtual work: torque = piston force * dx/dt / omega, an outside check of dx/dangle.
  const Machine m(0.2, 0.6, 1);
  const double force_N = kPi / 4 * (0.25 * 0.25 * 5.8e5 - (0.25 * 0.25 - 0.05 * 0.05) * 0.5e5);
  EXPECT_NEAR(force_N, 26114.489, 5e-4);  // the row itself
  EXPECT_NEAR(force_N * m.speed(40), 4234.855, 1e-3);
  EXPECT_NEAR(force_N * m.speed(40), 4233.8, 5e-4 * 4233.8);  // printed, with pi = 3.141
}

TEST(Textbook, HelmEngineeringExample4) {
  const Machine m(0.15, 0.375, 1);  // acceleration / (omega^2 r)
  EXPECT_NEAR(m.acceleration(0) / 0.15, 1.4, 1e-12);
  EXPECT_NEAR(m.acceleration(180) / 0.15, -0.6, 1e-12);
  EXPECT_NEAR(m.acceleration(124.4404) / 0.15, -0.701669, 5e-7);
  for (const double d : {-0.5, 0.5}) EXPECT_GT(m.acceleration(124.4404 + d), m.acceleration(124.4404));
}

}  // namespace
}  // namespace shutlane
