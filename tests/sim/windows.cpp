// Shut windows against a brute-force sweep of lift, with tolerances sampled. The sweep knows the contract's
// words and lift_oracle only; it cannot see ends nearer than 2e-6 degrees to an angle it tries.
#include "sim/shut/windows.hpp"

#include <algorithm>
#include <cmath>

#include "tests/sim/dice.hpp"
#include "tests/sim/lift_oracle.hpp"
#include "tests/sim/port_oracle.hpp"
#include "tests/sim/some_engines.hpp"

namespace shutlane::test {
namespace {

/// No end of an arc within 2e-6: there the contract lets either answer stand.
bool clear_of_ends(const ArcSet& set, double at_deg) {
  for (const Arc& arc : set.arcs())
    for (const double end : {arc.from_deg, arc.to_deg()})
      if (std::abs(std::remainder(at_deg - end, 720)) < 2e-6) return false;
  return true;
}

TEST(Windows, TheContractsExample) {
  const auto windows = shut_windows(built(inline_six()), 10);
  ASSERT_EQ(windows.size(), 6U);
  EXPECT_EQ(windows[0].cylinder, 1);
  EXPECT_EQ(windows[0].shut.arcs(), (std::vector<Arc>{{588, 480}}));
  EXPECT_EQ(windows[0].within_tolerance.arcs(), (std::vector<Arc>{{591, 474}}));
  EXPECT_EQ(windows[0].sure.arcs(), (std::vector<Arc>{{601, 454}}));
  // The others are the first one turned by their firing TDC.
  const double tdc[] = {0, 480, 240, 600, 120, 360};
  for (size_t i = 0; i < 6; ++i) {
    EXPECT_EQ(windows[i].cylinder, static_cast<int>(i + 1));
    EXPECT_EQ(windows[i].sure, windows[0].sure.shifted(tdc[i]));
  }
}

TEST(Windows, NominalAgreesWithALiftSweepEveryHundredthOfADegree) {
  for_trials(8, [](Dice& dice) {
    const Engine engine = built(random_engine(dice, {.cylinders_most = 5}));
    const auto windows = shut_windows(engine);
    for (size_t k = 0; k < windows.size(); ++k) {
      const PortOracle port(engine, windows[k].cylinder);
      int wrong = 0;
      for (int i = 0; i < 72000; ++i) {
        const double at = i * 0.01;
        if (windows[k].shut.contains(at) != port.shut(at) && clear_of_ends(windows[k].shut, at)) ++wrong;
      }
      EXPECT_EQ(wrong, 0) << "cylinder " << windows[k].cylinder;
      for (int i = 0; i < 200; ++i) {
        const double at = dice.between(0, 720);
        const auto lifts = lifts_mm(engine, engine.cylinders[k], ValveKind::intake, at);
        const auto expected = port.lifts_mm(at);
        ASSERT_EQ(lifts.size(), expected.size());
        for (size_t v = 0; v < lifts.size(); ++v) EXPECT_NEAR(lifts[v], expected[v], 1e-8);
      }
    }
  });
}

TEST(Windows, NeverShutWhereASampledToleranceLiftsAValve) {
  for_trials(40, [](Dice& dice) {
    const Engine engine = built(random_engine(dice));
    for (const Windows& w : shut_windows(engine)) {
      const PortOracle port(engine, w.cylinder);
      for (int i = 0; i < 60; ++i) {
        const auto offsets = port.sampled(dice);
        for (int j = 0; j < 100; ++j) {
          // Half the angles near an end, where a slip would show.
          double at = dice.between(0, 720);
          if (dice.chance(0.5) && !w.within_tolerance.empty()) {
            const Arc arc = dice.pick(w.within_tolerance.arcs());
            at = wrap_deg((dice.chance(0.5) ? arc.from_deg : arc.to_deg()) + dice.between(-3, 3));
          }
          if (!clear_of_ends(w.within_tolerance, at)) continue;
          if (port.lifted(at, offsets)) {
            EXPECT_FALSE(w.within_tolerance.contains(at)) << "cylinder " << w.cylinder << " at " << at;
            EXPECT_FALSE(w.sure.contains(at));
          }
        }
      }
      if (::testing::Test::HasFailure()) return;
    }
  });
}

TEST(Windows, WithinToleranceIsNoNarrowerThanItMustBe) {
  // Wherever the answer is "not shut", some tolerance really lifts a valve: the worst one, phaser swept.
  for_trials(60, [](Dice& dice) {
    const Engine engine = built(random_engine(dice));
    for (const Windows& w : shut_windows(engine)) {
      const PortOracle port(engine, w.cylinder);
      for (double at = dice.between(0, 2); at < 720; at += 2) {
        if (!clear_of_ends(w.within_tolerance, at)) continue;
        EXPECT_EQ(w.within_tolerance.contains(at), !port.may_be_lifted(at)) << w.cylinder << " at " << at;
      }
    }
  });
}

TEST(Windows, SureIsWithinToleranceOverTheWholeMargin) {
  for_trials(60, [](Dice& dice) {
    const Engine engine = built(random_engine(dice));
    const double margin = dice.pick<double>({0, 1, 10, 25, dice.between(0, 180), 360});
    for (const Windows& w : shut_windows(engine, margin)) {
      const PortOracle port(engine, w.cylinder);
      for (int i = 0; i < 150; ++i) {
        const double at = dice.between(0, 720);
        if (!clear_of_ends(w.sure, at)) continue;
        EXPECT_EQ(w.sure.contains(at), port.never_lifted_between(at - margin, at + margin)) << at;
        const ShutState expected = w.sure.contains(at)   ? ShutState::surely_shut
                                   : w.shut.contains(at) ? ShutState::not_surely_shut
                                                         : ShutState::open;
        EXPECT_EQ(shut_state(w, at), expected);
      }
    }
  });
}

TEST(Windows, SurelyAboveALiftUnderEveryTolerance) {
  for_trials(60, [](Dice& dice) {
    const Engine engine = built(random_engine(dice));
    const double eye = dice.pick<double>({0, 0.3, 0.5, 1, 3});
    for (const Cylinder& cylinder : engine.cylinders) {
      const ArcSet above = surely_above(engine, cylinder, eye);
      const PortOracle port(engine, cylinder.number);
      for (int i = 0; i < 150; ++i) {
        const double at = dice.between(0, 720);
        const auto least = port.least_lift_mm(at);
        if (!clear_of_ends(above, at) || std::abs(least - eye) < 1e-9) continue;
        EXPECT_EQ(above.contains(at), least > eye) << cylinder.number << " at " << at;
      }
    }
  });
}

TEST(Windows, StaggeredLobesCountTogether) {
  EngineSpec spec = in_line({1});
  spec.tolerance.timing_deg = 0;
  ValveSpec other = spec.valves[0];
  spec.valves[0].per_cylinder = other.per_cylinder = 1;
  other.opens_deg = 30;
  other.closes_deg = 20;
  spec.valves.insert(spec.valves.begin() + 1, other);
  const Engine engine = built(spec);
  EXPECT_EQ(shut_windows(engine)[0].shut.arcs(), (std::vector<Arc>{{588, 462}}));  // to 330 + 720
  const auto lifts = lifts_mm(engine, engine.cylinders[0], ValveKind::intake, 335);
  ASSERT_EQ(lifts.size(), 2U);
  EXPECT_EQ(lifts[0], 0);
  EXPECT_GT(lifts[1], 0);
}

TEST(Windows, APhaserWidensTheOpeningTowardsEarlier) {
  EngineSpec spec = in_line({1});
  spec.tolerance.timing_deg = 0;
  spec.valves[0].phase_range_deg = {0, 40};
  const auto early = shut_windows(built(spec), 0)[0];
  EXPECT_EQ(early.shut.arcs(), (std::vector<Arc>{{588, 480}}));              // phaser at 0
  EXPECT_EQ(early.within_tolerance.arcs(), (std::vector<Arc>{{588, 440}}));  // opens up to 40 earlier
  spec.valves[0].phase_range_deg = {-15, 40};
  const auto both = shut_windows(built(spec), 0)[0];
  EXPECT_EQ(both.within_tolerance.arcs(), (std::vector<Arc>{{603, 425}}));  // and closes up to 15 later
}

TEST(Windows, TheSeatToleranceOnlyWidensTheOpening) {
  EngineSpec spec = in_line({1});
  spec.tolerance = {.timing_deg = 4, .seat_deg = 7.0};
  const Engine engine = built(spec);
  EXPECT_EQ(shut_windows(engine, 0)[0].within_tolerance.arcs(), (std::vector<Arc>{{599, 458}}));
  EXPECT_EQ(surely_above(engine, engine.cylinders[0], 0).arcs(), (std::vector<Arc>{{352, 232}}));
}

TEST(Windows, DefaultsOfTheTolerances) {
  // timing 5; seat 0 where stated at the seat or by a table, else 10 (contract, section 2).
  EngineSpec spec = in_line({1});
  spec.tolerance = {};
  EXPECT_EQ(built(spec).trains[0].timing_deg, 5);
  EXPECT_EQ(built(spec).trains[0].seat_deg, 0);
  spec.valves[0].at_lift_mm = 0.5;
  EXPECT_EQ(built(spec).trains[0].seat_deg, 10);
  spec.valves[0].at_lift_mm = std::nullopt;
  EXPECT_EQ(built(spec).trains[0].seat_deg, 10);
  Dice dice(1);
  spec.valves[0] = random_table(dice);
  EXPECT_EQ(built(spec).trains[0].seat_deg, 0);
}

TEST(Windows, AnUnknownLiftOrLawIsTakenAtItsWorst) {
  // The window of an entry that does not say is no wider than that of any law and any lift up to 1 mm.
  EngineSpec unknown = in_line({1});
  unknown.valves[0].at_lift_mm = std::nullopt;
  unknown.valves[0].lift_law = std::nullopt;
  const ArcSet worst = shut_windows(built(unknown), 0)[0].shut;
  for (const LiftLaw law :
       {LiftLaw::polynomial_345, LiftLaw::polynomial_4567, LiftLaw::cycloidal, LiftLaw::harmonic})
    for (const double at_mm : {0.0, 0.15, 0.5, 1.0}) {
      EngineSpec known = unknown;
      known.valves[0].at_lift_mm = at_mm;
      known.valves[0].lift_law = law;
      known.tolerance.seat_deg = 0;
      EXPECT_TRUE(shut_windows(built(known), 0)[0].shut.covers(worst))
          << static_cast<int>(law) << " " << at_mm;
    }
}

TEST(Windows, AnUnknownLawIsTheWidestOfAllWithClearanceAndHighCheckHeightsToo) {
  // With valve clearance, or with events stated high up the flank, 4-5-6-7 is no longer the law with the
  // widest opening. The nominal window stays that of 4-5-6-7, but what may be relied on must hold for every
  // law, also when no seat tolerance is left.
  size_t wider_than_4567 = 0;
  for (const double clearance_mm : {0.0, 0.05, 0.2, 0.5})
    for (const double at_mm : {0.0, 0.15, 1.0, 1.27, 3.0})
      for (const double peak_mm : {6.0, 9.7, 12.0}) {
        EngineSpec unknown = in_line({1});
        unknown.tolerance = {.timing_deg = 0, .seat_deg = 0};
        unknown.valves[0].lift_law = std::nullopt;
        unknown.valves[0].at_lift_mm = at_mm;
        unknown.valves[0].clearance_mm = clearance_mm;
        unknown.valves[0].peak_lift_mm = peak_mm;
        const ArcSet worst = shut_windows(built(unknown), 0)[0].within_tolerance;
        for (const LiftLaw law :
             {LiftLaw::polynomial_345, LiftLaw::polynomial_4567, LiftLaw::cycloidal, LiftLaw::harmonic}) {
          EngineSpec known = unknown;
          known.valves[0].lift_law = law;
          const ArcSet shut = shut_windows(built(known), 0)[0].shut;
          EXPECT_TRUE(shut.covers(worst)) << clearance_mm << " " << at_mm << " " << peak_mm;
          wider_than_4567 += law == LiftLaw::polynomial_4567 && shut.total_deg() > worst.total_deg() + 1;
        }
      }
  EXPECT_GT(wider_than_4567, 5u);
}

TEST(Windows, EachBankFollowsItsOwnValveTrain) {
  EngineSpec spec = vee({1, 3, 2, 4}, 90);
  spec.tolerance.timing_deg = 0;
  ValveSpec right = spec.valves[0];
  spec.valves[0].banks = {"left"};
  right.banks = {"right"};
  right.closes_deg = 68;
  spec.valves.push_back(right);
  const Engine engine = built(spec);
  for (const Windows& w : shut_windows(engine, 0)) {
    const double tdc = engine.find(w.cylinder)->firing_tdc_deg;
    const bool is_right = w.cylinder >= 3;
    EXPECT_EQ(w.shut, ArcSet({{588, 480}}).minus(is_right ? ArcSet({{588, 20}}) : ArcSet()).shifted(tdc));
  }
}

}  // namespace
}  // namespace shutlane::test
