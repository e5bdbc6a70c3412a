// Whatever is wrong with the words: exit status 2, nothing on standard output, one clear line on standard
// error.
#include <fstream>

#include "tests/terminal/program.hpp"

namespace shutlane::terminal {
namespace {

struct Bad {
  std::vector<std::string> words;
  std::string named;  ///< what the line must name
};

std::string shown(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text.append("[").append(word, 0, 40).append("] ");
  return text;
}

void expect_refused(const Bad& bad, const Around& around = {}) {
  const Ran ran = shutlane(bad.words, around);
  EXPECT_EQ(ran.status, 2) << shown(bad.words);
  EXPECT_EQ(ran.out, "") << shown(bad.words);
  EXPECT_EQ(ran.err_lines(), 1u) << shown(bad.words) << ran.err.substr(0, 400);
  EXPECT_TRUE(ran.err.ends_with('\n')) << shown(bad.words);
  EXPECT_LT(ran.err.size(), 300u) << shown(bad.words);
  EXPECT_NE(ran.err.find(bad.named), std::string::npos) << shown(bad.words) << ran.err;
}

TEST(BadInput, Numbers) {
  const std::vector<std::string> no_numbers{
      "nan",    "NaN",     "-nan",       "inf", "-inf",  "infinity", "1e308", "-1e308", "1e400",
      "1e-400", "12abc",   "",           " ",   "12,5",  "0x10",     "--1",   "+-1",    "1 ",
      " 1",     "1000001", "-1000000.5", "1e7", "10deg", ".",        "-",     "e5",     "1:2:3"};
  for (const std::string& word : no_numbers) {
    expect_refused({{"plan", "inline-six", "--from", word}, "--from"});
    expect_refused({{"plan", "inline-six", "--from", word, "--json"}, "--from"});
    if (!word.starts_with('-')) expect_refused({{"at", "inline-six", word, "--json"}, "DEG"});
  }
  expect_refused({{"at", "inline-six", "-inf"}, "-inf"});
}

TEST(BadInput, WidthsHaveTheirRange) {
  for (const char* option : {"--margin", "--accuracy"}) {
    for (const char* word : {"-1", "360.01", "nan", "1e9", "-0.0001", "x", "10:5"}) {
      expect_refused({{"plan", "inline-six", "--from", "0", option, word}, option});
    }
  }
  for (const char* word : {"0:-1", "0:361", "0:nan", "0:", ":5", "0:5:5", "0:1e308"}) {
    expect_refused({{"plan", "inline-six", "--from", word}, "--from"});
  }
  for (const char* word : {"0:0.49", "0:0", "0:361", "x", "1e7", "0:-1"}) {
    expect_refused({{"locate", "inline-six", "--mark", word}, "--mark"});
  }
  for (const char* word : {"-0.1", "3.01", "nan", ""}) {
    expect_refused({{"locate", "inline-six", "--eye", word}, "--eye"});
  }
}

TEST(BadInput, EdgesOfTheRangesAreIn) {
  const std::vector<std::vector<std::string>> good{
      {"plan", "inline-six", "--from", "1000000"},
      {"plan", "inline-six", "--from", "-1e6:0"},
      {"plan", "inline-six", "--from", "+35"},
      {"plan", "inline-six", "--from=-35"},
      {"plan", "inline-six", "--from", "-.5"},
      {"at", "inline-six", "-.5"},
      {"at", "inline-six", "-35", "--margin", "0"},
      {"windows", "inline-six", "--margin", "360"},
      {"locate", "inline-six", "--mark", "-35:0.5", "--eye", "3"},
      {"locate", "inline-six", "--mark", "1e6:360", "--eye", "0"},
  };
  for (const auto& words : good) {
    const Ran ran = shutlane(words);
    EXPECT_EQ(ran.status, 0) << shown(words) << ran.err;
    EXPECT_EQ(ran.err, "") << shown(words);
  }
}

TEST(BadInput, Lists) {
  for (const char* option : {"--done", "--only"}) {
    for (const char* word :
         {"7", "1,1", "1,,2", "1,", ",1", "", "a", "1;2", "1 2", "-1", "1.5", "99999999999", "0"}) {
      expect_refused({{"plan", "inline-six", "--from", "0", option, word}, option});
    }
  }
  for (const char* option : {"--shut", "--open"}) {
    for (const char* word : {"7", "2,2", "x", ""})
      expect_refused({{"locate", "inline-six", option, word}, option});
  }
  expect_refused({{"locate", "inline-six", "--shut", "1,2", "--open", "3,2"}, "cylinder 2"});
}

TEST(BadInput, UnknownWordsGetTheNearestOne) {
  expect_refused({{"pln", "inline-six"}, "plan"});
  expect_refused({{"widnows", "inline-six"}, "windows"});
  expect_refused({{"plan", "inline-six", "--form", "35"}, "--from"});
  expect_refused({{"plan", "inline-six", "--from", "35", "--marign=5"}, "--margin"});
  expect_refused({{"plan", "inline-sx", "--from", "35"}, "inline-six"});
  expect_refused({{"--versoin"}, "--version"});
  expect_refused({{"at", "inline-six", "0", "0"}, "'0'"});
  expect_refused({{"windows", "inline-six", "inline-six"}, "'inline-six'"});
  expect_refused({{"plan", "inline-six", "plan", "--from", "3"}, "'plan'"});
  expect_refused({{"xyzzy-nothing-like-it"}, "--help"});
  expect_refused({{""}, "unknown verb"});
}

TEST(BadInput, MissingOrDoubledWords) {
  expect_refused({{"plan"}, "ENGINE"});
  expect_refused({{"at", "inline-six"}, "DEG"});
  expect_refused({{"check"}, "FILE"});
  expect_refused({{"plan", "inline-six"}, "--from"});
  expect_refused({{"plan", "inline-six", "--from"}, "--from"});
  expect_refused({{"plan", "inline-six", "--from="}, "--from="});
  expect_refused({{"plan", "inline-six", "--from=", "--json"}, "--from="});
  expect_refused({{"plan", "inline-six", "--from", "1", "--from", "2"}, "--from"});
  expect_refused({{"plan", "inline-six", "--from", "1", "--json=maybe"}, "--json"});
  expect_refused({{"plan", "inline-six", "--from", "1", "--json=1"}, "--json"});
}

TEST(BadInput, AnUnknownStartSaysWhatToDo) {
  for (const char* way_out : {"--from looks", "--by starter"}) {
    expect_refused({{"plan", "inline-six", "--from", "unknown"}, way_out});
    expect_refused({{"plan", "inline-six", "--from", "unknown", "--by", "wrench", "--json"}, way_out});
  }
}

#ifdef SHUTLANE_HAS_WINDOW
TEST(BadInput, PictureRefusesWhatTheJobDoesNotAllow) {
  EXPECT_NE(shutlane({"--help"}).out.find("shutlane picture ENGINE --out FILE.png"), std::string::npos);
  const std::string out = scratch_folder("picture") + "/x.png";
  // Nothing is blasted that was not seen shut, and nothing is done that was not started.
  for (const char* event : {"start:1", "done:1", "shut:99", "nonsense"})
    expect_refused({{"picture", "inline-six", "--size", "400x300", "--event", event, "--out", out}, event});
  EXPECT_TRUE(text_of_file(out).empty());
}

TEST(BadInput, APictureIsAPng) {
  const std::string out = scratch_folder("picture") + "/x.jpg";
  expect_refused({{"picture", "inline-six", "--size", "400x300", "--out", out}, "does not end in .png"});
  EXPECT_TRUE(text_of_file(out).empty());
}
#endif

TEST(BadInput, StrangeBytesStayOneLine) {
  expect_refused({{"plan", "inline-six", "--from", "1\n2\n3"}, "'1?2?3'"});
  expect_refused({{"plan", "inline-six", "--from", "\033[31mred"}, "'?[31mred'"});
  expect_refused({{"plan", "inline-six", "--from", std::string(100000, '9')}, "..."});
  expect_refused({{std::string(100000, 'x')}, "..."});
  expect_refused({{"plan\nplan"}, "plan?plan"});
  expect_refused({{"plan", "inline-six", "--a\nb"}, "?"});
  expect_refused({{"plan", "no\nengine", "--from", "1"}, "no"});
  expect_refused({{"plan", "\xff\xfe", "--from", "1"}, ""});
  expect_refused({{"plan", "", "--from", "1"}, ""});
}

TEST(BadInput, OutputThatCannotBeWritten) {
  for (const std::vector<std::string>& words : {std::vector<std::string>{"plan", "inline-six", "--from", "1"},
                                                {"engines", "--json"},
                                                {"--help"},
                                                {"--version"}}) {
    expect_refused({words, "output"}, {.out_file = "/dev/full"});
    expect_refused({words, "output"}, {.out_closed = true});
  }
}

TEST(BadInput, EngineFilesThatAreNone) {
  const std::string folder = scratch_folder("files");
  expect_refused({{"check", folder}, folder});
  expect_refused({{"check", folder + "/missing.toml"}, "missing.toml"});
  std::ofstream(folder + "/long.toml") << "x = \"" << std::string(3'000'000, 'y') << "\"\n";
  std::ofstream(folder + "/deep.toml") << "x = " << std::string(20'000, '[') << "\n";
  for (const char* name : {"/long.toml", "/deep.toml"}) {
    for (const std::vector<std::string>& words : {std::vector<std::string>{"check", folder + name},
                                                  {"plan", folder + name, "--from", "3", "--json"}}) {
      const Ran ran = shutlane(words);
      EXPECT_EQ(ran.status, 2) << name;
      EXPECT_EQ(ran.out, "") << name;
      EXPECT_NE(ran.err.find(name), std::string::npos) << name;
      EXPECT_LT(ran.err.size(), 20'000u) << name;
    }
  }
  expect_refused({{"check", folder + "/deep.toml"}, "deep.toml:1:"});
}

TEST(BadInput, EveryMistakeOfAFileHasItsLine) {
  const std::string folder = scratch_folder("mistakes");
  std::ofstream(folder + "/bad.toml") << "format = 2\nname = 3\nbananas = 1\n";
  const Ran ran = shutlane({"windows", "bad.toml", "--json"}, {.folder = folder});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_GE(ran.err_lines(), 3u) << ran.err;
  for (const std::string& line : lines_of(ran.err)) EXPECT_TRUE(line.starts_with("bad.toml:")) << line;
}

}  // namespace
}  // namespace shutlane::terminal
