// The Work bench with the starter, clicked through: the press told, the beeps, what happened, and every way
// out. The engine is a hidden crank; every port blasted is checked against its lifts.
#include <random>

#include "tests/window/harness.hpp"
#include "ui/window/bump/press_sound.hpp"
#include "ui/window/saved/state_file.hpp"
#include "ui/window/workbench/bump_panel.hpp"

namespace shutlane {
namespace {

struct HeardBeeps : Beeper {
  int played = 0, stopped = 0;
  double press_s = 0;
  void play(PressSound sound) override {
    ++played;
    press_s = static_cast<double>(sound.let_go_at - sound.press_at) / sound.rate_hz;
  }
  void stop() override { ++stopped; }
};

std::string shown(Harness& h) {
  const Item* wide = h.items().by_id("wide");
  return wide ? wide->label : "";
}
bool crank_is_next(const Advice& advice) {
  return advice.stage == Stage::turn || advice.stage == Stage::mark || advice.stage == Stage::bump ||
         advice.stage == Stage::finished;
}

/// Presses what is advised, seeing what an honest eye sees, until the crank is to be moved or all is done.
void work_on(Harness& h, double crank_deg) {
  for (int step = 0; step < 300; ++step) {
    const Advice advice = h.advice();
    if (crank_is_next(advice)) return;
    ASSERT_NE(advice.stage, Stage::disagreement);
    if (advice.stage == Stage::blasting) {
      ASSERT_FALSE(h.open_at(advice.port, crank_deg)) << "port " << advice.port << " at " << crank_deg;
    }
    h.answer(crank_deg);
  }
  FAIL() << "it does not end: " << h.advice().sentence;
}

void to_first_bump(Harness& h, const std::string& engine = "inline-six", double crank_deg = 35) {
  h.open(engine, {}, TurnBy::starter);
  ASSERT_NO_FATAL_FAILURE(work_on(h, crank_deg));
  ASSERT_EQ(h.advice().stage, Stage::bump);
  h.wait_for_desk();
}

TEST(BumpAtWork, WholeJobsByBeeps) {
  std::mt19937 random(7);
  for (const std::string engine : {"inline-six", "any-inline-six", "v8-cross-plane", "any-v6-90"}) {
    SCOPED_TRACE(engine);
    Harness h;
    HeardBeeps beeps;
    h.viewer.ui().beeper = &beeps;
    h.open(engine, {}, TurnBy::starter);
    double crank_deg = 35;
    int bumps = 0;
    for (; bumps < 60; ++bumps) {
      ASSERT_NO_FATAL_FAILURE(work_on(h, crank_deg));
      if (h.advice().stage == Stage::finished) break;
      h.wait_for_desk();
      const BumpView view = h.viewer.ui().bump->desk.view();
      ASSERT_TRUE(view.plan) << view.no_bump;
      EXPECT_TRUE(h.says("Bump the starter: press 0."));
      EXPECT_TRUE(h.says("one bump") || h.says("more than one bump"));
      const size_t before = h.now().document.events.size();
      h.click("Start the beeps");
      ASSERT_EQ(beeps.played, bumps + 1);
      EXPECT_NEAR(beeps.press_s, view.plan->press_s, 1e-4);
      std::vector<std::string> words;
      for (int frame = 0; frame < 400 && shown(h) != "Bumped"; ++frame) {
        h.run_for(1.0 / 60);
        if (words.empty() || words.back() != shown(h)) words.push_back(shown(h));
      }
      EXPECT_EQ(words, (std::vector<std::string>{"Ready", "3", "2", "1", "PRESS", "LET GO", "Bumped"}));
      EXPECT_TRUE(h.says("Pressed 0.")) << "what was pressed is shown";
      ASSERT_EQ(h.now().document.events.size(), before + 1) << "that the beeps were started";
      EXPECT_EQ(h.now().document.events.back().event, JobEvent(PressStarted{view.plan->press_s}));
      h.click("Bumped");
      ASSERT_EQ(h.now().document.events.size(), before + 1);
      EXPECT_EQ(h.now().document.events.back().event, JobEvent(Bumped{view.plan->press_s, true}));
      EXPECT_TRUE(h.advice().where.full()) << "nobody knows where it rests";
      crank_deg = std::uniform_real_distribution<double>(0, 720)(random);
    }
    EXPECT_EQ(h.advice().stage, Stage::finished);
    EXPECT_GE(bumps, 1);
  }
}

/// Something holds the crank: it is never bumped again in this job, whatever the plan says.
TEST(BumpAtWork, AStarterThatStoppedAtOnceIsNotUsedAgain) {
  Harness h;
  h.viewer.ui().beeper = nullptr;
  ASSERT_NO_FATAL_FAILURE(to_first_bump(h, "inline-six", 35));
  h.click("Start the beeps");
  for (int frame = 0; frame < 400 && shown(h) != "Bumped"; ++frame) h.run_for(1.0 / 60);
  const Box place = h.need("stopped at once").box;
  h.click("stopped at once");
  EXPECT_EQ(h.now().document.events.back().event, JobEvent(Bumped{}));
  EXPECT_EQ(h.now().model->rules.turn_by, TurnBy::wrench);
  EXPECT_NE(h.now().message.find("No second bump"), std::string::npos) << h.now().message;
  EXPECT_EQ(h.advice().stage, Stage::mark) << "from here on by hand, and by the mark";
  EXPECT_EQ(h.need("crank moved").box.x, place.x);
  EXPECT_NE(h.advice().sentence.find("TDC mark"), std::string::npos) << h.advice().sentence;
}

TEST(BumpAtWork, SafeWordsAndProgressWhileItIsReckoned) {
  Harness h;
  std::atomic<bool> go_on{true};
  h.viewer.ui().bump = std::make_shared<BumpBench>(
      nullptr, [&](const CrankingModel&, const RestTableQuestion& q) -> std::shared_ptr<const RestTable> {
        while (q.progress(0.5) && go_on) std::this_thread::sleep_for(std::chrono::milliseconds(1));
        throw std::runtime_error("no memory");
      });
  h.open("inline-six", {}, TurnBy::starter);
  ASSERT_NO_FATAL_FAILURE(work_on(h, 35));
  for (int n = 0; n < 2000 && h.viewer.ui().bump->desk.view().reckoning.value_or(0) < 0.4; ++n)
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  h.settle();
  EXPECT_TRUE(h.says("Bump the starter once."));
  EXPECT_TRUE(h.says("Reckoning how long to press: 47 %. Hands clear. Nobody knows where it rests"));
  EXPECT_TRUE(h.viewer.ui().wake_after_s()) << "where nothing can wake the window, it looks now and then";
  EXPECT_EQ(h.wide(), "Bumped") << "nobody has to wait";
  go_on = false;
  h.wait_for_desk();
  EXPECT_TRUE(h.says("No bump: turn by wrench."));
  EXPECT_TRUE(h.says("No memory."));
}

/// The desk's thread is held up where it wakes the window, so that a further question waits.
TEST(BumpAtWork, TheLastPressStaysGreyedUntilTheNewOneIsThere) {
  std::atomic<bool> held{false};
  Harness h;
  h.viewer.ui().bump = std::make_shared<BumpBench>(
      [&] {
        while (held) std::this_thread::sleep_for(std::chrono::milliseconds(1));
      },
      quick_rest_table);
  ASSERT_NO_FATAL_FAILURE(to_first_bump(h));
  EXPECT_FALSE(bump_said(h.viewer.ui(), h.now()).greyed);
  held = true;
  JobRules rules = h.now().document.rules;
  for (const double margin_deg : {12.0, 13.0}) {
    rules.margin_deg = margin_deg;
    h.queue(SetRules{rules, ""});
    ASSERT_EQ(h.advice().stage, Stage::bump);
    if (margin_deg == 12.0) h.wait_for_desk();  // answered; from here on it is held up
  }
  EXPECT_TRUE(bump_said(h.viewer.ui(), h.now()).greyed);
  EXPECT_TRUE(h.says("Bump the starter: press 0."));
  EXPECT_TRUE(h.says("Reckoning how long to press: "));
  EXPECT_EQ(h.wide(), "Bumped") << "an old press is not timed";
  held = false;
  h.wait_for_desk();
  EXPECT_FALSE(bump_said(h.viewer.ui(), h.now()).greyed);
  EXPECT_EQ(h.wide(), "Start the beeps");
}

TEST(BumpAtWork, EveryWayOutStopsTheBeepsAndLogsNothing) {
  const auto ways = std::vector<std::pair<std::string, std::function<void(Harness&)>>>{
      {"escape", [](Harness& h) { h.press(Key::escape); }},
      {"stop", [](Harness& h) { h.click("stop"); }},
      {"key A", [](Harness& h) { h.press(Key::a); }},
      {"another bench",
       [](Harness& h) {
         h.press(Key::f2);
         h.press(Key::f1);
       }},
      {"the menu",
       [](Harness& h) {
         h.press(Key::f9);
         h.press(Key::f9);
       }},
      {"what-if",
       [](Harness& h) {
         h.queue(MoveWhatIf{100});
         h.queue(MoveWhatIf{});
       }},
  };
  for (const auto& [name, way] : ways)
    for (const double after_s : {0.1, 1.0, 1.8}) {  // and 0.6 s until the way is taken: before the high beep
      SCOPED_TRACE(name);
      Harness h;
      HeardBeeps beeps;
      h.viewer.ui().beeper = &beeps;
      ASSERT_NO_FATAL_FAILURE(to_first_bump(h));
      const size_t before = h.now().document.events.size();
      h.click("Start the beeps");
      h.run_for(after_s);
      const int stopped = beeps.stopped;
      ASSERT_TRUE(h.viewer.ui().bump->timer);
      way(h);
      EXPECT_FALSE(h.viewer.ui().bump->timer);
      EXPECT_GT(beeps.stopped, stopped);
      EXPECT_EQ(h.now().document.events.size(), before);
      EXPECT_EQ(h.wide(), "Start the beeps");
    }
}

TEST(BumpAtWork, StepsLoggedOrTakenBackStopTheBeeps) {
  for (const bool undo : {false, true}) {
    Harness h;
    HeardBeeps beeps;
    h.viewer.ui().beeper = &beeps;
    ASSERT_NO_FATAL_FAILURE(to_first_bump(h));
    h.click("Start the beeps");
    h.run_for(1);
    const size_t before = h.now().document.events.size();
    h.press(undo ? KeyPress{Key::z, false, true} : KeyPress{Key::m});
    EXPECT_EQ(h.now().document.events.size(), undo ? before - 1 : before + 1);
    EXPECT_FALSE(h.viewer.ui().bump->timer);
    EXPECT_GE(beeps.stopped, 1);
  }
}

TEST(BumpAtWork, AStepThatLeavesTheBumpNextStopsTheBeepsToo) {
  Harness h;
  HeardBeeps beeps;
  h.viewer.ui().beeper = &beeps;
  ASSERT_NO_FATAL_FAILURE(to_first_bump(h));
  h.click("Start the beeps");
  h.run_for(1);
  h.log(OnlyBank{});
  EXPECT_FALSE(h.viewer.ui().bump->timer) << "the press may be another one now";
  EXPECT_GE(beeps.stopped, 1);
}

TEST(BumpAtWork, NotPressedGoesBackAndBumpedCanBeSaidWithoutBeeps) {
  Harness h;
  ASSERT_NO_FATAL_FAILURE(to_first_bump(h));
  const size_t before = h.now().document.events.size();
  h.click("Start the beeps");
  h.press(Key::enter);  // does nothing while it runs
  h.run_for(5);
  EXPECT_TRUE(h.says("liquid or an object"));
  h.click("not pressed");
  EXPECT_EQ(h.wide(), "Start the beeps");
  EXPECT_EQ(h.now().document.events.size(), before);
  h.click("bumped");
  ASSERT_EQ(h.now().document.events.size(), before + 1);
  const auto bumped = std::get<Bumped>(h.now().document.events.back().event);
  EXPECT_GT(bumped.press_s, 0);
  EXPECT_FALSE(bumped.timed) << "the hand alone knows how long";
  h.press(Key::u);
  EXPECT_EQ(h.now().document.events.size(), before);
  EXPECT_EQ(h.advice().stage, Stage::bump);
  h.wait_for_desk();
  EXPECT_EQ(h.wide(), "Start the beeps");
}

/// Killed while the beeps run, at any time after the button: what is saved then comes back as bumped.
TEST(BumpAtWork, APressUnderWayComesBackAsBumped) {
  for (const double after_s : {0.0, 1.0, 2.8, 3.3, 6.0}) {
    SCOPED_TRACE(after_s);
    Harness h;
    ASSERT_NO_FATAL_FAILURE(to_first_bump(h));
    h.click("Start the beeps");
    h.run_for(after_s);
    const auto saved = from_json(to_json(h.now().document));
    ASSERT_TRUE(std::holds_alternative<Document>(saved)) << std::get<std::string>(saved);
    Harness back;
    back.session.restore(std::get<Document>(saved));
    back.settle();
    EXPECT_TRUE(back.advice().where.full()) << "nobody knows where the crank stands";
    for (const JobPort& port : back.now().job.ports) {
      EXPECT_FALSE(port.seen) << port.cylinder;
      EXPECT_FALSE(may_blast(*back.now().model, back.now().job, port.cylinder));
    }
    EXPECT_EQ(back.advice().stage, Stage::look);
    EXPECT_FALSE(back.has("Start the beeps"));
    back.click("undo");  // it was not pressed after all
    EXPECT_EQ(back.advice().stage, Stage::bump);
  }
}

TEST(BumpAtWork, StoppedAfterTheHighBeepItIsAskedWhatHappened) {
  Harness h;
  HeardBeeps beeps;
  h.viewer.ui().beeper = &beeps;
  ASSERT_NO_FATAL_FAILURE(to_first_bump(h));
  const size_t before = h.now().document.events.size();
  h.click("Start the beeps");
  h.run_for(2.2);
  h.click("stop");  // a rest of 0.6 s lies before the click
  EXPECT_GE(beeps.stopped, 1);
  EXPECT_EQ(h.now().document.events.size(), before + 1);
  EXPECT_TRUE(h.says("Did the crank turn?"));
  h.press(Key::escape);
  EXPECT_EQ(h.now().document.events.size(), before + 1) << "no answer is none";
  h.click("not pressed");
  EXPECT_EQ(h.now().document.events.size(), before);
  EXPECT_EQ(h.advice().stage, Stage::bump);
}

TEST(BumpAtWork, LeftAfterTheHighBeepItCountsAsBumped) {
  Harness h;
  ASSERT_NO_FATAL_FAILURE(to_first_bump(h));
  const size_t before = h.now().document.events.size();
  h.click("Start the beeps");
  h.run_for(2.8);
  h.press(Key::f2);
  h.press(Key::f1);
  EXPECT_EQ(h.now().document.events.size(), before + 1);
  EXPECT_EQ(h.advice().stage, Stage::look);
  EXPECT_TRUE(h.advice().where.full());
}

TEST(BumpAtWork, ATakenBackPressIsNotBroughtBackByUndo) {
  Harness h;
  ASSERT_NO_FATAL_FAILURE(to_first_bump(h));
  const size_t before = h.now().document.events.size();
  h.click("Start the beeps");
  h.run_for(1);
  h.press(Key::f2);  // another step of the document lies between
  h.press(Key::f1);
  ASSERT_EQ(h.now().document.events.size(), before);
  for (size_t left = before; h.now().can_undo && left > 0;) {
    h.queue(Undo{});
    EXPECT_FALSE(press_under_way(h.now().document));
    EXPECT_LE(h.now().document.events.size(), left);
    left = h.now().document.events.size();
  }
}

/// Everything by keyboard, and a further click at the same place answers nothing.
TEST(BumpAtWork, KeysAndDoubleClicks) {
  Harness h;
  ASSERT_NO_FATAL_FAILURE(to_first_bump(h));
  const size_t before = h.now().document.events.size();
  h.press(Key::enter);
  ASSERT_TRUE(h.viewer.ui().bump->timer);
  h.run_for(5);
  ASSERT_EQ(shown(h), "Bumped");
  h.press(Key::enter);
  ASSERT_EQ(h.now().document.events.size(), before + 1);
  h.press(Key::u);
  h.wait_for_desk();
  const Box stop = h.need("beside 1").box;
  h.click("Start the beeps");
  h.run_for(0.7);
  h.click_at({stop.x + stop.w / 2, stop.y + stop.h / 2});  // stop
  h.click_at({stop.x + stop.w / 2, stop.y + stop.h / 2});  // and at once again, where "bumped" has come up
  EXPECT_EQ(h.now().document.events.size(), before);
  EXPECT_FALSE(h.viewer.ui().bump->timer);
}

TEST(BumpAtWork, AHybridIsTurnedByWrenchAndSaysWhy) {
  Harness h;
  h.open("hybrid-three", {}, TurnBy::starter);
  std::mt19937 random(7);
  double crank_deg = 35;
  int turns = 0;
  for (; turns < 100; ++turns) {
    ASSERT_NO_FATAL_FAILURE(work_on(h, crank_deg));
    if (h.advice().stage == Stage::finished) break;
    EXPECT_TRUE(h.says("No bump: this engine has no starter that can be bumped (hybrid)."));
    for (const Item& item : h.items().items) {
      EXPECT_EQ(item.label.find("ump"), std::string::npos) << item.label;
      EXPECT_EQ(item.label.find("beep"), std::string::npos) << item.label;
    }
    if (h.advice().stage == Stage::mark) {
      crank_deg = crank_deg < 360 ? 360 : 0;
      h.click("wide");
      continue;
    }
    const Turned turn = std::get<Turned>(h.advice().wide.tells.front());
    crank_deg =
        wrap_deg(crank_deg + std::uniform_real_distribution<double>(turn.min_deg, turn.max_deg)(random));
    h.click("wide");
  }
  EXPECT_EQ(h.advice().stage, Stage::finished);
  EXPECT_GE(turns, 1);
}

TEST(BumpAtWork, WhatBumpsCannotFinishIsTurnedByWrench) {
  Harness h;
  h.open("inline-six", {}, TurnBy::starter);
  JobRules rules = h.now().document.rules;
  rules.margin_deg = 240;
  h.queue(SetRules{rules, ""});
  ASSERT_NO_FATAL_FAILURE(work_on(h, 35));
  h.wait_for_desk();
  EXPECT_TRUE(h.says("No bump: turn by wrench."));
  EXPECT_TRUE(h.says("too short for ports 1, 2, 3, 4, 5 and 6"));
  h.click("Turn by wrench instead");
  EXPECT_EQ(h.now().document.rules.turn_by, TurnBy::wrench);
  EXPECT_EQ(h.now().document.rules.accuracy_deg, 60);
  EXPECT_TRUE(h.advice().stage == Stage::mark || h.advice().stage == Stage::turn) << h.wide();
}

/// Fewest places, a degree apart, that between them reach every port left whatever the crank does within what
/// is known of it and the wrench's own inaccuracy: tried out one by one.
size_t turns_needed(const Snapshot& s) {
  std::vector<size_t> left;
  for (size_t i = 0; i < s.job.ports.size(); ++i)
    if (s.job.ports[i].left()) left.push_back(i);
  double gap_deg = 0;
  const ArcSet gaps = s.advice.where.complement();
  for (const Arc& arc : gaps.arcs()) gap_deg = std::max(gap_deg, arc.length_deg);
  const double off_deg = 60 + (720 - gap_deg) / 2;
  std::vector<unsigned> places;
  for (int deg = 0; deg < 720; ++deg) {
    unsigned here = 0;
    for (size_t i = 0; i < left.size(); ++i)
      here |= unsigned(s.model->windows[left[i]].sure.covers(Arc{wrap_deg(deg - off_deg), 2 * off_deg})) << i;
    places.push_back(here);
  }
  const unsigned all = (1u << left.size()) - 1;
  for (const unsigned a : places)
    if (a == all) return 1;
  for (const unsigned a : places)
    for (const unsigned b : places)
      if ((a | b) == all) return 2;
  return 3;
}

/// Both at hand: the first move from an unknown angle is a bump, and the wrench finishes as soon as the crank
/// is known well enough. How many turns that takes is counted on its own.
TEST(BumpAtWork, WithAWrenchAtHandTheWrenchFinishes) {
  int by_wrench = 0;
  for (unsigned job = 0; job < 8; ++job) {
    SCOPED_TRACE(job);
    Harness h;
    h.click("6");
    h.click("engine inline-six");
    h.click("Starter, and a wrench");
    h.click("wide");  // the job
    h.click("wide");  // the cautions
    h.click("wide");  // those of bumps
    ASSERT_EQ(h.now().document.rules.turn_by, TurnBy::starter);
    ASSERT_TRUE(h.now().document.rules.wrench_too);
    std::mt19937 random(job);
    double crank_deg = 0;
    bool advised = false;
    for (int bumps = 0; bumps < 30 && !advised; ++bumps) {
      crank_deg = std::uniform_real_distribution<double>(0, 720)(random);
      ASSERT_NO_FATAL_FAILURE(work_on(h, crank_deg));
      if (h.advice().stage == Stage::finished) break;
      h.wait_for_desk();
      advised = h.wide() == "Go on by wrench";
      if (advised) break;
      EXPECT_TRUE(h.says("Bump the starter: press 0."));
      h.click("bumped");
    }
    if (!advised) continue;
    ++by_wrench;
    const size_t turns = turns_needed(h.now());
    EXPECT_TRUE(h.says("No bump now: finish by wrench."));
    EXPECT_TRUE(
        h.says(turns == 1 ? "One turn by wrench will do" : std::to_string(turns) + " turns by wrench"));
    EXPECT_TRUE(h.has("bumped")) << "the starter may be used all the same";
    h.click("Go on by wrench");
    EXPECT_EQ(h.now().document.rules.turn_by, TurnBy::wrench);
    EXPECT_EQ(h.now().document.rules.accuracy_deg, 60);
    EXPECT_TRUE(h.advice().stage == Stage::mark || h.advice().stage == Stage::turn) << h.wide();
    h.press(KeyPress{Key::z, false, true});
    EXPECT_EQ(h.now().document.rules.turn_by, TurnBy::starter);
  }
  EXPECT_GE(by_wrench, 3);
}

/// Nothing can be seen: no turn can be aimed, so the starter comes first.
TEST(BumpAtWork, AWrenchAtHandDoesNotAimFromAnUnknownAngle) {
  Harness h;
  h.open("inline-six", {}, TurnBy::starter);
  JobRules rules = h.now().document.rules;
  rules.wrench_too = true;
  h.queue(SetRules{rules, ""});
  for (const JobPort& port : start_job(*h.now().model).ports) h.log(LookedInto{port.cylinder, Saw::hidden});
  h.log(SuckedOut{});
  h.log(PortsEmptied{});
  h.log(BungsCounted{});
  ASSERT_EQ(h.advice().stage, Stage::bump);
  h.wait_for_desk();
  const BumpView view = h.viewer.ui().bump->desk.view();
  ASSERT_TRUE(view.mixed && view.plan) << view.no_bump;
  EXPECT_FALSE(view.mixed->wrench_first);
  EXPECT_TRUE(h.says("Bump the starter: press 0."));
  EXPECT_EQ(h.wide(), "Start the beeps");
  EXPECT_LE(view.mixed->expected_moves, view.mixed->expected_bumps_only + 1e-9);
}

TEST(BumpAtWork, IdleCostsNoFrames) {
  Harness h;
  ASSERT_NO_FATAL_FAILURE(to_first_bump(h));
  h.run_for(2);  // buttons come back a while after a press
  EXPECT_FALSE(h.viewer.ui().wake_after_s());
  h.click("Start the beeps");
  h.run_for(1);
  EXPECT_TRUE(h.viewer.ui().wake_after_s()) << "the bar moves";
  h.run_for(5);
  EXPECT_FALSE(h.viewer.ui().wake_after_s());
}

}  // namespace
}  // namespace shutlane
