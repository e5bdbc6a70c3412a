// The words of a turn never promise more than the degrees allow. The oracle reads the words back with a table
// of its own.
#include "ui/drawings/words.hpp"

#include <cstdlib>
#include <map>
#include <optional>
#include <random>

namespace shutlane {
namespace {

const std::map<std::string, double> kTurns_deg{{"a quarter", 90},
                                               {"half", 180},
                                               {"three quarters", 270},
                                               {"one full turn", 360},
                                               {"full turn", 360},
                                               {"one and a quarter", 450},
                                               {"one and a half", 540},
                                               {"one and three quarters", 630},
                                               {"two", 720},
                                               {"quarter", 90}};

struct Heard {
  double low_deg = 0, high_deg = 0;  // the words' own bounds
  bool good = false, under = false;
};

std::optional<Heard> hear(std::string words) {
  if (words.empty()) return std::nullopt;
  Heard heard;
  const std::string end = " will do";
  EXPECT_TRUE(words.ends_with(end)) << words;
  words.resize(words.size() - end.size());
  std::string low, high;
  if (words.starts_with("anything up to ")) {
    high = words.substr(15);
  } else {
    EXPECT_TRUE(words.starts_with("anything from ")) << words;
    const size_t to = words.find(" to ");
    low = words.substr(14, to - 14);
    high = words.substr(to + 4);
  }
  if (low.starts_with("a good ")) {
    heard.good = true;
    low = low.substr(7);
  }
  if (high.starts_with("just under ")) {
    heard.under = true;
    high = high.substr(11);
  }
  if (!low.empty()) {
    EXPECT_TRUE(kTurns_deg.contains(low)) << low << " in " << words;
    heard.low_deg = kTurns_deg.at(low);
  }
  EXPECT_TRUE(kTurns_deg.contains(high)) << high << " in " << words;
  heard.high_deg = kTurns_deg.at(high);
  return heard;
}

TEST(Words, RangeOfTheExample) {
  EXPECT_EQ(turn_in_words(360, 206, 540, 10), "one full turn");
  EXPECT_EQ(range_in_words(206, 540), "anything from a good half to one and a half will do");
  EXPECT_EQ(range_in_words(180, 540), "anything from half to one and a half will do");
  EXPECT_EQ(range_in_words(0, 200), "anything up to half will do");
  EXPECT_EQ(range_in_words(340, 380), "") << "too narrow for words";
}

TEST(Words, RangeNeverReachesOutside) {
  const char* seed_text = std::getenv("SHUTLANE_SEED");
  const char* trials_text = std::getenv("SHUTLANE_TRIALS");
  const unsigned seed = seed_text ? static_cast<unsigned>(std::strtoul(seed_text, nullptr, 10)) : 1;
  const int trials = trials_text ? std::atoi(trials_text) : 20000;
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> any(0, 720);
  int spoken = 0;
  for (int i = 0; i < trials; ++i) {
    double low = any(random), high = any(random);
    if (i % 4 == 0)
      low = 15 * std::floor(low / 15), high = 15 * std::floor(high / 15);  // meet the exact ones too
    if (low > high) std::swap(low, high);
    const std::string words = range_in_words(low, high);
    const std::optional<Heard> heard = hear(words);
    if (!heard) continue;
    ++spoken;
    // "A good half" is past a half, at most 30 degrees past; "just under" the same the other way.
    const double within = 30 + 1e-6;
    if (heard->good) {
      EXPECT_LT(heard->low_deg, low) << words << ", seed " << seed;
      EXPECT_GE(heard->low_deg + within, low) << words << ", seed " << seed;
    } else {
      EXPECT_TRUE(heard->low_deg >= low - 1e-6) << words << " for " << low << ", seed " << seed;
    }
    if (heard->under) {
      EXPECT_GT(heard->high_deg, high) << words << ", seed " << seed;
      EXPECT_LE(heard->high_deg - within, high) << words << ", seed " << seed;
    } else {
      EXPECT_TRUE(heard->high_deg <= high + 1e-6) << words << " for " << high << ", seed " << seed;
    }
  }
  EXPECT_GT(spoken, trials / 2);
}

TEST(Words, TurnIsNamedOnlyWhereTheNameIsRight) {
  EXPECT_EQ(turn_in_words(180, 180, 180, 10), "half a turn") << "the turn itself";
  EXPECT_EQ(turn_in_words(373, 206, 540, 10), "one full turn") << "as good, to within 10";
  EXPECT_EQ(turn_in_words(373, 365, 381, 10), "a turn of 373°") << "one full turn would miss";
  EXPECT_EQ(turn_in_words(100, 85, 115, 10), "a turn of 100°") << "a quarter less 10 would miss";
  EXPECT_EQ(turn_in_words(450, 430, 470, 10), "one and a quarter turns");
  EXPECT_EQ(turn_in_words(30, 0, 60, 10), "a turn of 30°") << "never 'no turn'";
}

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
