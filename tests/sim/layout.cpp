// Firing intervals and crank pins. Source of the layouts and orders: lists of firing orders in a German
// technical lexicon and the usual descriptions of each crank (rows marked M are from memory); every verdict
// recomputed by enumeration: cylinder TDC at (bank angle - pin angle) mod 360 in the direction of rotation,
// fired there or a turn later. The trap: a firing order does not fix the crank, and a mirrored crank breaks
// an order.
#include "sim/mechanism/layout.hpp"

#include <algorithm>
#include <cmath>

#include "tests/sim/some_engines.hpp"

#include <gtest/gtest.h>

namespace shutlane::test {
namespace {

double mod(double a, double by) {
  const double r = std::fmod(std::fmod(a, by) + by, by);
  return r > by - 1e-9 ? 0 : r;
}

/// A crank and its banks: cylinders 1..n, bank angle and pin of each in the direction of rotation.
struct Crank {
  std::vector<double> bank_deg, pin_deg;
  size_t size() const { return pin_deg.size(); }
};

Crank row(std::vector<double> pins) { return {std::vector<double>(pins.size(), 0.0), std::move(pins)}; }

/// Left bank 0 (cylinders 1..h), right bank +B with each pin delta past its neighbour's.
Crank vee_crank(std::vector<double> pins_left, double angle_deg, double delta_deg) {
  Crank c = row(pins_left);
  for (const double pin : pins_left) {
    c.bank_deg.push_back(angle_deg);
    c.pin_deg.push_back(mod(pin + delta_deg, 360));
  }
  return c;
}

/// Odd numbers left, even right, neighbours on one pin.
Crank odd_even(const std::vector<double>& pins, double angle_deg) {
  Crank c;
  for (const double pin : pins)
    for (const double bank : {0.0, angle_deg}) {
      c.bank_deg.push_back(bank);
      c.pin_deg.push_back(pin);
    }
  return c;
}

EngineSpec spec_of(const Crank& crank, const std::vector<int>& order, const std::vector<double>& intervals) {
  EngineSpec spec = in_line(order);
  spec.layout.firing_intervals_deg = intervals;
  spec.layout.banks.clear();
  for (size_t i = 0; i < crank.size(); ++i) {
    auto& banks = spec.layout.banks;
    const auto same = std::find_if(banks.begin(), banks.end(),
                                   [&](const BankSpec& b) { return b.tilt_deg == crank.bank_deg[i]; });
    const int number = static_cast<int>(i + 1);
    if (same != banks.end())
      same->cylinders.push_back(number);
    else
      banks.push_back({.name = "bank " + std::to_string(banks.size()),
                       .tilt_deg = crank.bank_deg[i],
                       .cylinders = {number},
                       .bore_offset_mm = {}});
    spec.layout.throws_deg[number] = crank.pin_deg[i];
  }
  return spec;
}

bool fits(const Crank& crank, const std::vector<int>& order, const std::vector<double>& intervals = {}) {
  return mistakes_in(spec_of(crank, order, intervals)).empty();
}

/// Every way to fire (each cylinder at its TDC or a turn later) whose intervals are `pattern`, begun
/// anywhere: an order and its intervals, cylinder 1 at 0.
struct Firing {
  std::vector<int> order;
  std::vector<double> intervals;
};
std::vector<Firing> firings(const Crank& crank, const std::vector<double>& pattern) {
  const size_t n = crank.size();
  std::vector<Firing> all;
  for (unsigned turns = 0; turns < (1U << n); turns += 2) {  // cylinder 1 fires at 0
    std::vector<std::pair<double, int>> at;
    for (size_t i = 0; i < n; ++i)
      at.push_back({mod(crank.bank_deg[i] - crank.pin_deg[i], 360) + (turns >> i & 1U ? 360 : 0),
                    static_cast<int>(i + 1)});
    std::sort(at.begin(), at.end());
    Firing f;
    for (size_t i = 0; i < n; ++i) {
      f.order.push_back(at[i].second);
      f.intervals.push_back(i + 1 < n ? at[i + 1].first - at[i].first : 720 - at[i].first + at[0].first);
    }
    for (size_t start = 0; start < pattern.size(); ++start) {
      bool same = true;
      for (size_t i = 0; i < n; ++i)
        same = same && std::abs(f.intervals[i] - pattern[(start + i) % pattern.size()]) < 1e-6;
      if (!same) continue;
      all.push_back(f);
      break;
    }
  }
  return all;
}

struct Row {
  const char* name;
  Crank crank;
  std::vector<double> pattern;  // repeated around the cycle
};
const std::vector<double> kI4{0, 180, 180, 0}, kCross{0, 90, 270, 180}, kV6{0, 240, 120}, kV4{0, 180},
    kI6{0, 240, 120, 120, 240, 0}, kV10{0, 216, 144, 72, 288};

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
      spec.layout.throws_deg.clear();
      const Engine derived = built(spec);
      double at = 0;
      for (size_t i = 0; i < ways[w].order.size(); ++i) {
        const Cylinder& c = *engine.find(ways[w].order[i]);
        EXPECT_NEAR(c.firing_tdc_deg, at, 1e-9);
        at += ways[w].intervals[i];
        const double pin = r.crank.pin_deg[static_cast<size_t>(c.number - 1)];
        EXPECT_NEAR(turn_difference_deg(derived.find(c.number)->throw_deg, pin), 0, 1e-9);
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
        EXPECT_EQ(mistakes[0].key, "layout.throws_deg." + number);
        EXPECT_NE(mistakes[0].wrong.find("cylinder " + number), std::string::npos) << mistakes[0].wrong;
        EXPECT_NE(mistakes[0].wrong.find("12.5"), std::string::npos) << mistakes[0].wrong;
      }
  }
}

TEST(Layout, OrdersInline) {
  EXPECT_TRUE(fits(row({0, 240, 120}), {1, 3, 2}));
  EXPECT_FALSE(fits(row({0, 240, 120}), {1, 2, 3}));
  EXPECT_TRUE(fits(row({0, 120, 240}), {1, 2, 3}));
  for (const auto& order : {std::vector{1, 3, 4, 2}, {1, 2, 4, 3}}) EXPECT_TRUE(fits(row(kI4), order));
  EXPECT_FALSE(fits(row(kI4), {1, 4, 2, 3}));
  EXPECT_TRUE(fits(row(kCross), {1, 3, 2, 4}, {90, 180, 270, 180}));
  EXPECT_FALSE(fits(row(kCross), {1, 3, 4, 2}));
  EXPECT_TRUE(fits(row({0, 216, 144, 72, 288}), {1, 2, 4, 5, 3}));
  EXPECT_TRUE(fits(row({0, 180, 270, 90, 90, 270, 180, 0}), {1, 6, 2, 5, 8, 3, 7, 4}));  // M
  const Crank one_hand = row(kI6), other_hand = row({0, 120, 240, 240, 120, 0});
  for (const auto& order : {std::vector{1, 5, 3, 6, 2, 4}, {1, 2, 4, 6, 5, 3}}) {
    EXPECT_TRUE(fits(one_hand, order));
    EXPECT_FALSE(fits(other_hand, order));
  }
  for (const auto& order : {std::vector{1, 4, 2, 6, 3, 5}, {1, 4, 5, 6, 3, 2}}) {
    EXPECT_TRUE(fits(other_hand, order));
    EXPECT_FALSE(fits(one_hand, order));
  }
}

TEST(Layout, OrdersV8) {
  const Crank cross = vee_crank(kCross, 90, 0), flat = vee_crank(kI4, 90, 0);
  for (const auto& order : {std::vector{1, 5, 4, 8, 6, 3, 7, 2},
                            {1, 3, 7, 2, 6, 5, 4, 8},     // M
                            {1, 5, 4, 2, 6, 3, 7, 8}}) {  // M
    EXPECT_TRUE(fits(cross, order));
    EXPECT_FALSE(fits(flat, order));
  }
  for (const auto& order : {std::vector{1, 6, 3, 5, 4, 7, 2, 8}, {1, 8, 3, 6, 4, 5, 2, 7}}) {
    bool some_flat = false;  // which of the two hands the lexicon means it does not say
    for (const double angle : {90.0, -90.0}) {
      some_flat = some_flat || fits(vee_crank(kI4, angle, 0), order);
      EXPECT_FALSE(fits(vee_crank(kCross, angle, 0), order));
    }
    EXPECT_TRUE(some_flat);
  }
  for (const auto& order : {std::vector{1, 8, 4, 3, 6, 5, 7, 2}, {1, 8, 7, 2, 6, 5, 4, 3}}) {  // second: M
    EXPECT_TRUE(fits(odd_even(kCross, -90), order));
    EXPECT_FALSE(fits(odd_even(kI4, -90), order));
  }
}

TEST(Layout, OrdersV6V4BoxersV10V12) {
  const std::vector<double> other_hand{0, 120, 240};
  for (const auto& [angle, delta] : {std::pair{60.0, -60.0}, {90.0, -30.0}}) {
    for (const auto& order :
         {std::vector{1, 2, 5, 6, 4, 3}, {1, 4, 5, 6, 2, 3}, {1, 4, 3, 6, 2, 5}})  // last: M
      EXPECT_TRUE(fits(vee_crank(kV6, angle, delta), order)) << angle;
    EXPECT_TRUE(fits(vee_crank(other_hand, angle, delta), {1, 4, 2, 5, 3, 6}));
    EXPECT_FALSE(fits(vee_crank(kV6, angle, delta), {1, 4, 2, 5, 3, 6}));
  }
  EXPECT_TRUE(fits(vee_crank({0, 0}, 60, 60 - 180), {1, 3, 2, 4}));
  EXPECT_FALSE(fits(vee_crank({0, 180}, 60, 60 - 180), {1, 3, 2, 4}));
  bool some = false;
  for (const double second : {0.0, 180.0}) {  // opposed pins; the left bank's second pin either way
    const Crank boxer = vee_crank({0, second}, 180, 180);
    some = some || fits(boxer, {1, 4, 3, 2});
    EXPECT_FALSE(fits(boxer, {1, 3, 2, 4}));
    EXPECT_FALSE(fits(boxer, {1, 4, 2, 3}));
  }
  EXPECT_TRUE(some);
  EXPECT_TRUE(fits(vee_crank(other_hand, 180, 180), {1, 6, 2, 4, 3, 5}));
  for (const auto& order : {std::vector{1, 7, 5, 11, 3, 9, 6, 12, 2, 8, 4, 10},
                            {1, 12, 5, 8, 3, 10, 6, 7, 2, 11, 4, 9}})  // both M
    EXPECT_TRUE(fits(vee_crank(kI6, 60, 0), order));
  const std::vector<int> ten{1, 6, 5, 10, 2, 7, 3, 8, 4, 9};  // M
  std::vector<double> pins(5);                                // the left bank's pins that the order asks for
  for (size_t i = 0; i < 10; ++i)
    if (ten[i] <= 5) pins[static_cast<size_t>(ten[i] - 1)] = mod(-72.0 * static_cast<double>(i), 360);
  EXPECT_TRUE(fits(vee_crank(pins, 72, 0), ten));
  EXPECT_TRUE(fits(vee_crank(pins, 90, 18), ten));
  EXPECT_FALSE(fits(vee_crank(pins, 90, -18), ten));
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

TEST(Layout, PinsByGeometryWithLeaningAndOffsetBores) {
  // Set out in the plane: at its firing TDC each piston must stand at the top of its travel. Narrow-angle
  // engines with offset bores, both directions of rotation; the top found by trying every 0.001 degree around
  // it.
  for_trials(60, [](Dice& dice) {
    EngineSpec spec = random_engine(dice, {.cylinders_most = 8});
    const double d = spec.layout.turns == Turns::clockwise ? 1 : -1;
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
      const double pin_at_firing = first_top + c.throw_deg + c.firing_tdc_deg;
      EXPECT_NEAR(turn_difference_deg(pin_at_firing, d * top(c)), 0, 1e-3) << "cylinder " << c.number;
      EXPECT_NEAR(c.crank.at_local(0).below_top_mm, 0, 1e-9);
      const double at = dice.between(0, 720);  // and anywhere else in the cycle
      const double below_mm = piston(c, top(c)) - piston(c, d * (first_top + c.throw_deg + at));
      EXPECT_NEAR(c.crank.at_local(c.local_deg(at)).below_top_mm, below_mm,
                  1e-5);  // the top is found to 1e-6 degrees or so
    }
  });
}

}  // namespace
}  // namespace shutlane::test
