// The slider-crank against tables recomputed from first principles with 40 digits (numbers below), the closed
// forms of J. B. Heywood, Internal Combustion Engine Fundamentals, 1988, ch. 2, and geometry.
#include "sim/mechanism/slider_crank.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "tests/sim/dice.hpp"

namespace shutlane::test {
namespace {

constexpr double kPi = std::numbers::pi;

SliderCrank crank(double radius_mm, double rod_mm, double offset_mm = 0, double ratio = 10) {
  return {.bore_mm = 80,
          .crank_radius_mm = radius_mm,
          .rod_mm = rod_mm,
          .offset_mm = offset_mm,
          .compression_ratio = ratio};
}

struct Row {
  double pin_deg, x, v, a;
};

// r = 40, L = 130 mm; x mm below true top, x' mm/rad, x'' mm/rad^2. Recomputed with 40 digits from
// h = r cos(t) + sqrt(L^2 - (r sin(t) - e)^2), x = sqrt((L + r)^2 - e^2) - h; ten digits kept.
const std::vector<Row> kInLine = {
    {0, 0, 0, 52.30769231},
    {30, 6.906658062, 25.39359890, 41.09548012},
    {60, 24.70035914, 40.17032428, 13.85930601},
    {90, 46.30683123, 40, -12.93523334},
    {120, 64.70035914, 29.11170802, -26.14069399},
    {150, 76.18869036, 14.60640110, -28.18655218},
    {180, 80, 0, -27.69230769},
    {240, 64.70035914, -29.11170802, -26.14069399},
    {300, 24.70035914, -40.17032428, 13.85930601},
};
const std::vector<Row> kOffset8 = {
    {0, 0.05804771055, -2.466212643, 52.37793825}, {30, 5.725675223, 23.21134299, 42.13696390},
    {60, 22.57072255, 38.82850747, 16.02850469},   {90, 43.81166038, 40, -10.15873016},
    {120, 62.57072255, 30.45352483, -23.97149531}, {150, 75.00770753, 16.78865701, -27.14506840},
    {180, 80.05804771, 2.466212643, -27.62206175}, {240, 67.00390923, -27.69666358, -28.37816902},
    {300, 27.00390923, -41.58536873, 11.62183098},
};

void expect_rows(const SliderCrank& c, const std::vector<Row>& rows) {
  for (const Row& row : rows) {
    SCOPED_TRACE(row.pin_deg);
    const auto m = c.at_pin(row.pin_deg);
    EXPECT_NEAR(m.below_top_mm, row.x, 1e-8);  // half a unit of the last digit printed
    EXPECT_NEAR(m.velocity_mm_per_rad, row.v, 1e-8);
    EXPECT_NEAR(m.acceleration_mm_per_rad2, row.a, 1e-8);
  }
}

TEST(SliderCrankTable, InLine) { expect_rows(crank(40, 130), kInLine); }
TEST(SliderCrankTable, BoreOffset8mm) { expect_rows(crank(40, 130, 8), kOffset8); }

TEST(SliderCrankTable, OffsetDeadCentresAndTravel) {
  // Recomputed: stroke sqrt((L+r)^2 - e^2) - sqrt((L-r)^2 - e^2); dead centres asin(e/(L+r)), 180 +
  // asin(e/(L-r)).
  for (const double side : {1.0, -1.0}) {
    const SliderCrank c = crank(40, 130, 8 * side);
    EXPECT_NEAR(c.top_dead_centre_deg(), side * 2.697268134, 1e-9);
    EXPECT_NEAR(c.travel_mm(), 80.16792105, 1e-8);
    EXPECT_NEAR(c.at_pin(c.top_dead_centre_deg()).below_top_mm, 0, 1e-12);
    EXPECT_NEAR(c.at_pin(c.top_dead_centre_deg()).velocity_mm_per_rad, 0, 1e-12);
    const double bottom_deg = 180 + side * 5.099688902;
    EXPECT_NEAR(c.at_pin(bottom_deg).below_top_mm, c.travel_mm(), 1e-10);
    EXPECT_NEAR(c.at_pin(bottom_deg).velocity_mm_per_rad, 0, 1e-7);  // the angle has ten digits
    const double down_deg = bottom_deg - c.top_dead_centre_deg();
    EXPECT_NEAR(down_deg / (360 - down_deg), side > 0 ? 1.027054657 : 1 / 1.027054657, 1e-9);
  }
}

TEST(SliderCrankTable, DeadCentresAreExactWithoutOffset) {
  const SliderCrank c = crank(40, 130);
  for (const double turn : {-720.0, -360.0, 0.0, 360.0, 720.0, 7200.0}) {
    EXPECT_EQ(c.at_pin(turn).below_top_mm, 0);
    EXPECT_EQ(c.at_pin(turn).velocity_mm_per_rad, 0);
    EXPECT_EQ(c.at_pin(turn + 180).below_top_mm, 80);
    EXPECT_EQ(c.at_pin(turn + 180).velocity_mm_per_rad, 0);
    EXPECT_EQ(c.at_pin(turn + 90).velocity_mm_per_rad, 40);
    EXPECT_EQ(c.at_local(turn).below_top_mm, 0);
    EXPECT_EQ(c.at_local(turn + 180).below_top_mm, 80);
  }
  EXPECT_EQ(c.top_dead_centre_deg(), 0);
  EXPECT_EQ(c.travel_mm(), 80);
}

TEST(SliderCrankRatio, FastestPistonAgainstMeanSpeed) {
  // Recomputed from Heywood's ratio (his eq. 2.11 from memory): Sp / mean = (pi/2) * x'/r; at 90 deg always
  // pi/2.
  struct {
    double ratio, fastest, at_deg, half_stroke_deg;
  } const rows[] = {{3.0, 1.656623926, 73.17529664, 80.4059318},
                    {3.5, 1.634011586, 75.13558695, 81.7867893},
                    {4.0, 1.619306756, 76.72097792, 82.8192442}};
  for (const auto& row : rows) {
    const SliderCrank c = crank(40, 40 * row.ratio);
    auto speed = [&](double deg) { return kPi / 2 * c.at_pin(deg).velocity_mm_per_rad / 40; };
    EXPECT_NEAR(speed(90), kPi / 2, 1e-12);
    EXPECT_NEAR(speed(row.at_deg), row.fastest, 1e-9);
    EXPECT_LT(speed(row.at_deg - 0.01), row.fastest);
    EXPECT_LT(speed(row.at_deg + 0.01), row.fastest);
    EXPECT_NEAR(c.at_pin(row.at_deg).acceleration_mm_per_rad2, 0, 1e-6);
    EXPECT_NEAR(c.at_pin(row.half_stroke_deg).below_top_mm, 40, 1e-6);
    EXPECT_NEAR(std::cos(row.half_stroke_deg * kPi / 180), 1 / (2 * row.ratio), 1e-9);  // the row itself
  }
}

TEST(SliderCrankRatio, VolumeOverClearance) {
  // Recomputed from Heywood's eq. 2.6 (number from memory): V/Vc = 1 + (rc-1)/2 (R + 1 - cos t - sqrt(R^2 -
  // sin^2 t)).
  struct {
    double rc, ratio;
    double v[5];  // 30, 60, 90, 120, 150 degrees
  } const rows[] = {{10, 3.25, {1.776999, 3.778790, 6.209519, 8.278790, 9.571228}},
                    {12, 3.5, {1.934301, 4.348593, 7.302439, 9.848593, 11.460581}},
                    {18, 4, {2.405455, 6.056439, 10.579642, 14.556439, 17.127887}}};
  for (const auto& row : rows) {
    const SliderCrank c = crank(40, 40 * row.ratio, 0, row.rc);
    for (int i = 0; i < 5; ++i) {
      EXPECT_NEAR(c.volume_cm3(30.0 * (i + 1)) / c.clearance_cm3(), row.v[i], 5.1e-7);
      EXPECT_NEAR(c.volume_cm3(720 - 30.0 * (i + 1)) / c.clearance_cm3(), row.v[i], 5.1e-7);
    }
    EXPECT_NEAR(c.volume_cm3(0), c.clearance_cm3(), 1e-9);
    EXPECT_NEAR(c.volume_cm3(180), row.rc * c.clearance_cm3(), 1e-9);
    EXPECT_NEAR(c.swept_cm3(), kPi / 4 * 8 * 8 * 8, 1e-9);  // 80 mm bore and stroke
  }
}

TEST(SliderCrankRatio, VolumeAtIntakeClosing) {
  // Recomputed: closing 45 and 60 degrees after BDC.
  const SliderCrank petrol = crank(40, 130, 0, 10), other = crank(40, 140, 0, 12);
  EXPECT_NEAR(petrol.volume_cm3(585) / petrol.clearance_cm3(), 9.032331, 5.1e-7);
  EXPECT_NEAR(petrol.volume_cm3(600) / petrol.clearance_cm3(), 8.278790, 5.1e-7);
  EXPECT_NEAR(other.volume_cm3(585) / other.clearance_cm3(), 10.786037, 5.1e-7);
  EXPECT_NEAR(other.volume_cm3(600) / other.clearance_cm3(), 9.848593, 5.1e-7);
}

SliderCrank random_crank(Dice& dice) {
  const double radius = dice.between(15, 90), rod = radius * dice.between(2.5, 5);
  return {.bore_mm = dice.between(30, 200),
          .crank_radius_mm = radius,
          .rod_mm = rod,
          .offset_mm = dice.chance(0.3) ? 0 : dice.between(-0.5, 0.5) * radius,
          .compression_ratio = dice.between(6, 24)};
}

TEST(SliderCrankGeometry, TheRodKeepsItsLength) {
  // Closed form cannot err here: pin and piston pin are set out in the plane and the distance measured.
  for_trials(200, [](Dice& dice) {
    const SliderCrank c = random_crank(dice);
    const double top_mm = std::sqrt(std::pow(c.rod_mm + c.crank_radius_mm, 2) - c.offset_mm * c.offset_mm);
    for (int i = 0; i < 50; ++i) {
      const double pin_deg = dice.between(-720, 1440), t = pin_deg * kPi / 180;
      const double pin_x = c.crank_radius_mm * std::sin(t), pin_y = c.crank_radius_mm * std::cos(t);
      const double piston_y = top_mm - c.at_pin(pin_deg).below_top_mm;
      EXPECT_NEAR(std::hypot(pin_x - c.offset_mm, pin_y - piston_y), c.rod_mm, 1e-9 * c.rod_mm);
      EXPECT_GT(piston_y, pin_y);  // the upper of the two ways to close the linkage
    }
  });
}

TEST(SliderCrankGeometry, DerivativesAgreeWithFiniteDifferences) {
  // Central differences with step h err by about x'''h^2/6 + eps*x/h: below 1e-6 of the radius at h = 1e-4
  // rad.
  for_trials(200, [](Dice& dice) {
    const SliderCrank c = random_crank(dice);
    const double h = 1e-4, h_deg = h * 180 / kPi, r = c.crank_radius_mm;
    for (int i = 0; i < 20; ++i) {
      const double at = dice.between(0, 720);
      const auto before = c.at_local(at - h_deg), here = c.at_local(at), after = c.at_local(at + h_deg);
      EXPECT_NEAR(here.velocity_mm_per_rad, (after.below_top_mm - before.below_top_mm) / (2 * h), 1e-6 * r);
      EXPECT_NEAR(here.acceleration_mm_per_rad2,
                  (after.velocity_mm_per_rad - before.velocity_mm_per_rad) / (2 * h), 1e-6 * r);
    }
  });
}

TEST(SliderCrankGeometry, MirrorImage) {
  for_trials(200, [](Dice& dice) {
    SliderCrank c = random_crank(dice), mirrored = c;
    mirrored.offset_mm = -c.offset_mm;
    for (int i = 0; i < 20; ++i) {
      const double pin = dice.between(-720, 720);
      EXPECT_NEAR(mirrored.at_pin(pin).below_top_mm, c.at_pin(-pin).below_top_mm, 1e-10);
      EXPECT_NEAR(mirrored.at_pin(pin).velocity_mm_per_rad, -c.at_pin(-pin).velocity_mm_per_rad, 1e-10);
    }
    EXPECT_EQ(mirrored.travel_mm(), c.travel_mm());
  });
}

TEST(SliderCrankGeometry, LocalAnglesCountFromTrueTop) {
  for_trials(200, [](Dice& dice) {
    const SliderCrank c = random_crank(dice);
    EXPECT_NEAR(c.at_local(0).below_top_mm, 0, 1e-10);
    EXPECT_NEAR(c.at_local(360).below_top_mm, 0, 1e-10);
    double lowest = 0, highest = 1e9;
    for (int i = 0; i < 7200; ++i) {
      const double x = c.at_local(i * 0.1).below_top_mm;
      lowest = std::max(lowest, x);
      highest = std::min(highest, x);
    }
    EXPECT_GE(highest, -1e-10);
    EXPECT_LE(lowest, c.travel_mm() + 1e-10);
    EXPECT_NEAR(lowest, c.travel_mm(), 1e-5 * c.travel_mm());  // the grid is 0.1 degrees
    const double a = dice.between(0, 720);
    EXPECT_NEAR(c.at_local(a).below_top_mm, c.at_pin(c.top_dead_centre_deg() + a).below_top_mm, 1e-10);
    const double area_cm2 = kPi / 4 * c.bore_mm * c.bore_mm / 100;
    EXPECT_NEAR(c.volume_cm3(a), c.clearance_cm3() + area_cm2 * c.at_local(a).below_top_mm / 10, 1e-8);
    EXPECT_NEAR((c.swept_cm3() + c.clearance_cm3()) / c.clearance_cm3(), c.compression_ratio, 1e-9);
  });
}

}  // namespace
}  // namespace shutlane::test
