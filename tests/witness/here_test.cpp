// What is known at one position: what each thing told leaves of the cycle, and what the belief beside it
// makes of it.
#include "sim/witness/here.hpp"

#include <array>
#include <cmath>
#include <random>

#include "tests/witness/engines.hpp"
#include "tests/witness/trials.hpp"

namespace shutlane {
namespace {

const WitnessModel& of_six() {
  static const WitnessModel model = [] {
    const Engine engine = test::engine_of({{1, 5, 3, 6, 2, 4}});
    return WitnessModel{engine, port_sets(engine), std::make_shared<const LookModel>(engine)};
  }();
  return model;
}

Here told(std::initializer_list<Told> all, bool with_belief = true) {
  Here here(of_six(), with_belief);
  for (const Told& t : all) here.tell(of_six(), t);
  return here;
}

const LookedInto kOneShut{1, Saw::shut}, kTwoShut{2, Saw::shut}, kThreeOpen{3, Saw::open},
    kSixOpen{6, Saw::open};

/// Nobody can have moved the crank in a pause with the chalk in line before and after it, but for a glance
/// that sees what it expects.
TEST(Here, APauseBetweenTwoGlancesAtTheChalkWeighsLess) {
  const auto doubt = [](const Here& here) { return here.belief()->doubt(); };
  const double before = doubt(told({kOneShut, kThreeOpen, kSixOpen}));
  const double bare = doubt(told({kOneShut, kThreeOpen, kSixOpen, Pause{}}));
  const double drawn_before = doubt(told({kOneShut, kThreeOpen, kSixOpen, ChalkInLine{}, Pause{}}));
  const double drawn_after = doubt(told({kOneShut, kThreeOpen, kSixOpen, Pause{}, ChalkInLine{}}));
  const double held = doubt(told({kOneShut, kThreeOpen, kSixOpen, ChalkInLine{}, Pause{}, ChalkInLine{}}));
  EXPECT_GT(bare, before + 5e-5);
  EXPECT_NEAR(drawn_before, bare, 1e-12) << "a line at which nobody looked afterwards";
  EXPECT_NEAR(drawn_after, bare, 1e-12) << "a line that was not there before";
  EXPECT_LT(held - before, 0.05 * (bare - before));
  EXPECT_GT(held, before) << "a glance may see what it expects";
  // One later glance holds for every pause since the line was drawn.
  const double twice =
      doubt(told({kOneShut, kThreeOpen, kSixOpen, ChalkInLine{}, Pause{}, Pause{}, ChalkInLine{}}));
  EXPECT_NEAR(twice - before, 2 * (held - before), 1e-6);
}

TEST(Here, TheChalkSaysNothingOfTheAngle) {
  const Here without = told({kOneShut, kThreeOpen}), with = told({kOneShut, ChalkInLine{}, kThreeOpen});
  EXPECT_EQ(with.where(of_six()), without.where(of_six()));
  EXPECT_NEAR(with.chance_open(2), without.chance_open(2), 1e-12);
}

/// The sets, by hand: cylinder 6 fires a full turn after 1; seen open it leaves 360 + 348..588, widened by
/// the tolerance of 3 degrees.
TEST(Here, EachThingToldLeavesItsPartOfTheCycle) {
  const ArcSet six_open = told({kSixOpen}).where(of_six());
  ASSERT_EQ(six_open.arcs().size(), 1u);
  EXPECT_NEAR(six_open.arcs()[0].from_deg, 705, 1e-6);
  EXPECT_NEAR(six_open.arcs()[0].length_deg, 246, 1e-6);
  EXPECT_EQ(told({MarkRead{35, 5}}).where(of_six()), ArcSet({{30, 10}, {390, 10}}));
  EXPECT_TRUE(told({LobeSeen{1, Lobe::unclear}, ChalkInLine{}, Pause{}, {LookedInto{1, Saw::hidden}}})
                  .where(of_six())
                  .full());
  EXPECT_TRUE(told({LookedInto{1, Saw::open}, kSixOpen}).where(of_six()).empty());
}

/// A port is never its own witness, at no position.
TEST(Here, WithoutItsOwnLooks) {
  const Here here = told({kOneShut, kSixOpen});
  EXPECT_EQ(here.where_without(of_six(), 0), told({kSixOpen}).where(of_six()));
  EXPECT_EQ(here.where_without(of_six(), 5), told({kOneShut}).where(of_six()));
  Here turned = here;
  turned.turned(of_six(), 350, 370);
  EXPECT_EQ(turned.where_without(of_six(), 0), told({kSixOpen}).where(of_six()).shifted(360).grown(10));
  EXPECT_EQ(turned.where(of_six()), here.where(of_six()).shifted(360).grown(10));
  EXPECT_TRUE(turned.told().empty());
  EXPECT_EQ(here.where_before_looks(of_six()), ArcSet::all());
}

/// Whatever was told: where the crank can stand by everything, it can stand without the looks into one port.
/// A hair open is an opinion, and once chose one place with a port's own look and another without it, so that
/// the port was reckoned shut where it could not be.
TEST(Here, WithoutItsOwnLooksItCanStandWhereItCanWithThem) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(testing::Message() << "seed " << test::seed());
  int touched = 0;
  for (uint64_t trial = 0; trial < test::trials(400); ++trial) {
    Here here(of_six(), false);
    for (int step = 0; step < 8; ++step) {
      const int port = 1 + static_cast<int>(random() % 6);
      const Saw saw = std::array{Saw::shut, Saw::open, Saw::touching, Saw::touching}[random() % 4];
      if (step == 0)
        here.tell(of_six(), MarkRead{static_cast<double>(random() % 360), 5});
      else if (step == 5)
        here.turned(of_six(), 350, 370);
      else
        here.tell(of_six(), LookedInto{port, saw});
      const ArcSet where = here.where(of_six());
      touched += !where.empty() && saw == Saw::touching;
      for (size_t i = 0; i < 6; ++i) ASSERT_TRUE(here.where_without(of_six(), i).covers(where)) << i + 1;
    }
  }
  EXPECT_GT(touched, 100);
}

TEST(Here, WhatIsTakenBackIsAsNeverTold) {
  const double chance = told({kOneShut, kTwoShut, kThreeOpen}).chance_open(1);
  Here here = told({kOneShut, MarkRead{120, 5}, kTwoShut, LobeSeen{4, Lobe::away}, kThreeOpen, kSixOpen});
  here.forget_marks(of_six());
  here.forget_lobes(of_six());
  here.forget_look(of_six(), 6);
  EXPECT_DOUBLE_EQ(here.chance_open(1), chance);
  EXPECT_EQ(here.where(of_six()), told({kOneShut, kTwoShut, kThreeOpen}).where(of_six()));
  here.forget_looks(of_six());
  EXPECT_TRUE(here.where(of_six()).full());
  Here arrived = told({kSixOpen});
  arrived.turned(of_six(), 360, 360);
  arrived.tell(of_six(), kOneShut);
  arrived.forget_arrival(of_six());
  EXPECT_EQ(arrived.where(of_six()), told({kOneShut}).where(of_six())) << "what was told since stays";
}

/// Another answer right after one into the same port corrects a slip of the finger.
TEST(Here, TheAnswerRightAfterOneCorrectsIt) {
  EXPECT_EQ(told({kThreeOpen, LookedInto{1, Saw::open}, kOneShut}).told(),
            told({kThreeOpen, kOneShut}).told());
  EXPECT_EQ(told({LookedInto{1, Saw::open}, kThreeOpen, kOneShut}).told().size(), 3u);
}

/// Of the sets alone there is no belief, and every chance is the worst.
TEST(Here, WithoutABelief) {
  const Here here = told({kOneShut, kThreeOpen, kSixOpen}, false);
  EXPECT_EQ(here.belief(), nullptr);
  EXPECT_EQ(here.chance_open(1), 1);
  EXPECT_EQ(here.where(of_six()), told({kOneShut, kThreeOpen, kSixOpen}).where(of_six()));
}

/// What a look would do to the chance is what it then does.
TEST(Here, TheChanceAfterALookIsForetold) {
  for (const int port : {1, 2, 4, 5}) {  // not seen open
    Here here = told({kThreeOpen, kSixOpen, kTwoShut});
    const double foretold = here.belief()->open_after_look(port, port, here.answer(port)).open_if_shut;
    here.tell(of_six(), LookedInto{port, Saw::shut});
    // Between two looks a crank may be moved, which a look foretold leaves out.
    EXPECT_NEAR(here.chance_open(port), foretold, 0.02 * foretold + 3e-5) << port;
  }
}

}  // namespace
}  // namespace shutlane
