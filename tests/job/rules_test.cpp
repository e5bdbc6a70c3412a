// What a job can be made of: no bump where there is nothing to bump.
#include "sim/job/advice.hpp"
#include "tests/job/engines_for_jobs.hpp"

namespace shutlane {
namespace {

Engine hybrid_six() {
  EngineSpec spec = inline_six().spec;
  spec.cranking.starter = StarterKind::none;
  return std::get<Engine>(build_engine(spec));
}

TEST(PossibleRules, AHybridIsTurnedByWrench) {
  JobRules asked;
  asked.turn_by = TurnBy::starter;
  asked.accuracy_deg = usual_accuracy_deg(TurnBy::starter, 6);
  const JobRules rules = possible_rules(hybrid_six(), asked);
  EXPECT_EQ(rules.turn_by, TurnBy::wrench);
  EXPECT_EQ(rules.accuracy_deg, 60) << "half a firing interval: it rolls back when the wrench lets go";
  asked.accuracy_deg = 20;
  EXPECT_EQ(possible_rules(hybrid_six(), asked).accuracy_deg, 20) << "as it was stated";
  EXPECT_EQ(make_job_model(hybrid_six(), asked).rules, possible_rules(hybrid_six(), asked));
}

TEST(PossibleRules, EverythingElseStaysAsAsked) {
  for (const TurnBy how : {TurnBy::wrench, TurnBy::bar, TurnBy::road_wheel, TurnBy::starter}) {
    JobRules asked;
    asked.turn_by = how;
    asked.margin_deg = 7;
    EXPECT_EQ(possible_rules(inline_six(), asked), asked);
    if (how != TurnBy::starter) {
      EXPECT_EQ(possible_rules(hybrid_six(), asked), asked);
    }
  }
}

/// No step of a job on a hybrid speaks of a bump.
TEST(PossibleRules, NoAdviceOnAHybridSpeaksOfABump) {
  JobRules asked;
  asked.turn_by = TurnBy::starter;
  asked.accuracy_deg = 360;
  const JobModel model = make_job_model(hybrid_six(), asked);
  JobState state = start_job(model);
  bool turned = false;
  for (int step = 0; step < 40; ++step) {
    const Advice advice = advise(model, state);
    std::vector<std::string> said{advice.sentence, advice.second, advice.wide.label};
    for (const Press& press : advice.told()) said.push_back(press.label);
    for (const std::string& words : said) EXPECT_EQ(words.find("ump"), std::string::npos) << words;
    if (advice.told().empty()) break;
    // Nothing is ever seen, neither a mark nor a valve.
    std::vector<JobEvent> events = advice.told().front().tells;
    for (const Press& press : advice.told())
      for (const JobEvent& event : press.tells)
        if (std::holds_alternative<NoMark>(event) || event == JobEvent(LookedInto{advice.port, Saw::hidden}))
          events = press.tells;
    for (const JobEvent& event : events) {
      EXPECT_FALSE(std::holds_alternative<Bumped>(event));
      turned = turned || std::holds_alternative<Turned>(event);
      state = after(model, state, event);
    }
  }
  EXPECT_TRUE(turned);
}

}  // namespace
}  // namespace shutlane
