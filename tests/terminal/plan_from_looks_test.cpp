// plan --from looks. Expected answers are worked out by hand from the inline six of the contract: intake open
// 348..588 local, tolerance 3, margin 10; firing TDCs 1 0, 5 120, 3 240, 6 360, 2 480, 4 600.
#include <nlohmann/json.hpp>

#include "tests/terminal/program.hpp"

namespace shutlane::terminal {
namespace {

using Json = nlohmann::ordered_json;

// The mark says 35 or 395; cylinder 1 stands 6 mm open at 395, so its look leaves 33..37. Its own look is
// then all that speaks for port 1: it must wait for another witness, while 2, 4 and 5 are witnessed by it.
TEST(PlanFromLooks, APortIsNeverItsOwnWitness) {
  const Ran ran =
      shutlane({"plan", "inline-six", "--from", "looks", "--shut", "1", "--mark", "35:2", "--json"});
  EXPECT_EQ(ran.status, 0);
  const Json plan = Json::parse(ran.out);
  EXPECT_EQ(plan["from"], "looks");
  EXPECT_EQ(plan["consistent"], Json::parse(R"([{"from_deg": 33, "length_deg": 4}])"));
  EXPECT_EQ(plan["blast"], (Json{2, 4, 5}));
  EXPECT_EQ(plan["seen_shut"], Json::array());
  EXPECT_EQ(plan["own_look_only"], Json::array({1}));
  EXPECT_EQ(plan["one_full_turn"], true);
}

TEST(PlanFromLooks, SaysTheFullTurnWhenNoAngleNeedBeKnown) {
  const Ran ran = shutlane({"plan", "inline-six", "--from", "looks"});
  EXPECT_EQ(ran.status, 0);
  EXPECT_NE(ran.out.find("one full turn, to within 10 degrees"), std::string::npos);
  EXPECT_EQ(ran.out.find("seen shut, and reckoned shut from the other looks. One"), std::string::npos);
}

// Text and JSON are one plan: where one full turn is right from everywhere, there are no three turns beside
// it.
TEST(PlanFromLooks, TheJsonGivesThePlanOfTheText) {
  int full_turns = 0;
  for (const std::string& engine : engine_names())
    for (const std::vector<std::string>& looks :
         std::vector<std::vector<std::string>>{{},
                                               {"--shut", "1"},
                                               {"--open", "1"},
                                               {"--shut", "1", "--open", "2"},
                                               {"--mark", "35"},
                                               {"--shut", "2", "--mark", "100"}}) {
      std::vector<std::string> words{"plan", engine, "--from", "looks"};
      words.insert(words.end(), looks.begin(), looks.end());
      const Ran text = shutlane(words);
      words.push_back("--json");
      const Ran json = shutlane(words);
      if (json.status == 2) continue;  // a single has no port 2
      const Json plan = Json::parse(json.out);
      if (plan.contains("contradiction")) continue;
      SCOPED_TRACE(engine + " " + (looks.empty() ? "" : looks[0]));
      size_t turns = 0;
      for (const std::string& line : lines_of(text.out)) turns += line.starts_with("Turn ");
      EXPECT_EQ(plan["turns"], turns);
      if (plan["one_full_turn"] == true) {
        EXPECT_LE(plan["turns"], 1);
        full_turns += turns == 1;
      }
    }
  EXPECT_GT(full_turns, 10);
}

// The flat-plane V8's intakes are open too long for that rule, so an unknown crank has no plan yet.
TEST(PlanFromLooks, AsksForALookWhenNoTurnIsRightFromEverywhere) {
  const Ran ran = shutlane({"plan", "v8-flat-plane", "--from", "looks", "--json"});
  EXPECT_EQ(ran.status, 1);
  const Json plan = Json::parse(ran.out);
  EXPECT_EQ(plan["blast"], Json::array());
  EXPECT_TRUE(plan["next_look"].is_number());
  EXPECT_EQ(plan["positions"], Json::array());
}

TEST(PlanFromLooks, NamesLooksThatContradictEachOther) {
  const Ran ran = shutlane({"plan", "inline-six", "--from", "looks", "--shut", "1,2,3,4,5,6"});
  EXPECT_EQ(ran.status, 1);
  EXPECT_NE(ran.out.find("cannot all be true"), std::string::npos);
}

TEST(PlanFromLooks, LooksGoWithLooks) {
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"plan", "inline-six", "--from", "35", "--shut", "1"},
           {"plan", "inline-six", "--from", "looks", "--shut", "1", "--open", "1"},
           {"plan", "inline-six", "--from", "looks", "--shut", "7"}}) {
    const Ran ran = shutlane(words);
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err_lines(), 1u) << ran.err;
  }
}

}  // namespace
}  // namespace shutlane::terminal
