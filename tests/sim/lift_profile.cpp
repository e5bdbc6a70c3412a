// Lift of one valve: durations at a lift, clearance, seat events, velocities, and the curve itself against
// the contract's words worked out again (lift_oracle).
#include "sim/mechanism/lift_profile.hpp"

#include <math.h>  // Boost 1.74's pchip calls a bare isnan

#include <boost/math/interpolators/pchip.hpp>
#include <cmath>

#include "tests/sim/dice.hpp"
#include "tests/sim/lift_oracle.hpp"
#include "tests/sim/some_engines.hpp"

namespace shutlane::test {
namespace {

TEST(LiftProfileDuration, SymmetricLobeAtCheckingHeights) {
  // 9 mm over 120 crank degrees each side, no clearance. Checking heights: 0.006 in (0.15 mm), 1.0 mm and
  // 0.050 in (1.27 mm); total duration in crank degrees recomputed in closed form and numerically.
  struct {
    LiftLaw law;
    double at[3];
  } const rows[] = {{LiftLaw::harmonic, {220.2199, 188.0767, 181.1618}},
                    {LiftLaw::cycloidal, {206.8711, 175.4114, 169.3981}},
                    {LiftLaw::polynomial_345, {209.5938, 178.3035, 172.1225}},
                    {LiftLaw::polynomial_4567, {200.6299, 170.8605, 165.2961}}};
  const double heights[3] = {0.15, 1.0, 1.27};
  for (const auto& row : rows) {
    const auto profile = LiftProfile::from_law(row.law, 340, 580, 0, 9, 0);
    EXPECT_EQ(profile.seat_opens_deg(), 340);
    EXPECT_EQ(profile.seat_closes_deg(), 580);
    EXPECT_EQ(profile.peak_deg(), 460);
    EXPECT_EQ(profile.lift_mm(460), 9);
    for (int i = 0; i < 3; ++i) {
      const auto reach = profile.reach(heights[i]);
      EXPECT_NEAR(240 - reach.after_opening_deg - reach.before_closing_deg, row.at[i], 5.1e-5);
      EXPECT_NEAR(profile.lift_mm(340 + reach.after_opening_deg), heights[i], 1e-9);
      EXPECT_NEAR(profile.lift_mm(580 - reach.before_closing_deg), heights[i], 1e-9);
      // And the other way round: the same duration stated at that lift gives the seat events back.
      const double half = row.at[i] / 2;
      const auto back = LiftProfile::from_law(row.law, 460 - half, 460 + half, heights[i], 9, 0);
      EXPECT_NEAR(back.seat_opens_deg(), 340, 2e-4);  // the table has four decimals
      EXPECT_NEAR(back.seat_closes_deg(), 580, 2e-4);
    }
  }
}

TEST(LiftProfileDuration, SeatEventsLieTwentyToFortyDegreesOutsideOneMillimetre) {
  // Design rule of the project: "events stated at 1 mm lift lie 20 to 40 crank degrees inside the seat
  // events".
  for (const LiftLaw law : {LiftLaw::polynomial_345, LiftLaw::polynomial_4567, LiftLaw::cycloidal}) {
    const auto reach = LiftProfile::from_law(law, 340, 590, 0, 9, 0).reach(1.0);
    EXPECT_GT(reach.after_opening_deg, 20);
    EXPECT_LT(reach.after_opening_deg, 40);
  }
}

TEST(LiftProfile, AgreesWithTheContractsWords) {
  for_trials(500, [](Dice& dice) {
    ValveSpec spec = dice.chance(0.3) ? random_table(dice) : random_valve(dice, ValveKind::intake);
    const Engine engine = built(one_cylinder(spec));
    const LiftProfile& profile = engine.trains[0].profile;
    const ValveOracle oracle(spec);
    EXPECT_NEAR(profile.seat_opens_deg(), oracle.opens_deg(), 1e-8);
    EXPECT_NEAR(profile.seat_closes_deg(), oracle.closes_deg(), 1e-8);
    for (int i = 0; i < 100; ++i) {
      const double at = dice.between(-720, 1440);
      EXPECT_NEAR(profile.lift_mm(at), oracle.lift_mm(at), 1e-8) << at;
    }
    for (const double lift : {0.01, 0.15, 0.5, 1.0, 3.0}) {
      const auto reach = profile.reach(lift);
      EXPECT_EQ(std::isinf(reach.after_opening_deg), std::isinf(oracle.rise_deg(lift)));
      if (std::isinf(reach.after_opening_deg)) continue;
      // Where the curve is flat an angle cannot be told sharper than the lift: 1e-9 mm on either side.
      EXPECT_LE(oracle.rise_deg(lift - 1e-9) - 1e-7, reach.after_opening_deg);
      EXPECT_GE(oracle.rise_deg(lift + 1e-9) + 1e-7, reach.after_opening_deg);
      EXPECT_LE(oracle.fall_deg(lift - 1e-9) - 1e-7, reach.before_closing_deg);
      EXPECT_GE(oracle.fall_deg(lift + 1e-9) + 1e-7, reach.before_closing_deg);
    }
  });
}

TEST(LiftProfile, SeatEventsByBruteForce) {
  // The profile is sampled every 0.01 degrees: lift is 0 outside the seat events and above 0 well inside.
  for_trials(60, [](Dice& dice) {
    const ValveSpec spec = dice.chance(0.3) ? random_table(dice) : random_valve(dice, ValveKind::intake);
    const Engine engine = built(one_cylinder(spec));
    const LiftProfile& profile = engine.trains[0].profile;
    const double opens = profile.seat_opens_deg(), closes = profile.seat_closes_deg();
    for (double at = opens - 30; at < opens + 690; at += 0.01) {
      const double lift = profile.lift_mm(at);
      if (at <= opens || (at >= closes && at <= opens + 720)) {
        EXPECT_EQ(lift, 0) << at;
      }
      // A 4567 flank leaves its seat with the fourth power of the angle: 1 degree in it is above 1e-9 mm.
      if (at >= opens + 1 && at <= closes - 1) {
        EXPECT_GT(lift, 0) << at;
      }
      if (::testing::Test::HasFailure()) return;
    }
  });
}

TEST(LiftProfile, StatedLiftAtStatedEvents) {
  for_trials(500, [](Dice& dice) {
    ValveSpec spec = random_valve(dice, ValveKind::intake);
    const double at_mm = spec.at_lift_mm.value_or(1.0);  // "unknown" stands for 1.0
    const Engine engine = built(one_cylinder(spec));
    const LiftProfile& profile = engine.trains[0].profile;
    EXPECT_NEAR(profile.lift_mm(360 - spec.opens_deg), at_mm, 1e-8);
    EXPECT_NEAR(profile.lift_mm(540 + spec.closes_deg), at_mm, 1e-8);
    EXPECT_NEAR(profile.lift_mm(450 + (spec.closes_deg - spec.opens_deg) / 2), spec.peak_lift_mm, 1e-9);
  });
}

TEST(LiftProfile, ClearanceNarrowsTheOpening) {
  // Stated at a lift, a valve with clearance has its seat events nearer by: the flank starts with the ramp
  // taken up.
  for (const double at_mm : {0.5, 1.0}) {
    double before = 1e9;
    for (const double clearance : {0.0, 0.1, 0.2, 0.3}) {
      const auto p = LiftProfile::from_law(LiftLaw::polynomial_4567, 370, 580, at_mm, 9, clearance);
      EXPECT_LT(p.seat_span_deg(), before);
      EXPECT_GT(p.seat_span_deg(), 210);
      EXPECT_EQ(p.lift_mm(p.peak_deg()), 9);
      before = p.seat_span_deg();
    }
  }
  const auto seat = LiftProfile::from_law(LiftLaw::harmonic, 340, 580, 0, 9, 0.3);
  EXPECT_NEAR(seat.seat_opens_deg(), 340, 1e-9);  // stated at the seat: clearance moves nothing
  EXPECT_NEAR(seat.seat_closes_deg(), 580, 1e-9);
  EXPECT_GT(seat.at(341).velocity_mm_per_deg, 0.01);  // but the valve leaves its seat at speed
}

TEST(LiftProfile, VelocityAndAccelerationAgreeWithFiniteDifferences) {
  for_trials(300, [](Dice& dice) {
    const ValveSpec spec = dice.chance(0.3) ? random_table(dice) : random_valve(dice, ValveKind::intake);
    const Engine engine = built(one_cylinder(spec));
    const LiftProfile& profile = engine.trains[0].profile;
    for (int i = 0; i < 20; ++i) {
      const double at = dice.between(profile.seat_opens_deg() + 1, profile.seat_closes_deg() - 1), h = 1e-4;
      const bool near_a_knot = [&] {  // the curve bends there: no second derivative
        if (std::abs(at - profile.peak_deg()) < 2 * h) return true;
        for (const LiftRow& row : spec.lift_table)
          if (std::abs(at - profile.peak_deg() - row.from_peak_deg) < 2 * h) return true;
        return false;
      }();
      if (near_a_knot) continue;
      const Lift before = profile.at(at - h), here = profile.at(at), after = profile.at(at + h);
      EXPECT_NEAR(here.velocity_mm_per_deg, (after.lift_mm - before.lift_mm) / (2 * h), 1e-6);
      EXPECT_NEAR(here.acceleration_mm_per_deg2,
                  (after.velocity_mm_per_deg - before.velocity_mm_per_deg) / (2 * h), 1e-5);
    }
  });
}

TEST(LiftTable, PassesThroughItsRowsAndNeverOvershoots) {
  for_trials(200, [](Dice& dice) {
    const ValveSpec spec = random_table(dice);
    const Engine engine = built(one_cylinder(spec));
    const LiftProfile& profile = engine.trains[0].profile;
    EXPECT_EQ(profile.peak_deg(), 360 + spec.peak_at_deg);
    for (size_t k = 0; k < spec.lift_table.size(); ++k) {
      const LiftRow& row = spec.lift_table[k];
      EXPECT_NEAR(profile.lift_mm(profile.peak_deg() + row.from_peak_deg), row.lift_mm, 1e-12);
      if (k == 0) continue;
      const LiftRow& before = spec.lift_table[k - 1];
      for (int i = 1; i < 20; ++i) {  // monotone between rows
        const double width = row.from_peak_deg - before.from_peak_deg;
        const double lift = profile.lift_mm(profile.peak_deg() + before.from_peak_deg + width * i / 20);
        EXPECT_GE(lift, std::min(before.lift_mm, row.lift_mm) - 1e-12);
        EXPECT_LE(lift, std::max(before.lift_mm, row.lift_mm) + 1e-12);
      }
    }
    // Slope 0 at the peak and at both ends.
    EXPECT_NEAR(profile.at(profile.peak_deg()).velocity_mm_per_deg, 0, 1e-12);
  });
}

TEST(LiftTable, AgreesWithBoostsPchip) {
  // Boost.Math 1.74's pchip, flank by flank with slope 0 at both ends of each (it wants four rows at least).
  int flanks = 0;
  for_trials(200, [&](Dice& dice) {
    const ValveSpec spec = random_table(dice);
    const Engine engine = built(one_cylinder(spec));
    for (const bool rising : {true, false}) {
      std::vector<double> at, lift;
      for (const LiftRow& row : spec.lift_table)
        if (rising ? row.from_peak_deg <= 0 : row.from_peak_deg >= 0) {
          at.push_back(row.from_peak_deg);
          lift.push_back(row.lift_mm);
        }
      if (at.size() < 4) continue;
      ++flanks;
      const double first = at.front(), last = at.back();
      const boost::math::interpolators::pchip<std::vector<double>> boosts(std::move(at), std::move(lift), 0.0,
                                                                          0.0);
      for (int i = 0; i < 50; ++i) {
        const double x = dice.between(first, last);
        const Lift ours = engine.trains[0].profile.at(360 + spec.peak_at_deg + x);
        EXPECT_NEAR(ours.lift_mm, boosts(x), 1e-10) << x;
        if (ours.lift_mm > 0) {
          EXPECT_NEAR(ours.velocity_mm_per_deg, boosts.prime(x), 1e-9) << x;
        }
      }
    }
  });
  if (trials(200) >= 200) {
    EXPECT_GT(flanks, 100);
  }
}

TEST(LiftTable, SeatEventsAreTheInnermostZeroRows) {
  ValveSpec spec;
  spec.lift_law = LiftLaw::table;
  spec.lift_table = {{-150, 0}, {-130, 0}, {-120, 0}, {-60, 4}, {0, 9}, {50, 5}, {110, 0}, {140, 0}};
  spec.peak_at_deg = 105;
  const Engine engine = built(one_cylinder(spec));
  EXPECT_EQ(engine.trains[0].profile.seat_opens_deg(), 345);
  EXPECT_EQ(engine.trains[0].profile.seat_closes_deg(), 575);
}

}  // namespace
}  // namespace shutlane::test
