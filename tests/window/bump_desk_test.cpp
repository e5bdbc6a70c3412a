// The desk where the press is worked out: its answers against the terminal's for the same question (the built
// program, asked for JSON), what it shows meanwhile, and that it gives up when it should.
#include <unistd.h>

#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/window/harness.hpp"
#include "ui/kept/rest_cache.hpp"

namespace shutlane {
namespace {

using std::chrono::milliseconds;

std::shared_ptr<const Engine> engine_of(const std::string& name) {
  return std::make_shared<const Engine>(std::get<Engine>(find_engine(name)));
}

BumpView answer_of(BumpDesk& desk, const BumpQuestion& question) {
  desk.ask(question);
  for (int n = 0; n < 60000 && desk.view().reckoning; ++n) std::this_thread::sleep_for(milliseconds(2));
  return desk.view();
}

/// A cache folder with a table of one trial under the name of the whole one, so that both sides read it.
class SharedTable : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = ::testing::TempDir() + "shutlane-desk-" + std::to_string(getpid());
    std::filesystem::remove_all(folder_);
    std::filesystem::create_directories(folder_ + "/shutlane");
    setenv("XDG_CACHE_HOME", folder_.c_str(), 1);
  }
  void TearDown() override {
    unsetenv("XDG_CACHE_HOME");
    std::filesystem::remove_all(folder_);
  }
  void keep_small_table(const std::string& engine) {
    const auto model = std::get<CrankingModel>(cranking_model(*engine_of(engine)));
    RestTableQuestion small;
    small.trials_per_car = 1;
    const auto bytes = to_bytes(*build_rest_table(model, small));
    std::ofstream(folder_ + "/shutlane/rest-" + rest_table_key(model, {}), std::ios::binary)
        .write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
  }
  nlohmann::json terminal(const std::string& words) {
    std::FILE* pipe = popen(("'" SHUTLANE_PROGRAM "' " + words).c_str(), "r");
    std::string out;
    for (int c; pipe && (c = std::fgetc(pipe)) != EOF;) out += static_cast<char>(c);
    if (pipe) pclose(pipe);
    return nlohmann::json::parse(out);
  }
  std::string folder_;
};

TEST_F(SharedTable, AnswersAsTheTerminalDoes) {
  keep_small_table("inline-six");
  BumpDesk desk(nullptr, rest_table_for);
  const auto engine = engine_of("inline-six");
  struct Case {
    ArcSet where;
    std::vector<int> left;
    double margin_deg;
    std::string words;
  };
  // Each port left is one that cannot be worked at the start, as the desk's question says.
  for (const Case& c : {Case{ArcSet({{25, 20}}), {3, 6}, 10, "--from 35:10 --only 3,6"},
                        Case{ArcSet({{25, 20}}), {6}, 10, "--from 35:10 --only 6"},
                        Case{ArcSet({{34, 2}}), {3, 6}, 0, "--from 35:1 --only 3,6 --margin 0"},
                        Case{ArcSet::all(), {1, 2, 3, 4, 5, 6}, 10, "--from 0:360"}}) {
    SCOPED_TRACE(c.words);
    const nlohmann::json said = terminal("plan inline-six " + c.words + " --by starter --json");
    const BumpView view = answer_of(desk, {engine, c.margin_deg, c.where, c.left});
    ASSERT_TRUE(view.plan);
    EXPECT_FALSE(view.stale);
    EXPECT_EQ(view.no_bump, "");
    EXPECT_EQ(view.plan->press_s, said["press_s"]);
    EXPECT_EQ(view.plan->press_min_s, said["press_min_s"]);
    EXPECT_EQ(view.plan->press_max_s, said["press_max_s"]);
    EXPECT_NEAR(view.plan->expected_bumps, said["expected_bumps"], 1e-9);
    EXPECT_NEAR(view.plan->finish_first, said["finish_first"], 1e-9);
  }
}

TEST_F(SharedTable, WhatHasNoPlanGivesTheReason) {
  keep_small_table("inline-six");
  BumpDesk desk(nullptr, rest_table_for);
  const BumpView view = answer_of(desk, {engine_of("inline-six"), 240, ArcSet::all(), {1, 2}});
  EXPECT_FALSE(view.plan);
  EXPECT_NE(view.no_bump.find("too short for ports 1 and 2"), std::string::npos) << view.no_bump;
}

TEST(StartWithin, TwoArcsAreTheMeanOfEach) {
  const BumpStart both = start_within(ArcSet({{25, 20}, {385, 20}}));
  const BumpStart one = start_at(35, 10), other = start_at(395, 10);
  double sum = 0;
  for (size_t b = 0; b < both.weight.size(); ++b) {
    EXPECT_NEAR(both.weight[b], (one.weight[b] + other.weight[b]) / 2, 1e-12) << b;
    sum += both.weight[b];
  }
  EXPECT_NEAR(sum, 1, 1e-12);
}

TEST(BumpDesk, AHybridIsNeverBumped) {
  BumpDesk desk(nullptr, quick_rest_table);
  const BumpView view = answer_of(desk, {engine_of("hybrid-three"), 10, ArcSet::all(), {1, 2, 3}});
  EXPECT_FALSE(view.plan);
  EXPECT_NE(view.no_bump.find("hybrid"), std::string::npos) << view.no_bump;
}

TEST(BumpDesk, TheLastAnswerStaysStaleUntilTheNewOneIsThere) {
  BumpDesk desk(nullptr, quick_rest_table);
  const auto engine = engine_of("v12");
  std::vector<int> left;
  for (const Cylinder& c : engine->cylinders) left.push_back(c.number);
  const BumpQuestion first{engine, 10, ArcSet({{35, 10}}), {1}}, second{engine, 10, ArcSet::all(), left};
  const double bumps_1 = answer_of(desk, first).plan->expected_bumps;
  desk.ask(second);
  BumpView view = desk.view();
  for (; view.reckoning; view = desk.view()) {
    ASSERT_TRUE(view.plan);
    EXPECT_TRUE(view.stale) << "not answered yet";
    EXPECT_EQ(view.plan->expected_bumps, bumps_1);
  }
  ASSERT_TRUE(view.plan);
  EXPECT_FALSE(view.stale);
  EXPECT_NE(view.plan->expected_bumps, bumps_1);
  // Another engine's answer is not shown for this one, not even greyed.
  desk.ask({engine_of("inline-six"), 10, ArcSet::all(), {1}});
  view = desk.view();
  EXPECT_TRUE(view.reckoning ? !view.plan : !view.stale);
}

/// A table that is never done: it tells a progress of 0.4 until it is told to give up.
struct Endless {
  std::atomic<int> begun{0}, given_up{0};
  BumpDesk::TableFor source() {
    return [this](const CrankingModel&, const RestTableQuestion& q) -> std::shared_ptr<const RestTable> {
      ++begun;
      while (q.progress(0.4)) std::this_thread::sleep_for(milliseconds(1));
      ++given_up;
      return nullptr;
    };
  }
};

void wait_until(const std::function<bool()>& so) {
  for (int n = 0; n < 10000 && !so(); ++n) std::this_thread::sleep_for(milliseconds(1));
}

TEST(BumpDesk, GivesUpForAnotherEngineAndAtTheEndButNotForAnotherQuestion) {
  Endless endless;
  std::atomic<int> woken{0};
  {
    BumpDesk desk([&] { ++woken; }, endless.source());
    const auto engine = engine_of("inline-six");
    desk.ask({engine, 10, ArcSet::all(), {}});
    wait_until([&] { return desk.view().reckoning.value_or(0) > 0.3; });
    EXPECT_NEAR(*desk.view().reckoning, 0.38, 0.021);
    EXPECT_EQ(woken, 1) << "once for the percent, not for each call";
    desk.ask({engine, 10, ArcSet({{0, 90}}), {1}});
    std::this_thread::sleep_for(milliseconds(20));
    EXPECT_EQ(endless.begun, 1) << "the same table goes on";
    EXPECT_EQ(endless.given_up, 0);
    desk.ask({engine_of("v12"), 10, ArcSet::all(), {}});
    wait_until([&] { return endless.begun == 2; });
    EXPECT_EQ(endless.given_up, 1);
  }  // ends here, not never
  EXPECT_EQ(endless.given_up, 2);
}

TEST(BumpDesk, ATableThatFailsIsAReason) {
  BumpDesk desk(nullptr,
                [](const CrankingModel&, const RestTableQuestion&) -> std::shared_ptr<const RestTable> {
                  throw std::runtime_error("out of memory");
                });
  const BumpView view = answer_of(desk, {engine_of("inline-six"), 10, ArcSet::all(), {1}});
  EXPECT_FALSE(view.plan);
  EXPECT_EQ(view.no_bump, "out of memory");
}

}  // namespace
}  // namespace shutlane
