// Who states the pins and not the intervals: even firing is not to be taken for granted where the pins say
// otherwise, and what they come to is told. The oracle is what the bundled files state themselves.
#include <gtest/gtest.h>

#include <map>
#include <sstream>
#include <tuple>

#include "engines/catalog.hpp"
#include "sim/mechanism/layout.hpp"

namespace shutlane {
namespace {

std::vector<Mistake> without_intervals(const std::string& name) {
  EngineSpec spec = std::get<Engine>(find_engine(name)).spec;
  spec.layout.firing_intervals_deg.clear();
  return mistakes_in(spec);
}

TEST(Pins, TellTheIntervalsThatTheyFireBy) {
  for (const auto& [name, intervals] :
       {std::pair{"v4-90-anticlockwise", "[180, 90, 180, 270]"},
        std::pair{"v10-90-odd-fire", "[90, 54, 90, 54, 90, 54, 90, 54, 90, 54]"},
        std::pair{"v6-90-odd-fire", "[90, 150, 90, 150, 90, 150]"}}) {
    const std::vector<Mistake> found = without_intervals(name);
    ASSERT_EQ(found.size(), 1u) << name;
    EXPECT_EQ(found[0].key, "layout.crank_pins_deg") << name;
    EXPECT_NE(found[0].expected.find(intervals), std::string::npos) << found[0].expected;
  }
}

// A shared pin of a V twin comes round twice a cycle: 45 and then 675, or 405 and then 315. The oracle is
// arithmetic: the second cylinder reaches its top when the pin has turned on by the angle between the banks,
// or a turn later.
TEST(Pins, SayBothWaysOfATwin) {
  for (const auto& [between_deg, either, other] :
       {std::tuple{45.0, "[45, 675]", "[405, 315]"}, std::tuple{90.0, "[90, 630]", "[450, 270]"},
        std::tuple{75.0, "[75, 645]", "[435, 285]"}}) {
    EngineSpec spec = std::get<Engine>(find_engine("v2-45")).spec;
    const bool leans_on = spec.layout.rotation == Rotation::clockwise;
    LayoutSpec& layout = spec.layout;
    for (BankSpec& bank : layout.banks) {
      const bool first = bank.cylinders.front() == layout.firing_order.front();
      bank.tilt_deg = (first == leans_on ? -0.5 : 0.5) * between_deg;
    }
    layout.crank_pins_deg = {{1, 0}, {2, 0}};
    layout.firing_intervals_deg.clear();
    const std::vector<Mistake> found = mistakes_in(spec);
    ASSERT_EQ(found.size(), 1u) << between_deg;
    EXPECT_EQ(found[0].key, "layout.crank_pins_deg");
    for (const char* set : {either, other})
      EXPECT_NE(found[0].expected.find(set), std::string::npos) << found[0].expected;
    EXPECT_EQ(found[0].expected.find("no table"), std::string::npos)
        << "even firing makes another engine of it";
    for (const std::vector<double>& intervals :
         {std::vector{between_deg, 720 - between_deg}, std::vector{360 + between_deg, 360 - between_deg}}) {
      layout.firing_intervals_deg = intervals;
      EXPECT_TRUE(mistakes_in(spec).empty()) << intervals[0];  // what is advised is accepted
    }
  }
}

TEST(Pins, OnesThatDisagreeNameEveryCauseAndThePinsThatTheFileImplies) {
  EngineSpec spec = std::get<Engine>(find_engine("v8-cross-plane")).spec;
  ASSERT_FALSE(spec.layout.crank_pins_deg.empty());
  const std::map<int, double> right = spec.layout.crank_pins_deg;
  std::swap(spec.layout.banks[0].tilt_deg, spec.layout.banks[1].tilt_deg);
  const std::vector<Mistake> found = mistakes_in(spec);
  ASSERT_FALSE(found.empty());
  for (const char* cause :
       {"swapped banks", "tilt_deg", "firing_order", "firing_intervals_deg", "1 = 0, 2 = "})
    EXPECT_NE(found[0].expected.find(cause), std::string::npos) << cause << ": " << found[0].expected;
  // The pins that are told are accepted as they stand.
  std::istringstream told(found[0].expected.substr(found[0].expected.find("1 = 0, ")));
  std::map<int, double> implied;
  int number = 0;
  double pin_deg = 0;
  char sign = 0;
  while (told >> number >> sign >> pin_deg) {
    implied[number] = pin_deg;
    told >> sign;
  }
  EXPECT_EQ(implied.size(), right.size());
  EXPECT_NE(implied, right);
  spec.layout.crank_pins_deg = implied;
  EXPECT_TRUE(mistakes_in(spec).empty());
}

TEST(Pins, EvenFiringOfAVFourIsDoubted) {
  EngineSpec spec = std::get<Engine>(find_engine("v4-90-anticlockwise")).spec;
  const auto doubted = [&] {
    const auto built = build_engine(spec);
    for (const Mistake& m : doubts_about(std::get<Engine>(built)))
      if (m.wrong.find("even firing") != std::string::npos) return true;
    return false;
  };
  EXPECT_FALSE(doubted());
  spec.layout.firing_intervals_deg.clear();
  spec.layout.crank_pins_deg.clear();
  EXPECT_TRUE(doubted());
  spec.layout.banks[0].tilt_deg = -90;
  spec.layout.banks[1].tilt_deg = 90;
  EXPECT_FALSE(doubted()) << "a flat four has a pin each";
}

}  // namespace
}  // namespace shutlane
