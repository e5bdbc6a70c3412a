// learn: what was told of bumps is kept for the engine, changes later answers as Bayes' rule in this process
// says, can be seen and forgotten, and damage to it costs nothing but itself. plan --by both: the starter
// first.
#include <cmath>
#include <filesystem>
#include <fstream>
#include <memory>
#include <nlohmann/json.hpp>
#include <numeric>

#include "engines/catalog.hpp"
#include "sim/cranking/trials.hpp"
#include "sim/plan/bump_learn.hpp"
#include "sim/plan/bump_plan.hpp"
#include "sim/plan/wrench.hpp"
#include "tests/terminal/program.hpp"
#include "tests/terminal/small_table.hpp"
#include "ui/kept/job_bumps.hpp"
#include "ui/terminal/page.hpp"

namespace shutlane::terminal {
namespace {

using Json = nlohmann::ordered_json;

class Learn : public testing::Test {
 protected:
  void SetUp() override {
    const std::string name = testing::UnitTest::GetInstance()->current_test_info()->name();
    around_ = with_small_table("learn-cache-" + name, kEngine, &table_);
    state_ = scratch_folder("learn-state-" + name);
    around_.env["XDG_STATE_HOME"] = state_;
  }

  Ran learn(std::vector<std::string> words) {
    words.insert(words.begin(), {"learn", kEngine});
    return shutlane(words, around_);
  }
  Json learn_json(std::vector<std::string> words) {
    words.push_back("--json");
    const Ran ran = learn(words);
    EXPECT_EQ(ran.status, 0) << ran.err;
    return Json::parse(ran.out);
  }
  std::string plan() {
    return shutlane({"plan", kEngine, "--from", "35", "--by", "starter", "--json"}, around_).out;
  }
  std::string bump() {
    return shutlane({"bump", kEngine, "--from", "35", "--press", "0.3", "--json"}, around_).out;
  }

  const std::string kEngine = "inline-six";
  const std::vector<std::string> further_{"--from", "35", "--press", "0.3", "--went", "further"};
  Around around_;
  std::string state_;
  RestTable table_;
};

TEST_F(Learn, WhatWasToldIsUsedSeenAndForgotten) {
  const std::string plan_before = plan(), bump_before = bump();
  EXPECT_EQ(learn_json({})["bumps"], Json::array());

  // Bayes' rule in this process, on the same table.
  std::vector<double> weights;
  for (const CarSample& car : table_.cars) weights.push_back(car.weight);
  constexpr int kPress = 12;  // 0.30 s
  ASSERT_NEAR(table_.presses_s[kPress], 0.3, 1e-9);
  for (int i = 1; i <= 4; ++i) {
    const ReckonedAdvance reckoned = reckoned_advance(table_, weights, 35, kPress);
    weights = learned(table_, weights, 35, kPress, Went::further);
    const Json told = learn_json(further_);
    ASSERT_EQ(told["bumps"].size(), static_cast<size_t>(i));
    EXPECT_EQ(told["bumps"].back(), (Json{{"from_deg", 35},
                                          {"press_s", 0.3},
                                          {"went", "further"},
                                          {"reckoned_deg", {reckoned.low_deg, reckoned.high_deg}}}));
    double starter = 0;
    for (size_t c = 0; c < weights.size(); ++c) starter += weights[c] * table_.cars[c].draw.starter;
    EXPECT_NEAR(told["starter"].get<double>(), starter, 1e-9);
  }

  BumpPlanner planner(std::get<Engine>(find_engine(kEngine)), std::make_shared<const RestTable>(table_),
                      weights);
  const Json plan_after = Json::parse(plan());
  EXPECT_EQ(plan_after["expected_bumps"], planner.plan(start_at(35), {1, 2, 3, 4, 5, 6}).expected_bumps);
  EXPECT_EQ(plan_after["told_bumps"], 4);
  EXPECT_NE(plan(), plan_before);
  // The bumps of the verb bump are those of cars as often as they weigh now.
  std::vector<CarSample> cars = table_.cars;
  for (size_t c = 0; c < cars.size(); ++c) cars[c].weight = weights[c];
  const FastKernel kernel(model_of(kEngine));
  EXPECT_EQ(Json::parse(bump())["advance_deg"]["mean"],
            bump_trials(kernel, {.from_deg = 35, .press_s = 0.3}, cars).mean_deg);
  EXPECT_NE(bump(), bump_before);

  const Ran text = learn({});
  EXPECT_EQ(text.status, 0) << text.err;
  EXPECT_NE(text.out.find("further"), std::string::npos) << text.out;
  for (const std::string& line : lines_of(text.out)) EXPECT_LE(width(line), 80u) << line;
  EXPECT_NE(shutlane({"plan", kEngine, "--from", "35", "--by", "starter"}, around_).out.find("4 bumps told"),
            std::string::npos);

  EXPECT_EQ(learn_json({"--forget"})["forgotten"], 4);
  EXPECT_EQ(learn_json({})["bumps"], Json::array());
  EXPECT_EQ(plan(), plan_before);
  EXPECT_EQ(bump(), bump_before);
  EXPECT_EQ(learn_json({"--forget"})["forgotten"], 0) << "forgetting nothing is no mistake";
}

/// What the window's jobs read from their looks weighs the terminal's plan as well, and is forgotten with it.
TEST_F(Learn, BumpsOfJobsAreUsedAndForgotten) {
  const std::string plan_before = plan();
  EXPECT_FALSE(learn_json({}).contains("job_bumps"));
  setenv("XDG_STATE_HOME", state_.c_str(), 1);
  // A rest that only some of the cars come to.
  const double rest_deg = wrap_deg(30.0 + table_.trials(table_.phase_of(30), 12, 0)[0]);
  const std::vector<BumpRow> rows{{{ArcSet({{30, 1}}), 0.3, true}, {ArcSet({{rest_deg, 3}})}}};
  keep_job_bumps(model_of(kEngine), {5, rows});
  unsetenv("XDG_STATE_HOME");
  EXPECT_EQ(learn_json({})["job_bumps"], 1);
  EXPECT_NE(learn({}).out.find("one bump"), std::string::npos);
  EXPECT_NE(plan(), plan_before);
  (void)learn_json({"--forget"});
  EXPECT_EQ(plan(), plan_before);
}

TEST_F(Learn, ADamagedFileIsSetAsideWithOneLine) {
  const std::string before = plan();
  learn_json(further_);
  std::string file;
  for (const auto& entry : std::filesystem::directory_iterator(state_ + "/shutlane"))
    file = entry.path().string();
  const std::string whole = text_of_file(file);
  for (const std::string& bytes :
       {whole.substr(0, whole.size() / 2), std::string("[]"), std::string("\x01\xFF"), std::string(),
        std::string(R"({"format": 2, "bumps": []})"),
        std::string(R"({"format": 1, "bumps": [{"from_deg": 35}]})"),
        std::string(R"({"format": 1, "bumps": [{"from_deg": 720, "press_s": 0.3, "went": "further"}]})"),
        std::string(R"({"format": 1, "bumps": [{"from_deg": 35, "press_s": 9, "went": "further"}]})"),
        std::string(R"({"format": 1, "bumps": [{"from_deg": 35, "press_s": 0.3, "went": "far"}]})")}) {
    std::ofstream(file, std::ios::binary | std::ios::trunc) << bytes;
    const Ran ran = shutlane({"plan", kEngine, "--from", "35", "--by", "starter", "--json"}, around_);
    EXPECT_EQ(ran.status, 0) << bytes;
    EXPECT_EQ(ran.out, before) << bytes;
    EXPECT_EQ(ran.err_lines(), 1u) << ran.err;
    EXPECT_NE(ran.err.find("set aside"), std::string::npos) << ran.err;
    EXPECT_FALSE(std::filesystem::exists(file));
    EXPECT_EQ(text_of_file(file + ".damaged"), bytes);
    EXPECT_EQ(shutlane({"plan", kEngine, "--from", "35", "--by", "starter", "--json"}, around_).err, "");
  }
  EXPECT_EQ(learn_json(further_)["bumps"].size(), 1u) << "told anew after the damage";
}

TEST_F(Learn, BadWordsKeepNothing) {
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"--from", "35"},
           {"--from", "35", "--press", "0.3"},
           {"--from", "35", "--press", "0.3", "--went", "far"},
           {"--from", "35", "--press", "0.9", "--went", "further"},
           {"--from", "x", "--press", "0.3", "--went", "further"},
           {"--from", "35", "--press", "0.3", "--went", "further", "--forget"}}) {
    const Ran ran = learn(words);
    EXPECT_EQ(ran.status, 2) << ran.out;
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err_lines(), 1u) << ran.err;
  }
  EXPECT_TRUE(std::filesystem::is_empty(state_));
  around_.env.erase("XDG_STATE_HOME");
  const Ran homeless = learn(further_);
  EXPECT_EQ(homeless.status, 2);
  EXPECT_NE(homeless.err.find("XDG_STATE_HOME"), std::string::npos) << homeless.err;
}

TEST_F(Learn, AnEngineWithoutAStarterIsRefused) {
  const Ran ran = shutlane({"learn", "hybrid-three", "--json"}, around_);
  EXPECT_EQ(ran.status, 1);
  EXPECT_TRUE(Json::parse(ran.out).contains("no_bump"));
}

TEST(BumpTrials, OfASetOfCarsFollowTheirWeights) {
  const FastKernel kernel(model_of("inline-six"));
  const TrialsQuestion question{.from_deg = 35, .press_s = 0.3, .trials = 4000, .seed = 5};
  CarSample weak, strong;
  weak.draw.starter = 0.7;
  strong.draw.starter = 1.4;
  const auto mean_of = [&](double weight_of_strong) {
    weak.weight = 1 - weight_of_strong;
    strong.weight = weight_of_strong;
    return bump_trials(kernel, question, std::vector<CarSample>{weak, strong}).mean_deg;
  };
  // A set in which one car has all the weight is that car, trial by trial; in between, its share of the way.
  const double low_deg = bump_trials(kernel, question, weak.draw).mean_deg;
  const double high_deg = bump_trials(kernel, question, strong.draw).mean_deg;
  EXPECT_EQ(mean_of(0), low_deg);
  EXPECT_EQ(mean_of(1), high_deg);
  ASSERT_GT(high_deg, low_deg + 50);
  // 4000 draws of a share of 0.25 scatter by 0.007; four times that, and as much again for the bumps' own.
  EXPECT_NEAR((mean_of(0.25) - low_deg) / (high_deg - low_deg), 0.25, 0.06);
}

TEST(PlanByBoth, SaysWhichComesFirstAndWhatEachAloneWouldTake) {
  RestTable table;
  const std::string engine_name = "inline-six";
  const Around around = with_small_table("rest-both", engine_name, &table);
  const Engine engine = std::get<Engine>(find_engine(engine_name));
  BumpPlanner planner(engine, std::make_shared<const RestTable>(table));
  for (const std::string from : {"35", "unknown"}) {
    const MixedPlan expected = planner.mixed(from == "35" ? start_at(35) : start_unknown(),
                                             {1, 2, 3, 4, 5, 6}, kDefaultAccuracy_deg);
    const Ran ran = shutlane({"plan", engine_name, "--from", from, "--by", "both", "--json"}, around);
    ASSERT_EQ(ran.status, 0) << ran.err;
    const Json plan = Json::parse(ran.out);
    EXPECT_EQ(plan["by"], "both");
    EXPECT_EQ(plan["first"], expected.wrench_first ? "wrench" : "starter");
    EXPECT_EQ(plan["expected_moves"], expected.expected_moves);
    EXPECT_EQ(plan["expected_bumps"], expected.expected_bumps);
    EXPECT_EQ(plan["expected_turns"], expected.expected_turns);
    EXPECT_EQ(plan["bumps_by_starter_alone"], expected.expected_bumps_only);
    const Ran text = shutlane({"plan", engine_name, "--from", from, "--by", "both"}, around);
    EXPECT_EQ(text.status, 0) << text.err;
    for (const std::string& line : lines_of(text.out)) EXPECT_LE(width(line), 80u) << line;
    if (from == "35") {
      // One turn is all that this engine ever needs; no bump can be better. The wrench's own keys are there.
      EXPECT_EQ(plan["first"], "wrench");
      EXPECT_EQ(plan["turns"], plan["turns_by_wrench_alone"]);
      EXPECT_NE(text.out.find("one turn by wrench alone"), std::string::npos) << text.out;
      EXPECT_NE(text.out.find("one full turn; anything"), std::string::npos) << text.out;
    } else {
      EXPECT_EQ(plan["first"], "starter");
      EXPECT_TRUE(plan["turns_by_wrench_alone"].is_null());
      EXPECT_LE(expected.expected_moves, expected.expected_bumps_only + 1e-9);
      for (const char* must : {"Starter first, the wrench to finish", "press about 0.", "no second bump"})
        EXPECT_NE(text.out.find(must), std::string::npos) << must << text.out;
    }
  }
  EXPECT_EQ(shutlane({"plan", engine_name, "--from", "looks", "--by", "both"}, around).status, 2);
}

}  // namespace
}  // namespace shutlane::terminal
