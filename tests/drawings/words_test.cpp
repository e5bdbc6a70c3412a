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
  const Engine five = bundled("inline-five"), six = bundled("inline-six");
  const std::string staggered = durations_in_words(five, five.cylinders.front());
  EXPECT_NE(staggered.find("Both open round overlap TDC for a 32°, b 20°."), std::string::npos) << staggered;
  const std::string alike = durations_in_words(six, six.cylinders.front());
  EXPECT_NE(alike.find("Both open round overlap TDC for 22°."), std::string::npos) << alike;
}

}  // namespace
}  // namespace shutlane
