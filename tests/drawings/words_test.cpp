#include "ui/drawings/words.hpp"

#include "tests/drawings/bundled.hpp"
#include "ui/drawings/event_table.hpp"

namespace shutlane {
namespace {

TEST(Words, Lists) {
  EXPECT_EQ(ports_in_words(std::vector<int>{}), "no port");
  EXPECT_EQ(ports_in_words(std::vector<int>{4}), "port 4");
  EXPECT_EQ(ports_in_words(std::vector<int>{3, 6}), "ports 3 and 6");
  EXPECT_EQ(list_in_words(std::vector<int>{1, 2, 4, 5}), "1, 2, 4 and 5");
  EXPECT_EQ(degrees_in_words(35), "35°");
  EXPECT_EQ(degrees_in_words(-0.1), "0°");
  EXPECT_EQ(degrees_in_words(12.5), "12.5°");
}

/// By hand from the file: the exhaust closes 14 after overlap TDC, the intake valves open 18 and 6 before it.
TEST(Words, StaggeredIntakesOverlapEachForItself) {
  const Engine engine = bundled("inline-five");
  const std::string said = durations_in_words(engine, engine.cylinders.front());
  EXPECT_NE(said.find("Exhaust and intake a both open round overlap TDC for 32°."), std::string::npos)
      << said;
  EXPECT_NE(said.find("Exhaust and intake b both open round overlap TDC for 20°."), std::string::npos)
      << said;
  EXPECT_NE(
      durations_in_words(bundled("inline-six"), bundled("inline-six").cylinders.front()).find(" Both open"),
      std::string::npos);
}

}  // namespace
}  // namespace shutlane
