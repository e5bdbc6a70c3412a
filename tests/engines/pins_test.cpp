// Who states the pins and not the intervals: even firing is not to be taken for granted where the pins say
// otherwise, and what they come to is told. The oracle is what the bundled files state themselves.
#include <gtest/gtest.h>

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

TEST(Pins, SayNothingWhereTheyLeaveAChoice) {
  // A shared pin of a V twin comes round twice a cycle: 45 and then 675, or 405 and then 315.
  const std::vector<Mistake> found = without_intervals("v2-45");
  ASSERT_FALSE(found.empty());
  for (const Mistake& m : found)
    EXPECT_EQ(m.expected.find("how these pins fire"), std::string::npos) << m.expected;
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
