// Strict reading of numbers and lists, against the C library's own reading (in the C locale) as the oracle.
#include <clocale>
#include <cmath>
#include <cstdlib>
#include <locale>
#include <random>

#include "ui/terminal/answer.hpp"
#include "ui/terminal/command_line.hpp"
#include "ui/terminal/json_text.hpp"
#include "ui/terminal/read_options.hpp"

namespace shutlane::terminal {
namespace {

std::uint64_t from_environment(const char* name, std::uint64_t otherwise) {
  const char* value = std::getenv(name);
  return value == nullptr ? otherwise : std::strtoull(value, nullptr, 10);
}

TEST(ReadNumber, NeverTakesWhatTheOracleRefuses) {
  const std::uint64_t seed = from_environment("SHUTLANE_SEED", 1),
                      trials = from_environment("SHUTLANE_TRIALS", 20000);
  std::mt19937_64 random(seed);
  const std::string letters = "0123456789.-+e,xnainf ";
  size_t taken = 0;
  for (std::uint64_t i = 0; i < trials; ++i) {
    std::string word;
    for (size_t n = random() % 6; n > 0; --n) word += letters[random() % letters.size()];
    char* end = nullptr;
    const double expected = std::strtod(word.c_str(), &end);
    const bool whole = !word.empty() && *end == '\0' && word.find(' ') == std::string::npos;
    const bool hex = word.find('x') != std::string::npos;
    const bool good = whole && !hex && std::isfinite(expected) && std::abs(expected) <= 1e6;
    try {
      const double value = read_number("--from", word, kAngles);
      EXPECT_TRUE(good) << "'" << word << "' seed " << seed;
      EXPECT_EQ(value, expected) << "'" << word << "' seed " << seed;
      ++taken;
    } catch (const BadInput& refused) {
      EXPECT_FALSE(good) << "'" << word << "' seed " << seed << refused.what();
    }
  }
  EXPECT_GT(taken, trials / 50) << "the trials must reach numbers at all";
}

/// A locale of which no part may reach our output: decimal comma, grouped digits.
struct Comma : std::numpunct<char> {
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

TEST(Locale, ReachesNeitherOptionsNorOutput) {
  const std::vector<std::vector<std::string>> all{{"plan", "inline-six", "--from", "1000.25:2.5", "--json"},
                                                  {"plan", "inline-six", "--from", "1000.25:2.5"},
                                                  {"at", "inline-six", "-1234.5", "--json"},
                                                  {"at", "inline-six", "-1234.5"},
                                                  {"windows", "inline-six", "--margin", "0.5"}};
  std::vector<std::string> plain;
  for (const auto& words : all) plain.push_back(run(words, {}, {}).out);
  const std::locale before = std::locale::global(std::locale(std::locale::classic(), new Comma));
  std::setlocale(LC_ALL, "de_DE.UTF-8");  // where it is installed
  for (size_t i = 0; i < all.size(); ++i) {
    EXPECT_EQ(run(all[i], {}, {}).out, plain[i]);
    EXPECT_NE(plain[i], "");
  }
  EXPECT_EQ(run({"at", "inline-six", "1,5"}, {}, {}).status, kBadInput);
  std::setlocale(LC_ALL, "C");
  std::locale::global(before);
}

TEST(JsonText, NumbersReadBackAsTheSameDouble) {
  std::mt19937_64 random(from_environment("SHUTLANE_SEED", 1));
  std::uniform_real_distribution<double> angle(-1e6, 1e6);
  for (int i = 0; i < 2000; ++i) {
    const double value = i % 3 == 0 ? std::round(angle(random)) : angle(random) * std::pow(10, -(i % 17));
    const std::string text = json_text(value);
    EXPECT_EQ(std::strtod(text.c_str(), nullptr), value) << text;
    EXPECT_EQ(Json::parse(text).get<double>(), value) << text;
    if (value == std::round(value)) {
      EXPECT_EQ(text.find('.'), std::string::npos) << text;
    }
  }
  EXPECT_EQ(json_text(-0.0), "0\n");
  EXPECT_EQ(json_text(0.1), "0.1\n");
  EXPECT_EQ(json_text(588.0), "588\n");
}

TEST(JsonText, WordsAreEscapedAndAlwaysUtf8) {
  EXPECT_EQ(json_text({{"engine", "a\"b\\\n"}}), "{\"engine\": \"a\\\"b\\\\\\n\"}\n");
  EXPECT_TRUE(Json::accept(json_text({{"engine", "\xff"}})));
}

TEST(Harmless, ControlsBecomeQuestionMarks) {
  EXPECT_EQ(harmless("a\033[1mb\x7f\n"), "a?[1mb??");
  EXPECT_EQ(harmless("\xc2\x9b"
                     "31m"),
            "?31m");
  EXPECT_EQ(harmless("Zylinderkopf-Ä"), "Zylinderkopf-Ä");
}

TEST(InQuotes, CutsBetweenCharacters) {
  std::string word(59, 'x');
  EXPECT_EQ(in_quotes(word + "ä"), "'" + word + "...'");
  EXPECT_EQ(in_quotes("ab"), "'ab'");
}

}  // namespace
}  // namespace shutlane::terminal
