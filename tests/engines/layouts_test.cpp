// Every bundled engine's crank and firing against the layouts of the trade.
// Source of pins, bank angles, orders and intervals: the project's check values, section 5 (recomputed there
// from first principles; orders from a German technical lexicon, those of the straight eight, the V10 and the
// V12 from memory). Angles here come from pins and bank angles alone: top dead centre at (bank angle - pin)
// mod 360, both in the direction of rotation. The engine's come from its firing order and intervals.
#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "engines/catalog.hpp"
#include "tests/engines/sample.hpp"

namespace shutlane::test {
namespace {

struct Layout {
  const char* name;
  std::vector<int> order;
  std::vector<double> intervals_deg;  ///< as firings follow from cylinder 1
  std::vector<double> pins_deg;       ///< of cylinders 1, 2, 3, ...
  std::vector<double> banks_deg;      ///< of cylinders 1, 2, 3, ... in the direction of rotation
};

void PrintTo(const Layout& layout, std::ostream* out) { *out << layout.name; }

std::vector<double> even(int n) { return std::vector<double>(static_cast<size_t>(n), 720.0 / n); }

/// Cylinders 1..n/2 at 0, the others at `angle_deg`.
std::vector<double> vee(size_t n, double angle_deg) {
  std::vector<double> banks(n, 0.0);
  std::fill(banks.begin() + static_cast<std::ptrdiff_t>(n / 2), banks.end(), angle_deg);
  return banks;
}

/// Right-hand pins: those on the left and `offset_deg`.
std::vector<double> pins(std::vector<double> left, double offset_deg) {
  const size_t h = left.size();
  for (size_t i = 0; i < h; ++i) left.push_back(left[i] + offset_deg);
  return left;
}

std::vector<double> repeated(std::vector<double> group, int times) {
  std::vector<double> all;
  for (int i = 0; i < times; ++i) all.insert(all.end(), group.begin(), group.end());
  return all;
}

const std::vector<double> kSixPins{0, 240, 120, 120, 240, 0};
const std::vector<double> kTenPins{0, 72, 288, 144, 216};

std::vector<Layout> layouts() {
  std::vector<Layout> all{
      {"single", {1}, {720}, {0}, {0}},
      {"twin-360", {1, 2}, {360, 360}, {0, 0}, {0, 0}},
      {"twin-180", {1, 2}, {180, 540}, {0, 180}, {0, 0}},
      {"twin-270", {1, 2}, {450, 270}, {0, 270}, {0, 0}},
      {"inline-three", {1, 3, 2}, even(3), {0, 240, 120}, {0, 0, 0}},
      {"hybrid-three", {1, 3, 2}, even(3), {0, 240, 120}, {0, 0, 0}},
      {"inline-four", {1, 3, 4, 2}, even(4), {0, 180, 180, 0}, {0, 0, 0, 0}},
      {"inline-four-cross-plane", {1, 3, 2, 4}, {90, 180, 270, 180}, {0, 90, 270, 180}, {0, 0, 0, 0}},
      {"inline-five", {1, 2, 4, 5, 3}, even(5), {0, 216, 144, 72, 288}, vee(5, 0)},
      {"inline-six", {1, 5, 3, 6, 2, 4}, even(6), kSixPins, vee(6, 0)},
      {"straight-eight", {1, 6, 2, 5, 8, 3, 7, 4}, even(8), {0, 180, 270, 90, 90, 270, 180, 0}, vee(8, 0)},
      {"v2-45", {1, 2}, {405, 315}, {0, 0}, {0, 45}},
      {"v2-90", {1, 2}, {450, 270}, {0, 0}, {0, 90}},
      {"flat-twin", {1, 2}, even(2), {0, 180}, {0, 180}},
      // Turning anticlockwise, the bank that leans right comes 270 degrees after the one that leans left.
      {"v4-90-anticlockwise", {1, 2, 3, 4}, {180, 90, 180, 270}, {0, 180, 0, 180}, {0, 0, 270, 270}},
      {"v6-60", {1, 4, 2, 5, 3, 6}, even(6), pins({0, 120, 240}, -60), vee(6, 60)},
      {"v6-90-split-pin", {1, 4, 5, 6, 2, 3}, even(6), pins({0, 240, 120}, -30), vee(6, 90)},
      {"v6-90-odd-fire", {1, 4, 3, 6, 2, 5}, repeated({90, 150}, 3), pins({0, 240, 120}, 0), vee(6, 90)},
      {"v6-120", {1, 4, 3, 6, 2, 5}, even(6), pins({0, 240, 120}, 0), vee(6, 120)},
      {"v8-cross-plane", {1, 5, 4, 8, 6, 3, 7, 2}, even(8), pins({0, 90, 270, 180}, 0), vee(8, 90)},
      {"v8-flat-plane", {1, 8, 3, 6, 4, 5, 2, 7}, even(8), pins({0, 180, 180, 0}, 0), vee(8, 90)},
      {"v8-72", {1, 8, 3, 6, 4, 5, 2, 7}, repeated({72, 108}, 4), pins({0, 180, 180, 0}, 0), vee(8, 72)},
      {"v10-72", {1, 6, 5, 10, 2, 7, 3, 8, 4, 9}, even(10), pins(kTenPins, 0), vee(10, 72)},
      {"v10-90-odd-fire",
       {1, 6, 5, 10, 2, 7, 3, 8, 4, 9},
       repeated({90, 54}, 5),
       pins(kTenPins, 0),
       vee(10, 90)},
      {"v12", {1, 7, 5, 11, 3, 9, 6, 12, 2, 8, 4, 10}, even(12), pins(kSixPins, 0), vee(12, 60)},
      {"flat-four", {1, 4, 3, 2}, even(4), pins({0, 180}, 180), vee(4, 180)},
      {"flat-six", {1, 6, 2, 4, 3, 5}, even(6), pins({0, 120, 240}, 180), vee(6, 180)},
      {"radial-nine",
       {1, 3, 5, 7, 9, 2, 4, 6, 8},
       even(9),
       vee(9, 0),
       {0, 40, 80, 120, 160, 200, 240, 280, 320}},
  };
  // Narrow angles: a bank angle stands for the tilt and the shift of top dead centre by the bore offset
  // together (check values 1: asin(e / (L + r))).
  const auto shift = [](double offset_mm, double rod_mm, double stroke_mm) {
    return std::asin(offset_mm / (rod_mm + stroke_mm / 2)) * 57.29577951308232;
  };
  const double six = 15 + 2 * shift(12.5, 164, 90.3), twelve = 15 + 2 * shift(12.5, 160, 90.2);
  Layout narrow{"narrow-angle-six", {1, 5, 3, 6, 2, 4}, even(6), kSixPins, {0, six, 0, six, 0, six}};
  for (const size_t rear : {1u, 3u, 5u})
    narrow.pins_deg[rear] += six;  // even firing asks for pins moved by the angle
  all.push_back(narrow);
  Layout w12{"w12", {1, 7, 5, 11, 3, 9, 6, 12, 2, 8, 4, 10}, even(12), pins(kSixPins, 12), {}};
  for (size_t i = 0; i < 12; ++i) {
    const double inside = i % 2 == 1 ? twelve : 0;
    w12.banks_deg.push_back((i < 6 ? 0 : 72) + inside);
    w12.pins_deg[i] += inside;
  }
  all.push_back(w12);
  return all;
}

double apart_deg(double a, double b) {
  const double d = std::fmod(std::fabs(a - b), 360.0);
  return std::min(d, 360 - d);
}

Engine bundled(const std::string& name) {
  auto found = find_engine(name);
  if (const auto* wrong = std::get_if<std::string>(&found)) {
    ADD_FAILURE() << *wrong;
    return {};
  }
  return std::get<Engine>(std::move(found));
}

class BundledLayout : public testing::TestWithParam<Layout> {};

TEST_P(BundledLayout, FiresInItsOrderAtItsIntervals) {
  const Layout& layout = GetParam();
  const Engine engine = bundled(layout.name);
  ASSERT_EQ(engine.cylinders.size(), layout.order.size());
  EXPECT_EQ(engine.spec.layout.firing_order, layout.order);
  double at_deg = 0;
  for (size_t i = 0; i < layout.order.size(); ++i) {
    EXPECT_NEAR(engine.find(layout.order[i])->firing_tdc_deg, at_deg, 1e-9) << "firing " << i;
    at_deg += layout.intervals_deg[i];
  }
  EXPECT_NEAR(at_deg, 720, 1e-9);
}

TEST_P(BundledLayout, ItsPinsAndBanksCanFireSo) {
  const Layout& layout = GetParam();
  const Engine engine = bundled(layout.name);
  ASSERT_EQ(layout.pins_deg.size(), engine.cylinders.size());
  ASSERT_EQ(layout.banks_deg.size(), engine.cylinders.size());
  for (const Cylinder& cylinder : engine.cylinders) {
    const size_t k = static_cast<size_t>(cylinder.number - 1);
    EXPECT_LT(apart_deg(cylinder.firing_tdc_deg, layout.banks_deg[k] - layout.pins_deg[k]), 0.02)
        << cylinder.number;
    EXPECT_LT(apart_deg(cylinder.crank_pin_deg, layout.pins_deg[k]), 0.02) << cylinder.number;
  }
}

TEST_P(BundledLayout, StatesItsPins) {
  const Engine engine = bundled(GetParam().name);
  ASSERT_EQ(engine.spec.layout.crank_pins_deg.size(), engine.cylinders.size());
  for (const auto& [number, crank_pin_deg] : engine.spec.layout.crank_pins_deg)
    EXPECT_LT(apart_deg(crank_pin_deg, GetParam().pins_deg[static_cast<size_t>(number - 1)]), 0.02) << number;
}

INSTANTIATE_TEST_SUITE_P(All, BundledLayout, testing::ValuesIn(layouts()), [](const auto& layout) {
  std::string name = layout.param.name;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(BundledLayouts, EveryEngineOfValuesIsInTheTable) {
  std::set<std::string> known;
  for (const Layout& layout : layouts()) known.insert(layout.name);
  EXPECT_GE(known.size(), 24u);
  for (const BundledFile& file : bundled_files()) {
    if (!file.name.starts_with("any-")) {
      EXPECT_TRUE(known.contains(std::string(file.name))) << file.name;
    }
  }
}

// Companion cylinders fire 360 degrees apart (facts of the trade, common practice, no source).
TEST(BundledLayouts, CompanionCylindersAreATurnApart) {
  const std::map<std::string, std::vector<std::pair<int, int>>> companions{
      {"inline-four", {{1, 4}, {2, 3}}},
      {"inline-six", {{1, 6}, {2, 5}, {3, 4}}},
      {"any-v8-odd-even", {{1, 6}, {8, 5}, {4, 7}, {3, 2}}},
  };
  for (const auto& [name, pairs] : companions) {
    const Engine engine = bundled(name);
    for (const auto& [a, b] : pairs)
      EXPECT_EQ(std::fabs(engine.find(a)->firing_tdc_deg - engine.find(b)->firing_tdc_deg), 360)
          << name << a << b;
  }
}

}  // namespace
}  // namespace shutlane::test
