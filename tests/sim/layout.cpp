// Firing intervals and crank pins. Source of the layouts and orders: lists of firing orders in a German
// technical lexicon and the usual descriptions of each crank (rows marked M are from memory); every verdict
// recomputed by enumeration: cylinder TDC at (bank angle - pin angle) mod 360 in the direction of rotation,
// fired there or a turn later. The trap: a firing order does not fix the crank, and a mirrored crank breaks
// an order.
#include "tests/sim/cranks.hpp"

#include <gtest/gtest.h>

namespace shutlane::test {
namespace {

struct Row {
  const char* name;
  Crank crank;
  std::vector<double> pattern;  // repeated around the cycle
};
const std::vector<Row>& rows() {
  static const std::vector<Row> all = {
      {"twin 360", row({0, 0}), {360}},
      {"twin 180", row({0, 180}), {180, 540}},
      {"twin 270", row({0, 270}), {270, 450}},
      {"three", row({0, 240, 120}), {240}},
      {"three, other hand", row({0, 120, 240}), {240}},
      {"four, flat crank", row(kI4), {180}},
      {"four, cross-plane", row(kCross), {90, 180, 270, 180}},
      {"five", row({0, 216, 144, 72, 288}), {144}},
      {"six", row(kI6), {120}},
      {"six, other hand", row({0, 120, 240, 240, 120, 0}), {120}},
      {"eight", row({0, 180, 270, 90, 90, 270, 180, 0}), {90}},
      {"V2 45", vee_crank({0}, 45, 0), {315, 405}},
      {"V2 60", vee_crank({0}, 60, 0), {300, 420}},
      {"V2 90", vee_crank({0}, 90, 0), {270, 450}},
      {"flat twin, one pin", vee_crank({0}, 180, 0), {180, 540}},
      {"boxer twin", vee_crank({0}, 180, 180), {360}},
      {"V4 90, pins 0/180", vee_crank(kV4, 90, 0), {180, 90, 180, 270}},
      {"V4 90, pins 0/0", vee_crank({0, 0}, 90, 0), {90, 270, 90, 270}},
      {"V4 60, -120", vee_crank(kV4, 60, -120), {180}},
      {"V6 60 common", vee_crank(kV6, 60, 0), {60, 180}},
      {"V6 60, six pins", vee_crank(kV6, 60, -60), {120}},
      {"V6 90 common", vee_crank(kV6, 90, 0), {90, 150}},
      {"V6 90, 30 degree split pin", vee_crank(kV6, 90, -30), {120}},
      {"V6 90, -18", vee_crank(kV6, 90, -18), {108, 132}},
      {"V6 120", vee_crank(kV6, 120, 0), {120}},
      {"boxer four", vee_crank(kV4, 180, 180), {180}},
      {"boxer six", vee_crank(kV6, 180, 180), {120}},
      {"V8 90 cross-plane", vee_crank(kCross, 90, 0), {90}},
      {"V8 90 flat-plane", vee_crank(kI4, 90, 0), {90}},
      {"V8 72 flat-plane", vee_crank(kI4, 72, 0), {72, 108}},
      {"V8 60 flat-plane", vee_crank(kI4, 60, 0), {60, 120}},
      {"V10 72", vee_crank(kV10, 72, 0), {72}},
      {"V10 90, +18", vee_crank(kV10, 90, 18), {72}},
      {"V10 90 common", vee_crank(kV10, 90, 0), {90, 54}},
      {"V12 60", vee_crank(kI6, 60, 0), {60}},
      {"V12 65", vee_crank(kI6, 65, 0), {65, 55}},
      {"V12 90", vee_crank(kI6, 90, 0), {90, 30}},
      {"V12 180", vee_crank(kI6, 180, 0), {60}},
  };
  return all;
}

TEST(Layout, IntervalsOfEachCrankAreAcceptedAndGiveItsPinsBack) {
  for (const Row& r : rows()) {
    SCOPED_TRACE(r.name);
    const auto ways = firings(r.crank, r.pattern);
    ASSERT_FALSE(ways.empty());  // the row itself: such a crank can fire so
    for (size_t w = 0; w < ways.size(); w += 1 + ways.size() / 8) {
      EngineSpec spec = spec_of(r.crank, ways[w].order, ways[w].intervals);
      const Engine engine = built(spec);
      spec.layout.crank_pins_deg.clear();
      const Engine derived = built(spec);
      double at = 0;
      for (size_t i = 0; i < ways[w].order.size(); ++i) {
        const Cylinder& c = *engine.find(ways[w].order[i]);
        EXPECT_NEAR(c.firing_tdc_deg, at, 1e-9);
        at += ways[w].intervals[i];
        const double pin = r.crank.pin_deg[static_cast<size_t>(c.number - 1)];
        EXPECT_NEAR(turn_difference_deg(derived.find(c.number)->crank_pin_deg, pin), 0, 1e-9);
        EXPECT_EQ(engine.cylinders[engine.firing[i]].number, c.number);
      }
    }
  }
}

TEST(Layout, AWrongPinIsNamedWithItsCylinderAndByHowMuch) {
  for (const Row& r : rows()) {
    SCOPED_TRACE(r.name);
    const Firing way = firings(r.crank, r.pattern).front();
    for (size_t i = 1; i < r.crank.size(); ++i)
      for (const double off : {0.45, -0.45, 12.5, -12.5}) {
        Crank wrong = r.crank;
        wrong.pin_deg[i] += off;
        const auto mistakes = mistakes_in(spec_of(wrong, way.order, way.intervals));
        if (std::abs(off) < 0.5) {  // "must agree within 0.5"
          EXPECT_TRUE(mistakes.empty());
          continue;
        }
        ASSERT_EQ(mistakes.size(), 1U);
        const std::string number = std::to_string(i + 1);
        EXPECT_EQ(mistakes[0].key, "layout.crank_pins_deg." + number);
        EXPECT_NE(mistakes[0].wrong.find("cylinder " + number), std::string::npos) << mistakes[0].wrong;
        EXPECT_NE(mistakes[0].wrong.find("12.5"), std::string::npos) << mistakes[0].wrong;
      }
  }
}

TEST(Layout, LocalAnglesBeginAtFiringTdc) {
  for_trials(100, [](Dice& dice) {
    const Engine engine = built(random_engine(dice));
    for (const Cylinder& c : engine.cylinders) {
      EXPECT_EQ(c.local_deg(c.firing_tdc_deg), 0);
      EXPECT_NEAR(c.local_deg(c.firing_tdc_deg + 360), 360, 1e-9);
      EXPECT_EQ(c.local_deg(c.firing_tdc_deg - 1e-8),
                0);  // closer than 1e-6 is equal: power, not compression
      EXPECT_NEAR(c.local_deg(c.firing_tdc_deg - 1), 719, 1e-9);
    }
  });
}

TEST(Layout, EvenFiringOfVEngines) {
  // Enumerated: three-pin V6 even iff B - delta is a multiple of 120; cross-plane V8 of 90; paired pins of a
  // V12: 60 past a multiple of 120.
  for (int angle = 0; angle <= 180; angle += 15)
    for (int delta = -180; delta <= 180; delta += 15) {
      const int diff = ((angle - delta) % 360 + 360) % 360;
      auto even = [&](const std::vector<double>& pins) {
        const Crank c = vee_crank(pins, angle, delta);
        for (const Firing& f : firings(c, {720.0 / static_cast<double>(c.size())}))
          if (fits(c, f.order)) return true;
        return false;
      };
      EXPECT_EQ(even(kV6), diff % 120 == 0) << angle << " " << delta;
      EXPECT_EQ(even(kCross), diff % 90 == 0) << angle << " " << delta;
    }
}

}  // namespace
}  // namespace shutlane::test
