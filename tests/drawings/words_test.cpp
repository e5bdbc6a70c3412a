#include "ui/drawings/words.hpp"

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

}  // namespace
}  // namespace shutlane
