// Turns in words: one table of what is said, then thousands of seeded plans whose sentences are read back by
// a dictionary of its own. It cannot see whether a word is easy to follow, only what it allows.
#include "sim/plan/turn_words.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "tests/sim/dice.hpp"
#include "tests/sim/some_engines.hpp"

namespace shutlane::test {
namespace {

const std::map<std::string, double> kSaid_deg{
    {"an eighth of a turn", 45},         {"a quarter of a turn", 90},
    {"three eighths of a turn", 135},    {"half a turn", 180},
    {"five eighths of a turn", 225},     {"three quarters of a turn", 270},
    {"seven eighths of a turn", 315},    {"one full turn", 360},
    {"one and an eighth turns", 405},    {"one and a quarter turns", 450},
    {"one and three eighth turns", 495}, {"one and a half turns", 540},
    {"one and five eighth turns", 585},  {"one and three quarter turns", 630},
    {"one and seven eighth turns", 675}, {"two full turns", 720}};

Position turn(double turn_deg, double min_deg, double max_deg) {
  Position p;
  p.turn_deg = turn_deg, p.turn_min_deg = min_deg, p.turn_max_deg = max_deg;
  return p;
}

struct Row {
  double turn_deg, min_deg, max_deg;
  const char* said;
};

TEST(TurnWords, Table) {
  for (const auto& [said, deg] : kSaid_deg) EXPECT_EQ(turn_in_words(deg), said);
  EXPECT_EQ(turn_in_words(217), "217\u00b0");
  EXPECT_EQ(turn_in_words(30), "30\u00b0") << "a twelfth is no part that the hand feels";
  EXPECT_EQ(turn_in_words(12.25), "12.25\u00b0");
  for (const Row& row : std::vector<Row>{
           {360, 206, 540,
            "one full turn; anything from three quarters of a turn to one and a half turns will do "
            "(206\u00b0 to 540\u00b0)"},
           {373, 206, 540,
            "one full turn; anything from three quarters of a turn to one and a half turns will do "
            "(206\u00b0 to 540\u00b0)"},
           {360, 300.2, 419.9,
            "one full turn; anything from seven eighths of a turn to one and an eighth turns will "
            "do (300.5\u00b0 to 419.5\u00b0)"},
           {360, 340, 381, "one full turn; anything from 340\u00b0 to 380\u00b0 will do"},
           {360, 360, 460,
            "one full turn; anything up to one and a quarter turns will do, but no less "
            "(360\u00b0 to 460\u00b0)"},
           {360, 180, 360,
            "one full turn; anything down to half a turn will do, but no more "
            "(180\u00b0 to 360\u00b0)"},
           {90, 0, 200, "a quarter of a turn; anything up to half a turn will do (0\u00b0 to 200\u00b0)"},
           {180, 180, 180, "half a turn; it must be met exactly"},
           {373, 365, 381, "373\u00b0; anything from 365\u00b0 to 380\u00b0 will do"},
           {217.3, 217.1, 217.4, "217.3\u00b0; it must be met exactly"},
           {150, 138, 164, "150\u00b0; anything from 140\u00b0 to 160\u00b0 will do"},
           {30, 0, 54, "30\u00b0; anything up to 50\u00b0 will do"},
           {30, 0, 60, "an eighth of a turn; anything up to 60\u00b0 will do"}})
    EXPECT_EQ(turn_sentence(turn(row.turn_deg, row.min_deg, row.max_deg), 10), row.said);
}

/// Degrees of an amount as said.
double amount(const std::string& words) {
  if (words.ends_with("\u00b0")) return std::stod(words);
  EXPECT_TRUE(kSaid_deg.contains(words)) << words;
  return kSaid_deg.contains(words) ? kSaid_deg.at(words) : -1;
}

struct Heard {
  double aim_deg, low_deg, high_deg;
};

/// What a sentence allows, without its brackets.
Heard hear(std::string sentence) {
  if (const size_t bracket = sentence.find(" ("); bracket != std::string::npos) sentence.resize(bracket);
  const size_t stop = sentence.find("; ");
  const double aim_deg = amount(sentence.substr(0, stop));
  std::string range = sentence.substr(stop + 2);
  if (range == "it must be met exactly") return {aim_deg, aim_deg, aim_deg};
  const bool no_less = range.ends_with(", but no less"), no_more = range.ends_with(", but no more");
  const size_t will = range.find(" will do");
  EXPECT_NE(will, std::string::npos) << sentence;
  range.resize(will);
  if (range == "anything less") return {aim_deg, 0, aim_deg};
  if (range.starts_with("anything up to ")) return {aim_deg, no_less ? aim_deg : 0, amount(range.substr(15))};
  if (no_more) return {aim_deg, amount(range.substr(17)), aim_deg};
  EXPECT_TRUE(range.starts_with("anything from ")) << sentence;
  const size_t to = range.find(" to ");
  return {aim_deg, amount(range.substr(14, to - 14)), amount(range.substr(to + 4))};
}

void check(const Position& p, double accuracy_deg) {
  const std::string said = turn_sentence(p, accuracy_deg);
  SCOPED_TRACE(said);
  const Heard heard = hear(said);
  EXPECT_LE(heard.low_deg, heard.aim_deg);
  EXPECT_GE(heard.high_deg, heard.aim_deg);
  EXPECT_GE(heard.low_deg, p.turn_min_deg - 1e-6);
  EXPECT_LE(heard.high_deg, p.turn_max_deg + 1e-6);
  if (std::abs(heard.aim_deg - p.turn_deg) > 0.5) {
    EXPECT_GE(heard.aim_deg - accuracy_deg, p.turn_min_deg - 1e-6);
    EXPECT_LE(heard.aim_deg + accuracy_deg, p.turn_max_deg + 1e-6);
  }
  // Never "one full turn; anything from one full turn ...", and no range hidden that is worth a degree.
  EXPECT_EQ(said.find("from " + said.substr(0, said.find(';')) + " "), std::string::npos);
  EXPECT_EQ(said.find(" to " + said.substr(0, said.find(';')) + " will"), std::string::npos);
  if (p.turn_min_deg < heard.aim_deg - 2) {
    EXPECT_LT(heard.low_deg, heard.aim_deg);
  }
  if (p.turn_max_deg > heard.aim_deg + 2) {
    EXPECT_GT(heard.high_deg, heard.aim_deg);
  }

  const ToldTurn told = tell_turn(p, accuracy_deg);
  EXPECT_NEAR(told.aim_deg, heard.aim_deg, 0.005);
  EXPECT_NEAR(told.min_deg, heard.low_deg, 0.005);
  EXPECT_NEAR(told.max_deg, heard.high_deg, 0.005);
  EXPECT_LE(told.logged_min_deg, std::max(0.0, told.aim_deg - accuracy_deg) + 1e-9);
  EXPECT_GE(told.logged_max_deg, told.aim_deg + accuracy_deg - 1e-9);
  EXPECT_LE(told.logged_min_deg, told.min_deg);
  EXPECT_GE(told.logged_max_deg, told.max_deg);
}

TEST(TurnWords, StayWithinEveryRange) {
  for_trials(3000, [](Dice& dice) {
    for (int i = 0; i < 10; ++i) {
      const double step_deg = dice.pick(std::vector<double>{0.01, 1, 5, 15, 45});
      double min_deg = dice.stepped(0, 715, step_deg), max_deg = dice.stepped(0, 715, step_deg);
      if (min_deg > max_deg) std::swap(min_deg, max_deg);
      if (max_deg <= 0) continue;
      const double accuracy_deg = dice.between(0, 30);
      const double inner_deg = std::min(accuracy_deg, (max_deg - min_deg) / 2);
      double turn_deg = dice.between(min_deg + inner_deg, max_deg - inner_deg);
      if (dice.chance(0.3)) turn_deg = std::clamp(std::round(turn_deg / 45) * 45, min_deg, max_deg);
      if (turn_deg < 0.01) continue;
      check(turn(turn_deg, min_deg, max_deg), accuracy_deg);
    }
  });
}

// A hand that turns to within 60 degrees cannot turn 346; the range that is told stays as planned.
TEST(TurnWords, ARoughHandIsToldATurnThatItCanFeel) {
  const ToldTurn told = tell_turn(turn(346, 280, 415), 60);
  EXPECT_EQ(told.aim_deg, 360);
  EXPECT_GE(told.min_deg, 280);
  EXPECT_LE(told.max_deg, 415);
  EXPECT_EQ(told.logged_min_deg, std::min(told.min_deg, 300.0));
  EXPECT_EQ(told.logged_max_deg, 420) << "what may have happened, not what was planned";
  // Too far off to be felt: told as it is.
  EXPECT_EQ(tell_turn(turn(340, 300, 380), 60).aim_deg, 340);
}

TEST(TurnWords, StayWithinTheRangeOfRealPlans) {
  int turns = 0;
  for_trials(300, [&turns](Dice& dice) {
    const Engine engine = built(random_engine(dice));
    const double accuracy_deg = dice.between(0, 40);
    WrenchQuestion question;
    question.from_deg = dice.between(0, 720);
    question.plus_minus_deg = dice.chance(0.5) ? 0 : dice.between(0, 30);
    question.accuracy_deg = accuracy_deg;
    for (const Cylinder& c : engine.cylinders) question.left.push_back(c.number);
    const WrenchPlan plan = plan_wrench(shut_windows(engine), question);
    for (size_t i = 1; i < plan.positions.size(); ++i, ++turns) check(plan.positions[i], accuracy_deg);
  });
  if (trials(300) >= 300) {
    EXPECT_GT(turns, 100);
  }
}

}  // namespace
}  // namespace shutlane::test
