// Many mistakes at once: all of them, in the order of their lines, and no echoes of one another.
#include <algorithm>
#include <sstream>

#include "engines/guard.hpp"
#include "engines/words.hpp"
#include "tests/engines/sample.hpp"

namespace shutlane::test {
namespace {

std::vector<std::string> split(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// "12 cylinder.bore_mm" of each mistake.
std::vector<std::string> places_of(const std::string& text) {
  std::vector<std::string> places;
  for (const FileMistake& m : mistakes_of(text))
    places.push_back(std::to_string(m.line) + " " + m.mistake.key);
  return places;
}

using Places = std::vector<std::string>;

TEST(Together, EveryMistakeOfEveryTableInOneRun) {
  std::string file = kSample;
  file = with_line(1, "format = 3", file);
  file = with_line(5, "bore_mm = nan", file);
  file = with_line(6, "", file);
  file = with_line(12, "rotation = 1", file);
  file = with_line(16, "cylinders = [1, 2, 3, 3]", file);
  file = with_line(24, "per_cylinder = 0", file);
  file = with_line(27, "at_lift_mm = 9.5", file);
  file = with_line(37, "peak_at_deg = 1000", file);
  file = with_line(40, "[-130, 5],", file);
  file = with_line(46, "timing = 3", file);
  EXPECT_EQ(places_of(file),
            (Places{"1 format", "4 cylinder.stroke_mm", "5 cylinder.bore_mm", "10 layout.firing_order",
                    "12 layout.rotation", "16 layout.bank[0].cylinders", "24 valves[0].per_cylinder",
                    "27 valves[0].at_lift_mm", "37 valves[1].peak_at_deg", "40 valves[1].lift_table[1]",
                    "46 tolerance.timing"}));
}

TEST(Together, EventsThatCross) {
  EXPECT_EQ(
      lines_of(with_line(25, "opens_btdc_deg = -150", with_line(26, "closes_abdc_deg = -60"))),
      "f:26: valves[0].closes_abdc_deg: the events cross: the valve would close 30 degrees before it opens; "
      "closing after opening, more than -30\n");
}

TEST(Together, OffTheSeatForTheWholeCycle) {
  EXPECT_EQ(places_of(with_line(25, "opens_btdc_deg = 250",
                                with_line(26, "closes_abdc_deg = 250", with_line(27, "at_lift_mm = 1")))),
            Places{"27 valves[0].at_lift_mm"});
}

// A value that could not be read must not be blamed for what only it could have mended.
TEST(Together, NoEchoOfAMissingOrder) {
  EXPECT_EQ(places_of(with_line(10, "")), Places{"9 layout.firing_order"});
  EXPECT_EQ(places_of(with_line(10, "firing_order = \"1342\"")), Places{"10 layout.firing_order"});
}

TEST(Together, NoEchoOfMissingCylinders) {
  EXPECT_EQ(places_of(with_line(16, "")), Places{"13 layout.bank[0].cylinders"});
  EXPECT_EQ(places_of(with_line(16, "cylinders = [1, 2, 3, 4.5]")), Places{"16 layout.bank[0].cylinders[3]"});
}

TEST(Together, NoEchoOfABankWithoutAName) {
  EXPECT_EQ(places_of(with_line(14, "")), Places{"13 layout.bank[0].name"});
}

TEST(Together, NoEchoOfAnEntryWithoutAKind) {
  EXPECT_EQ(places_of(with_line(23, "")), Places{"22 valves[0].kind"});
}

TEST(Together, NoEchoOfAMissingEventOrLift) {
  for (const int line : {25, 26}) {
    const Places places = places_of(with_line(line, ""));
    ASSERT_EQ(places.size(), 1u) << line;
  }
  EXPECT_EQ(places_of(with_line(28, "")), Places{"22 valves[0].peak_lift_mm"});
  EXPECT_EQ(places_of(with_line(29, "")), Places{"22 valves[0].lift_law"});
}

TEST(Together, NoEchoOfAMissingRodOrStroke) {
  EXPECT_EQ(places_of(with_line(7, "")), Places{"4 cylinder.rod_mm"});
  EXPECT_EQ(places_of(with_line(6, "stroke_mm = \"90\"")), Places{"6 cylinder.stroke_mm"});
}

TEST(Together, NoEchoOfAnOldName) {
  // Which way the crank turns is not read from the old key, so no pin may be called wrong for it.
  EXPECT_EQ(places_of(with_line(12, "turns = \"anticlockwise\"", with_line(20, "3 = 90"))),
            Places{"12 layout.turns"});
  EXPECT_EQ(places_of(with_line(12, "turns = 1\nlash_mm = 1", with_line(30, "lash_mm = 0.1"))),
            (Places{"12 layout.turns", "13 layout.lash_mm", "31 valves[0].lash_mm"}));
}

TEST(Together, AMistakeBesideAGapIsStillFound) {
  EXPECT_EQ(places_of(with_line(5, "", with_line(20, "3 = 90"))),
            (Places{"4 cylinder.bore_mm", "20 layout.crank_pins_deg.3"}));
  EXPECT_EQ(places_of(with_line(25, "", with_line(27, "at_lift_mm = 9"))),
            (Places{"22 valves[0].opens_btdc_deg", "27 valves[0].at_lift_mm"}));
  EXPECT_EQ(places_of(with_line(10, "", with_line(16, "cylinders = [1, 2, 2]"))),
            (Places{"9 layout.firing_order", "16 layout.bank[0].cylinders"}));
  EXPECT_EQ(places_of(with_line(32, "banks = [\"raw\"]", with_line(46, "timing_deg = -1"))),
            (Places{"22 valves", "32 valves[0].banks", "46 tolerance.timing_deg"}));
}

TEST(Together, MissingTablesStandAtTheTop) {
  EXPECT_EQ(places_of("format = 1\nname = \"n\"\nsource = \"s\"\n"),
            (Places{"1 cylinder", "1 layout", "1 valves"}));
  EXPECT_EQ(places_of("# nothing\n"),
            (Places{"1 format", "1 name", "1 source", "1 cylinder", "1 layout", "1 valves"}));
}

TEST(Together, FiftyLinesThenHowManyMore) {
  std::string file = kSample;
  for (int i = 0; i < 70; ++i) file += "extra_" + std::to_string(i) + " = 1\n";
  const auto lines = split(lines_of(file));
  ASSERT_EQ(lines.size(), 51u);
  EXPECT_EQ(lines[0],
            "f:48: tolerance.extra_0: is an unknown key; the nearest known key in [tolerance] is seat_deg");
  EXPECT_EQ(lines[50], "f: and 20 more");
}

TEST(Together, AWrongValueIsCutAtSixtyCharacters) {
  const std::string eighty(80, 'x');
  EXPECT_EQ(
      lines_of(with_line(5, "bore_mm = \"" + eighty + "\"")),
      "f:5: cylinder.bore_mm: is the text \"" + eighty.substr(0, 60) + "...\"; a number of mm, 5 to 1000\n");
  const auto lines = split(lines_of(with_line(5, "bore_mm = 80\n" + eighty + " = 1")));
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_TRUE(lines[0].starts_with("f:6: cylinder." + eighty.substr(0, 60) + "...: ")) << lines[0];
}

TEST(Together, AValueIsCutBetweenCharactersAndKeptOnOneLine) {
  std::string umlauts;
  for (int i = 0; i < 70; ++i) umlauts += "ü";
  const std::string text = lines_of(with_line(5, "bore_mm = \"\\u001b]0;\\n" + umlauts + "\""));
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 1);
  EXPECT_EQ(text.find('\x1b'), std::string::npos);
  EXPECT_EQ(first_not_utf8(text), std::string::npos);
  EXPECT_NE(text.find("\\x1B]0;\\nüü"), std::string::npos) << text;
}

TEST(Together, AFileNameCannotForgeALine) {
  const std::string text = describe("a\nb", mistakes_of(with_line(5, "")));
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 1);
}

TEST(Together, DoubtsAreFoundTheirLines) {
  const auto placed = at_lines(
      kSample, {{"valves[1]", "w", "e"}, {"cylinder.rod_mm", "w", "e"}, {"layout.bank[0].x", "w", "e"}});
  ASSERT_EQ(placed.size(), 3u);
  EXPECT_EQ(placed[0].line, 33);
  EXPECT_EQ(placed[1].line, 7);
  EXPECT_EQ(placed[2].line, 13);
}

TEST(Together, InlineTablesAndDottedKeysReadTheSame) {
  const auto plain = read_engine(kSample);
  std::string file = with_line(46, "", with_line(47, "", with_line(45, "")));
  file = "tolerance = {timing_deg = 3.0, seat_deg = 0}\n" + file;
  const auto inlined = read_engine(file);
  ASSERT_TRUE(std::holds_alternative<Engine>(plain) && std::holds_alternative<Engine>(inlined));
  EXPECT_EQ(std::get<Engine>(plain).spec, std::get<Engine>(inlined).spec);
}

TEST(Together, LineEndsOfOtherSystemsAndAByteOrderMark) {
  std::string file = kSample;
  for (size_t at = 0; (at = file.find('\n', at)) != std::string::npos; at += 2) file.replace(at, 1, "\r\n");
  EXPECT_EQ(lines_of("\xEF\xBB\xBF" + file), "");
  EXPECT_EQ(places_of(with_line(46, "timing_deg = 99\r")), Places{"46 tolerance.timing_deg"});
}

}  // namespace
}  // namespace shutlane::test
