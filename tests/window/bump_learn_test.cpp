// What the bumps of a job teach, through the window: read from the job's own steps, taken back with them,
// there again after a kill, and kept for the engine's next job.
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "tests/window/harness.hpp"
#include "ui/kept/job_bumps.hpp"
#include "ui/window/bump/texts.hpp"
#include "ui/window/saved/state_file.hpp"

namespace shutlane {
namespace {

CrankingModel six() {
  return std::get<CrankingModel>(cranking_model(std::get<Engine>(find_engine("inline-six"))));
}

class KeptBumps : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = ::testing::TempDir() + "shutlane-jobs-" + std::to_string(getpid());
    std::filesystem::remove_all(folder_);
    setenv("XDG_STATE_HOME", folder_.c_str(), 1);
  }
  void TearDown() override {
    unsetenv("XDG_STATE_HOME");
    std::filesystem::remove_all(folder_);
  }
  std::string folder_;
};

JobBumps a_job(double started_s) {
  return {started_s,
          {{{ArcSet({{100, 40}}), 0.24, true}, {ArcSet({{600, 240}}), 0.3, true}, {ArcSet({{20, 33.5}})}}}};
}

TEST_F(KeptBumps, ComeBackPerJobAndAreTakenBackWithIt) {
  EXPECT_TRUE(job_bumps(six()).empty());
  keep_job_bumps(six(), a_job(10));
  keep_job_bumps(six(), a_job(20));
  EXPECT_EQ(job_bumps(six()), (std::vector<JobBumps>{a_job(10), a_job(20)}));
  JobBumps shorter = a_job(20);
  shorter.rows[0].pop_back();
  keep_job_bumps(six(), shorter);
  EXPECT_EQ(job_bumps(six()), (std::vector<JobBumps>{a_job(10), shorter})) << "the same job again";
  keep_job_bumps(six(), {20, {{{ArcSet::all()}}}});
  EXPECT_EQ(job_bumps(six()), (std::vector<JobBumps>{a_job(10)})) << "its bumps were taken back";
  const RestTable table = *quick_rest_table(six(), {});
  const std::vector<double> own = kept_bump_memory().weights(six(), table, 10);
  const std::vector<double> other = kept_bump_memory().weights(six(), table, 11);
  for (size_t i = 0; i < own.size(); ++i) EXPECT_EQ(own[i], table.cars[i].weight);
  EXPECT_NE(own, other) << "a later job begins with what this one taught";
  forget_job_bumps(six());
  EXPECT_TRUE(job_bumps(six()).empty());
}

TEST_F(KeptBumps, ADamagedFileIsSetAside) {
  keep_job_bumps(six(), a_job(10));
  const auto file = std::filesystem::directory_iterator(folder_ + "/shutlane")->path();
  std::string text;
  {
    std::ifstream in(file);
    text.assign(std::istreambuf_iterator<char>(in), {});
  }
  for (const std::string& bad :
       {text.substr(0, text.size() / 2), std::string("{}"), std::string("[1, 2"), std::string()}) {
    std::ofstream(file) << bad;
    EXPECT_TRUE(job_bumps(six()).empty());
    EXPECT_TRUE(std::filesystem::exists(file.string() + ".damaged"));
    EXPECT_FALSE(std::filesystem::exists(file));
  }
}

std::shared_ptr<BumpBench> bench_with(BumpMemory memory) {
  return std::make_shared<BumpBench>(nullptr, quick_rest_table, std::move(memory));
}

/// Looks as an honest eye has them; the bump's own rest is set by hand.
void looks_at(Harness& h, double crank_deg) {
  h.run_for(2);  // the buttons have rested
  for (int step = 0; step < 200; ++step) {
    if (h.advice().stage == Stage::bump || h.advice().stage == Stage::finished) return;
    h.answer(crank_deg);
  }
}

/// The crank goes on by so much after a press of 0.2 s.
BumpView after_a_bump(Harness& h, double advance_deg) {
  h.open("inline-six", {}, TurnBy::starter);
  h.session.restore([&] {
    Document d = h.now().document;
    d.events = {{OnlyBank{}, 77}};
    return d;
  }());
  looks_at(h, 35);
  h.log(Bumped{0.2, true});
  looks_at(h, wrap_deg(35 + advance_deg));
  h.wait_for_desk();
  return h.viewer.ui().bump->desk.view();
}

TEST(BumpLearn, FurtherAndLessFarAreReadFromTheLooks) {
  Harness far, near;
  // The middle car goes some 170 degrees; a half turn more or hardly at all are other cars.
  const BumpView further = after_a_bump(far, 330), less = after_a_bump(near, 25);
  ASSERT_EQ(further.learnt_from, 1);
  ASSERT_EQ(less.learnt_from, 1);
  EXPECT_GT(further.stronger, less.stronger);
  EXPECT_EQ(texts::bump_learnt(2, 0.2), " This car goes further than stated (2 bumps).");
  EXPECT_EQ(texts::bump_learnt(1, -0.2), " This car goes less far than stated (1 bump).");
  EXPECT_EQ(texts::bump_learnt(1, 0), "");
  EXPECT_EQ(texts::bump_learnt(0, 1), "");
}

TEST(BumpLearn, UndoTakesItBackAndAKillDoesNot) {
  std::mutex mutex;
  std::vector<JobBumps> kept;
  Harness h;
  h.viewer.ui().bump = bench_with({nullptr, [&](const CrankingModel&, const JobBumps& job) {
                                     const std::lock_guard lock(mutex);
                                     kept.push_back(job);
                                   }});
  const BumpView told = after_a_bump(h, 330);
  ASSERT_EQ(told.learnt_from, 1);
  {
    const std::lock_guard lock(mutex);
    ASSERT_FALSE(kept.empty());
    EXPECT_EQ(kept.back().started_s, 77);
    EXPECT_EQ(kept.back().rows.back().size(), 2u);
    EXPECT_EQ(kept.back().rows.back().front().press_s, 0.2);
  }
  Harness back;
  back.session.restore(std::get<Document>(from_json(to_json(h.now().document))));
  back.wait_for_desk();
  const BumpView again = back.viewer.ui().bump->desk.view();
  EXPECT_EQ(again.learnt_from, 1);
  EXPECT_EQ(again.stronger, told.stronger);
  ASSERT_TRUE(again.plan && told.plan);
  EXPECT_EQ(again.plan->press_s, told.plan->press_s);

  const auto bumped = [&] {
    const std::vector<LoggedEvent>& events = h.now().document.events;
    return std::any_of(events.begin(), events.end(), [](const LoggedEvent& logged) {
      return std::holds_alternative<Bumped>(logged.event);
    });
  };
  while (bumped()) h.queue(Undo{});
  // Undo keeps what was blown into a port after it.
  for (const JobEvent& event : {JobEvent(SuckedOut{}), JobEvent(PortsEmptied{}), JobEvent(BungsCounted{})})
    h.log(event);
  h.wait_for_desk();
  EXPECT_EQ(h.advice().stage, Stage::bump);
  EXPECT_EQ(h.viewer.ui().bump->desk.view().learnt_from, 0);
  const std::lock_guard lock(mutex);
  EXPECT_EQ(kept.back().rows.back().size(), 1u) << "no bump";
}

/// What earlier jobs taught changes the press that is advised first.
TEST(BumpLearn, AWeakCarIsPressedLongerInTheNextJob) {
  double pressed_s[2];
  for (const bool weak : {false, true}) {
    Harness h;
    h.viewer.ui().bump = bench_with({[=](const CrankingModel&, const RestTable& table, double) {
                                       std::vector<double> weights(table.cars.size(), 0);
                                       weights[weak ? 2 : 6] = 1;  // three starters by three frictions
                                       return weights;
                                     },
                                     nullptr});
    h.open("inline-six", {}, TurnBy::starter);
    looks_at(h, 35);
    h.wait_for_desk();
    const BumpView view = h.viewer.ui().bump->desk.view();
    ASSERT_TRUE(view.plan) << view.no_bump;
    pressed_s[weak] = view.plan->press_s;
    if (weak)
      EXPECT_LT(view.stronger, 0);
    else
      EXPECT_GT(view.stronger, 0);
  }
  EXPECT_GT(pressed_s[1], pressed_s[0]);
}

}  // namespace
}  // namespace shutlane
