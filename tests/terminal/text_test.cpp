// What people read: fits 80 columns, plain where it must be, and says everything that keeps a technician
// safe.
#include <nlohmann/json.hpp>

#include <algorithm>
#include <set>

#include "tests/terminal/program.hpp"
#include "ui/terminal/command_line.hpp"
#include "ui/terminal/figures.hpp"
#include "ui/terminal/page.hpp"

namespace shutlane::terminal {
namespace {

const Around kUtf8{.env = {{"LC_ALL", "C.UTF-8"}, {"TERM", "xterm"}}};

/// The text on one line, single spaces, so that a search does not stumble over a line's end.
std::string flowing(const std::string& text) {
  std::string out;
  for (char c : text) {
    const char d = c == '\n' ? ' ' : c;
    if (d != ' ' || out.empty() || out.back() != ' ') out += d;
  }
  return out;
}

bool ascii(const std::string& text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c == '\n' || (c >= ' ' && c < 127); });
}

std::vector<std::vector<std::string>> questions(const std::string& engine) {
  return {{"windows", engine},
          {"at", engine, "123.4"},
          {"plan", engine, "--from", "35"},
          {"plan", engine, "--from", "100:20", "--accuracy", "60"},
          {"locate", engine},
          {"bump", engine, "--from", "35", "--press", "0.3", "--trials", "100"},
          {"check", engine}};
}

TEST(Text, FitsEightyColumnsAndIsPlainWithoutUtf8) {
  const std::vector<std::string> names = engine_names();
  ASSERT_FALSE(names.empty());
  std::vector<std::vector<std::string>> all{{"engines"}, {"--help"}, {"--version"}};
  for (const char* verb : {"windows", "at", "plan", "locate", "bump", "engines", "check", "draw"})
    all.push_back({verb, "--help"});
  for (const std::string& name : names) {
    for (const auto& words : questions(name)) all.push_back(words);
  }
  for (const auto& words : all) {
    const Answer plain = run(words, {}, {});
    EXPECT_TRUE(plain.status == 0 || plain.status == 1) << words[0] << plain.err;
    EXPECT_NE(plain.out, "") << words[0];
    EXPECT_TRUE(ascii(plain.out)) << words[0] << "\n" << plain.out;
    for (const std::string& line : lines_of(plain.out))
      EXPECT_LE(width(line), 80u) << words[0] << "\n" << line;
    for (const std::string& line : lines_of(run(words, {.unicode = true}, {}).out))
      EXPECT_LE(width(line), 80u) << words[0] << "\n" << line;
  }
}

TEST(Text, FollowsTheEnvironment) {
  const std::vector<std::string> words{"at", "inline-six", "35"};
  EXPECT_TRUE(ascii(shutlane(words).out));
  EXPECT_TRUE(ascii(shutlane(words, {.env = {{"LC_ALL", "C"}, {"LANG", "en_US.UTF-8"}}}).out));
  EXPECT_FALSE(ascii(shutlane(words, {.env = {{"LANG", "en_US.UTF-8"}}}).out));
  const Ran utf8 = shutlane(words, kUtf8);
  EXPECT_FALSE(ascii(utf8.out));
  EXPECT_EQ(utf8.out.find('\033'), std::string::npos) << "no colour when not a terminal";
  EXPECT_EQ(run(words, {.unicode = true}, {}).out, utf8.out);
}

TEST(Text, ColourOnATerminalUnlessItIsRefused) {
  // script(1) gives the program a terminal of its own.
  const auto on_terminal = [](const std::map<std::string, std::string>& env) {
    return run_command({"script", "-qec", std::string(SHUTLANE_PROGRAM) + " at inline-six 35", "/dev/null"},
                       {.env = env});
  };
  const Ran colour = on_terminal({{"TERM", "xterm"}});
  if (colour.status == 127) GTEST_SKIP() << "script is not installed";
  EXPECT_NE(colour.out.find("\033[1m"), std::string::npos);
  EXPECT_EQ(on_terminal({{"TERM", "xterm"}, {"NO_COLOR", "1"}}).out.find('\033'), std::string::npos);
  EXPECT_EQ(on_terminal({{"TERM", "dumb"}}).out.find('\033'), std::string::npos);
}

TEST(Text, PlanTellsTheTechnicianEverything) {
  const std::string plan = flowing(shutlane({"plan", "inline-six", "--from", "35"}).out);
  for (const char* must :
       {"ports 1, 2, 4 and 5, reckoned shut: look before you blast", "every port but the one in work",
        "Suck out ports 1, 2, 4 and 5", "nothing left in any port", "one full turn", "clockwise",
        "ports 3 and 6", "Suck out all ports clear", "Count the bungs",
        "one full turn is right from every start", "29 CFR 1910.94(a)", "allergen", "29 CFR 1910.242(b)",
        "never replaces the look", "Local rules"}) {
    EXPECT_NE(plan.find(must), std::string::npos) << must << "\n" << plan;
  }
  EXPECT_EQ(plan.find("seen shut:"), std::string::npos) << "reckoned is never shown as seen";
}

TEST(Text, PlanNamesThePortsOfTheJson) {
  for (const std::string& name : engine_names()) {
    const std::vector<std::string> words{"plan", name, "--from", "77"};
    std::vector<std::string> json_words = words;
    json_words.push_back("--json");
    const Ran json = shutlane(json_words);
    const std::string text = flowing(shutlane(words).out);
    const auto plan = nlohmann::json::parse(json.out);
    if (json.status != 0) continue;
    size_t at = 0;
    for (const auto& position : plan["positions"]) {
      std::vector<int> blast = position["blast"];
      if (blast.empty()) continue;
      std::string list = std::to_string(blast[0]);
      for (size_t i = 1; i < blast.size(); ++i) {
        list += (i + 1 == blast.size() ? " and " : ", ") + std::to_string(blast[i]);
      }
      const size_t found = text.find(list + ", reckoned shut", at);
      EXPECT_NE(found, std::string::npos) << name << " " << list << "\n" << text;
      if (found != std::string::npos) at = found;
    }
  }
}

TEST(Text, OneTurnIsPromisedOnlyWhereItHolds) {
  // The inline six: open 240 + 2 * (3 + 10) = 266 <= 360 - 10, but not <= 360 - 100 (one-turn rule, even
  // firing).
  const auto promised = [](const std::string& accuracy) {
    const Ran ran = shutlane({"plan", "inline-six", "--from", "35", "--accuracy", accuracy});
    return flowing(ran.out).find("one full turn is right from every start") != std::string::npos;
  };
  EXPECT_TRUE(promised("10"));
  EXPECT_TRUE(promised("90"));
  EXPECT_FALSE(promised("100"));
}

TEST(Text, LocateNeverCallsAnUnseenPortFitToBlast) {
  const std::string text = flowing(shutlane({"locate", "inline-six", "--shut", "1,2", "--open", "3"}).out);
  EXPECT_NE(text.find("Look into port"), std::string::npos) << text;
  EXPECT_EQ(text.find("May be blasted: port 4"), std::string::npos) << text;
}

TEST(Text, StripMarksTheCrankAndNeverDrawsAnOpenPortShut) {
  // Cylinder 1 is shut as stated outside 348..588, surely shut outside 335..601 (crank degrees, 10 a
  // character).
  const Ran ran = shutlane({"at", "inline-six", "685"});
  const std::vector<std::string> lines = lines_of(ran.out);
  const auto lane =
      std::find_if(lines.begin(), lines.end(), [](const auto& l) { return l.starts_with("   1 #"); });
  ASSERT_NE(lane, lines.end()) << ran.out;
  std::string expected("   1 ");
  expected.append(33, '#').append("=").append(25, '.').append("==").append(11, '#');
  EXPECT_EQ(*lane, expected);
  EXPECT_EQ((lane - 1)->find('v'), 5u + 68u);
}

// A plan needs an angle that somebody stated.
TEST(Alone, OpensTheWindowOrSaysThatTheVerbsNeedNone) {
  const Answer opened = run({}, {}, [] { return 7; });
  EXPECT_EQ(opened.status, 7);
  EXPECT_EQ(opened.out + opened.err, "");
  for (const OpenWindow& none : {OpenWindow(), OpenWindow([] { return std::nullopt; })}) {
    const Answer shown = run({}, {}, none);
    EXPECT_EQ(shown.status, kBadInput);
    EXPECT_EQ(shown.out, "");
    EXPECT_EQ(lines_of(shown.err).size(), 1u) << shown.err;
    EXPECT_NE(shown.err.find("window"), std::string::npos);
    EXPECT_NE(shown.err.find("shutlane plan ENGINE --from DEG"), std::string::npos);
  }
}

#ifdef SHUTLANE_HAS_WINDOW
TEST(Alone, WithoutADisplayItPrintsNoPlan) {
  for (const std::vector<std::string>& words : {std::vector<std::string>{}, {"inline-six"}}) {
    const Ran ran = shutlane(words);  // its environment holds PATH alone
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err_lines(), 1u) << ran.err;
    EXPECT_NE(ran.err.find("no display"), std::string::npos) << ran.err;
    EXPECT_NE(ran.err.find("shutlane plan ENGINE --from DEG"), std::string::npos) << ran.err;
  }
}
#endif

TEST(PlanText, SaysTheTurnAsTheWordsOfTurnsDo) {
  const std::string out = without_space(run({"plan", "inline-six", "--from", "35"}, {}, {}).out);
  EXPECT_NE(out.find(without_space("one full turn; anything from 210 degrees to one and a half turns will do "
                                   "(206 to 540 degrees).")),
            std::string::npos);
}

// Turn 1 at 310 and turn 2 at 285, each in the range that was printed, ended where port 6 is open.
TEST(PlanText, ATurnThatOthersFollowIsToldByItsAim) {
  const std::vector<std::string> asked{"plan", "narrow-angle-six", "--from", "35:60"};
  const std::string out = flowing(run(asked, {}, {}).out);
  std::vector<std::string> as_json = asked;
  as_json.push_back("--json");
  const auto plan = nlohmann::json::parse(run(as_json, {}, {}).out);
  ASSERT_EQ(plan["turns"], 2);
  const double aim_deg = plan["positions"][1]["turn_deg"];
  EXPECT_NE(out.find("to within"), std::string::npos) << out;
  EXPECT_NE(out.find("after any other turn plan again"), std::string::npos) << out;
  // All that is allowed lies within 10 degrees of the aim, though the run is wider.
  const size_t at = out.find("(", out.find("to within"));
  const double low_deg = std::stod(out.substr(at + 1)),
               high_deg = std::stod(out.substr(out.find(" to ", at) + 4));
  EXPECT_NEAR(low_deg, aim_deg - 10, 0.51);
  EXPECT_NEAR(high_deg, aim_deg + 10, 0.51);
  EXPECT_EQ(flowing(run({"plan", "inline-six", "--from", "35"}, {}, {}).out).find("plan again"),
            std::string::npos);
}

TEST(PlanText, SaysWhatAccuracyHoldsWithThePlugsIn) {
  const auto says = [](const std::string& engine, const std::string& accuracy) {
    return flowing(run({"plan", engine, "--from", "35", "--accuracy", accuracy}, {}, {}).out);
  };
  EXPECT_NE(says("inline-six", "10").find("--accuracy 60, as the window does"), std::string::npos);
  EXPECT_NE(says("v8-cross-plane", "10").find("--accuracy 45, as the window does"), std::string::npos);
  EXPECT_EQ(says("inline-six", "60").find("as the window does"), std::string::npos);
  EXPECT_NE(flowing(run({"plan", "inline-six", "--from", "looks"}, {}, {}).out).find("--accuracy 60"),
            std::string::npos);
  const auto plan = nlohmann::json::parse(run({"plan", "inline-six", "--from", "35", "--json"}, {}, {}).out);
  EXPECT_EQ(plan["accuracy_deg"], 10);  // the contract's default stays
}

/// The character of the key's entry for `meaning`.
std::string key_glyph(const std::string& out, const std::string& meaning) {
  const size_t at = out.find(" " + meaning);
  if (at == std::string::npos) return "";
  size_t from = at - 1;
  while (from > 0 && (static_cast<unsigned char>(out[from]) & 0xC0) == 0x80) --from;  // UTF-8 goes on
  return out.substr(from, at - from);
}

TEST(LaneStrip, EveryMeaningHasACharacterOfItsOwnAndAKey) {
  for (const bool unicode : {false, true}) {
    const std::string out = run({"plan", "inline-six", "--from", "looks", "--shut", "1,2", "--open", "3"},
                                {.unicode = unicode}, {})
                                .out;
    std::set<std::string> glyphs;
    for (const char* meaning : {"surely shut", "not surely shut", "open", "the crank may stand here"})
      glyphs.insert(key_glyph(out.substr(out.find("720\n")), meaning));
    EXPECT_EQ(glyphs.size(), 4u) << out;
    EXPECT_FALSE(glyphs.contains("")) << out;
    const size_t row = out.find("\ncrank");
    ASSERT_NE(row, std::string::npos);
    const std::string crank = out.substr(row + 6, out.find('\n', row + 1) - row - 6);
    const std::string sure = key_glyph(out.substr(out.find("720\n")), "surely shut");
    EXPECT_NE(crank.find(key_glyph(out, "the crank may stand here")), std::string::npos);
    EXPECT_EQ(crank.find(sure), std::string::npos) << crank;
  }
}

TEST(CheckText, StatesWhatWasUnderstood) {
  const auto told = [](const std::string& engine) { return flowing(run({"check", engine}, {}, {}).out); };
  const std::string six = told("inline-six");
  for (const char* must :
       {"6 cylinders, firing order 1-5-3-6-2-4", "Turns clockwise, seen from the pulley end",
        "Fires 1 at 0, 5 at 120, 3 at 240, 6 at 360, 2 at 480, 4 at 600 degrees",
        // The contract's engine: 12 before and 48 after, to within 3 degrees.
        "Intake off its seat from 12 degrees before overlap TDC to 48 degrees after BDC; at worst from 15 "
        "degrees "
        "before overlap TDC to 51 degrees after BDC",
        "Exhaust off its seat from 50 degrees before BDC to 10 degrees after overlap TDC",
        "Assumed each seat event up to 3 degrees earlier or later."})
    EXPECT_NE(six.find(must), std::string::npos) << must << "\n" << six;
  EXPECT_NE(told("v4-90-anticlockwise").find("Turns anticlockwise, seen"), std::string::npos);
  EXPECT_NE(told("v4-90-anticlockwise").find(": 90 degrees between them"), std::string::npos);
}

TEST(CheckText, SaysWhatIsAssumedAtItsWorst) {
  const std::string any = flowing(run({"check", "any-inline-four"}, {}, {}).out);
  for (const char* must : {"cam anywhere from 20 degrees later to 20 earlier", "widest at the seat"})
    EXPECT_NE(any.find(must), std::string::npos) << any;
}

TEST(Page, ParagraphsBreakAtSpacesAndHang) {
  const std::string text = paragraph("  - ", std::string(40, 'a') + " " + std::string(40, 'b') + "  c");
  std::string expected("  - ");
  expected.append(40, 'a').append("\n    ").append(40, 'b').append(" c\n");
  EXPECT_EQ(text, expected);
}

TEST(Page, WidthCountsCharactersAndCutsBetweenThem) {
  EXPECT_EQ(width("▒░x"), 3u);
  EXPECT_EQ(cut("▒░▒░▒", 4), "▒...");
  EXPECT_EQ(cut("abcd", 4), "abcd");
}

TEST(Page, TablesAlign) {
  EXPECT_EQ(table({{"no"}, {"what", Side::left}}, {{"1", "a"}, {"100", ""}}), " no  what\n  1  a\n100\n");
}

TEST(Page, ColourOnlyWhenAsked) {
  EXPECT_EQ(paint({}, "1", "x"), "x");
  EXPECT_EQ(paint({.colour = true}, "1", "x"), "\033[1mx\033[0m");
}

}  // namespace
}  // namespace shutlane::terminal
