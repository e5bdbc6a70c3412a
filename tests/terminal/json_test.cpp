// The machine-readable answers: exact keys, order and numbers. The expected texts are the true answers that
// the public contract of the commands prints for the inline six; the other angles were worked out by hand
// from its events (intake from 12 before gas-exchange TDC to 48 after BDC, so open 348..588 local; tolerance
// 3, margin 10).
#include <fstream>

#include <nlohmann/json.hpp>

#include "tests/terminal/program.hpp"

namespace shutlane::terminal {
namespace {

using Json = nlohmann::ordered_json;

std::vector<std::string> top_keys(const Json& object) {
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  return keys;
}
using Keys = std::vector<std::string>;

TEST(Json, PlanOfTheContract) {
  const Ran ran = shutlane({"plan", "inline-six", "--from", "35", "--json"});
  EXPECT_EQ(ran.status, 0);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(without_space(ran.out), without_space(R"(
{"engine": "inline-six", "from_deg": 35, "plus_minus_deg": 0, "margin_deg": 10, "accuracy_deg": 10, "turns": 1, "total_turn_deg": 360,
 "positions": [
  {"at_deg": 35, "turn_deg": 0, "turn_min_deg": 0, "turn_max_deg": 0, "blast": [1, 2, 4, 5], "not_shut": [3, 6], "suck_out_before": []},
  {"at_deg": 395, "turn_deg": 360, "turn_min_deg": 206, "turn_max_deg": 540, "blast": [3, 6], "not_shut": [1, 4], "suck_out_before": [1, 2, 4, 5]}]})"));
}

TEST(Json, WindowsOfTheContract) {
  const Ran ran = shutlane({"windows", "inline-six", "--json"});
  EXPECT_EQ(ran.status, 0);
  const std::string begin = without_space(R"({"engine": "inline-six", "margin_deg": 10, "cylinders": [
  {"cylinder": 1, "firing_tdc_deg": 0, "shut": [{"from_deg": 588, "length_deg": 480}], "surely_shut": [{"from_deg": 601, "length_deg": 454}]},
  {"cylinder": 2, "firing_tdc_deg": 480,)");
  EXPECT_EQ(without_space(ran.out).substr(0, begin.size()), begin);
  EXPECT_EQ(Json::parse(ran.out)["cylinders"].size(), 6u);
}

TEST(Json, AtOneAngle) {
  const Ran ran = shutlane({"at", "inline-six", "-35", "--json"});
  ASSERT_EQ(ran.status, 0);
  const Json at = Json::parse(ran.out);
  EXPECT_EQ(top_keys(at), (Keys{"engine", "at_deg", "cylinders"}));
  EXPECT_EQ(at["at_deg"], 685);
  ASSERT_EQ(at["cylinders"].size(), 6u);
  const Json first = at["cylinders"][0], third = at["cylinders"][2];
  EXPECT_EQ(top_keys(first), (Keys{"cylinder", "local_deg", "stroke", "state", "intake_lift_mm",
                                   "exhaust_lift_mm", "piston_below_tdc_mm"}));
  EXPECT_EQ(first["local_deg"], 685);
  EXPECT_EQ(first["stroke"], "compression");
  EXPECT_EQ(first["state"], "surely shut");
  EXPECT_EQ(first["intake_lift_mm"], (Json{0, 0}));
  EXPECT_EQ(third["local_deg"], 445);  // fires third: 240; 685 - 240
  EXPECT_EQ(third["stroke"], "intake");
  EXPECT_EQ(third["state"], "open");
  // Two cylinders 360 apart carry their pistons side by side.
  EXPECT_EQ(third["piston_below_tdc_mm"], at["cylinders"][3]["piston_below_tdc_mm"]);
}

TEST(Json, StatesAtTheEdgesOfTheWindow) {
  const std::vector<std::pair<std::string, std::string>> expected{
      {"588", "not surely shut"},   {"587.9", "open"},      {"601", "surely shut"},
      {"600.9", "not surely shut"}, {"335", "surely shut"}, {"335.1", "not surely shut"},
      {"348", "not surely shut"},   {"348.1", "open"},      {"1308", "not surely shut"},
      {"-132", "not surely shut"}};
  for (const auto& [angle, state] : expected) {
    const Ran ran = shutlane({"at", "inline-six", angle, "--json"});
    EXPECT_EQ(Json::parse(ran.out)["cylinders"][0]["state"], state) << angle;
  }
}

TEST(Json, StrokesAreHalfOpen) {
  const std::vector<std::pair<std::string, std::string>> expected{
      {"0", "power"},      {"179.9", "power"},     {"180", "exhaust"},       {"360", "intake"},
      {"539.9", "intake"}, {"540", "compression"}, {"719.9", "compression"}, {"720", "power"}};
  for (const auto& [angle, stroke] : expected) {
    const Ran ran = shutlane({"at", "inline-six", angle, "--json"});
    EXPECT_EQ(Json::parse(ran.out)["cylinders"][0]["stroke"], stroke) << angle;
  }
}

TEST(Json, LocateHasItsKeysAndItsNull) {
  const Json some =
      Json::parse(shutlane({"locate", "inline-six", "--shut", "1,2", "--open", "3", "--json"}).out);
  EXPECT_EQ(top_keys(some), (Keys{"engine", "consistent", "surely_shut", "witnessed", "surely_open",
                                  "undecided", "next_look"}));
  const Json blind = Json::parse(shutlane({"locate", "inline-six", "--json"}).out);
  EXPECT_EQ(blind["consistent"], Json::parse(R"([{"from_deg": 0, "length_deg": 720}])"));
  EXPECT_EQ(blind["undecided"], (Json{1, 2, 3, 4, 5, 6}));
  const Json known =
      Json::parse(shutlane({"locate", "inline-six", "--mark", "35:0.5", "--shut", "1", "--json"}).out);
  EXPECT_EQ(known["consistent"], Json::parse(R"([{"from_deg": 34.5, "length_deg": 1}])"));
  EXPECT_TRUE(known["next_look"].is_null()) << known.dump();
}

TEST(Json, ContradictionIsExitOne) {
  // At every angle of a six one intake is open by more than the eye's limit: six ports seen shut cannot be.
  const Ran ran = shutlane({"locate", "inline-six", "--shut", "1,2,3,4,5,6", "--json"});
  EXPECT_EQ(ran.status, 1);
  const Json answer = Json::parse(ran.out);
  EXPECT_EQ(top_keys(answer), (Keys{"engine", "contradiction"}));
  EXPECT_EQ(top_keys(answer["contradiction"]), (Keys{"shut", "open", "mark"}));
  EXPECT_EQ(answer["contradiction"]["mark"], false);
}

TEST(Json, NoPlanIsExitOne) {
  // The sure windows are 454 long less what the accuracy of 300 takes on both sides: nothing is left.
  const Ran ran = shutlane({"plan", "inline-six", "--from", "35", "--accuracy", "300", "--json"});
  EXPECT_EQ(ran.status, 1);
  EXPECT_EQ(without_space(ran.out), R"({"engine":"inline-six","no_plan":[3,6]})");
}

TEST(Json, NothingLeftIsDone) {
  const Ran ran = shutlane({"plan", "inline-six", "--from", "35", "--done", "1,2,3,4,5,6", "--json"});
  EXPECT_EQ(ran.status, 0);
  const Json plan = Json::parse(ran.out);
  EXPECT_EQ(plan["turns"], 0);
  EXPECT_EQ(plan["positions"].size(), 1u);
  EXPECT_EQ(plan["positions"][0]["blast"], Json::array());
}

TEST(Json, DoneIsTakenAwayFromOnly) {
  const Json plan = Json::parse(
      shutlane({"plan", "inline-six", "--from", "35", "--only", "1,2", "--done", "2", "--json"}).out);
  EXPECT_EQ(plan["positions"].size(), 1u);
  EXPECT_EQ(plan["positions"][0]["blast"], (Json{1}));
  EXPECT_EQ(plan["positions"][0]["not_shut"], (Json{3, 6}));
}

TEST(Json, NumbersAreShortestAndTheSameInEveryLocale) {
  const std::vector<std::string> words{"plan", "inline-six", "--from", "0.1:2.5", "--json"};
  const Ran plain = shutlane(words);
  EXPECT_NE(plain.out.find("\"from_deg\": 0.1, \"plus_minus_deg\": 2.5, \"margin_deg\": 10,"),
            std::string::npos)
      << plain.out;
  for (const char* locale : {"de_DE.UTF-8", "fr_FR.UTF-8", "tr_TR.UTF-8"}) {
    EXPECT_EQ(shutlane(words, {.env = {{"LC_ALL", locale}}}).out, plain.out) << locale;
  }
}

TEST(Json, EngineIsRepeatedAsGivenAndFoundFromAnyFolder) {
  const std::string folder = scratch_folder("given");
  const Json at_root = Json::parse(shutlane({"windows", "inline-six", "--json"}).out);
  const Json elsewhere = Json::parse(shutlane({"windows", "inline-six", "--json"}, {.folder = folder}).out);
  EXPECT_EQ(at_root, elsewhere);
  EXPECT_EQ(at_root["engine"], "inline-six");
}

TEST(Json, EveryVerbPrintsOneDocument) {
  const std::vector<std::vector<std::string>> all{{"windows", "inline-six"},
                                                  {"at", "inline-six", "0"},
                                                  {"plan", "inline-six", "--from", "0"},
                                                  {"locate", "inline-six"},
                                                  {"engines"},
                                                  {"engines", "--names"},
                                                  {"check", "inline-six"}};
  for (std::vector<std::string> words : all) {
    words.push_back("--json");
    const Ran ran = shutlane(words);
    EXPECT_EQ(ran.status, 0) << words[0] << ran.err;
    EXPECT_TRUE(Json::accept(ran.out)) << words[0];
    EXPECT_EQ(ran.err, "") << words[0];
  }
}

TEST(Json, NamesOfTheEngines) {
  const Json answer = Json::parse(shutlane({"engines", "--names", "--json"}).out);
  EXPECT_EQ(top_keys(answer), Keys{"names"});
  EXPECT_EQ(answer["names"].get<Keys>(), engine_names());
  const Json first = Json::parse(shutlane({"engines", "--json"}).out)["engines"][0];
  EXPECT_EQ(top_keys(first),
            (Keys{"engine", "name", "source", "cylinders", "banks", "firing_order", "one_full_turn"}));
}

TEST(Json, CheckOfARightFile) {
  const Json answer = Json::parse(shutlane({"check", "v4-90-anticlockwise", "--json"}).out);
  EXPECT_EQ(top_keys(answer), (Keys{"file", "mistakes", "doubts", "understood"}));
  EXPECT_EQ(answer["file"], "v4-90-anticlockwise");
  EXPECT_EQ(answer["mistakes"], Json::array());
  EXPECT_EQ(answer["understood"]["rotation"], "anticlockwise");
}

// The mistakes are what check was asked for, so they are an answer: status 1, and nothing on standard error.
TEST(Json, CheckOfAWrongFileSaysItsMistakes) {
  const std::string folder = scratch_folder("check");
  std::string file = shutlane({"engines", "--show", "inline-six"}).out;
  file.replace(file.find("rotation"), 8, "turns   ");
  std::ofstream(folder + "/old.toml") << file;
  const Ran ran = shutlane({"check", "old.toml", "--json"}, {.folder = folder});
  EXPECT_EQ(ran.status, 1);
  EXPECT_EQ(ran.err, "");
  EXPECT_EQ(Json::parse(ran.out), Json::parse(R"({"file": "old.toml", "mistakes": [
    {"line": 17, "key": "layout.turns", "message": "is the old name of a key; rotation is its name now"}]})"));
  const Ran plain = shutlane({"check", "old.toml"}, {.folder = folder});
  EXPECT_EQ(plain.status, 2);
  EXPECT_EQ(plain.out, "");
  EXPECT_EQ(plain.err, "old.toml:17: layout.turns: is the old name of a key; rotation is its name now\n");
  // A file that can't be read has no mistakes to tell.
  const Ran none = shutlane({"check", "none.toml", "--json"}, {.folder = folder});
  EXPECT_EQ(none.status, 2);
  EXPECT_EQ(none.out, "");
  EXPECT_EQ(none.err_lines(), 1u);
}

}  // namespace
}  // namespace shutlane::terminal
