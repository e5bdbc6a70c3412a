// The Work bench clicked through as a technician does, the job's state asserted after each step.
#include "tests/window/harness.hpp"
#include "ui/window/saved/state_file.hpp"

namespace shutlane {
namespace {

/// Presses what the window offers until the job is finished; gives the number of turns made.
int play_demo(Harness& h, double crank_deg, bool marked, int most_steps = 200) {
  int turns = 0;
  for (int step = 0; step < most_steps && h.advice().stage != Stage::finished; ++step) {
    const Advice advice = h.advice();
    if (advice.stage == Stage::blasting) {
      EXPECT_FALSE(h.open_at(advice.port, crank_deg)) << "port " << advice.port << " at " << crank_deg;
    }
    if (advice.stage == Stage::mark) {
      turns += advice.move->anywhere ? 0 : 1;
      if (marked) crank_deg = wrap_deg(crank_deg >= 360 ? 0 : 360);
      h.click(marked ? "wide" : "no mark");
      continue;
    }
    if (advice.stage == Stage::turn) {
      const Turned turn = std::get<Turned>(advice.wide.tells.front());
      crank_deg = wrap_deg(crank_deg + (turn.min_deg + turn.max_deg) / 2);
      ++turns;
    }
    h.answer(crank_deg);
  }
  return turns;
}

TEST(Work, WholeDemoJobByClicks) {
  for (const bool marked : {true, false}) {
    Harness h;
    h.open_demo();
    ASSERT_TRUE(h.now().document.demo);
    ASSERT_EQ(h.advice().stage, Stage::mark) << "the mark leads";
    const int turns = play_demo(h, 35, marked);
    EXPECT_EQ(h.advice().stage, Stage::finished);
    EXPECT_EQ(h.advice().done, 6);
    EXPECT_EQ(h.advice().sentence, "All ports are done.");
    EXPECT_EQ(h.now().job.cost.looks_into_open_ports_after_blasting, 0);
    if (marked) {
      EXPECT_EQ(turns, 1);
      EXPECT_LE(h.now().job.cost.looks, 8);
    }
    EXPECT_LE(turns, 3);
  }
}

/// Looks that nobody made were logged where an answer came to lie under the action pressed before.
TEST(Work, NoAnswerLiesWhereTheAdvisedActionLay) {
  for (const auto& [width, height] : {std::pair{1600, 1000}, {1280, 720}})
    for (const bool marked : {true, false}) {
      Harness h(width, height);
      h.open("inline-six");
      double crank_deg = marked ? 0 : 35;
      Box last{};
      int compared = 0;
      for (int step = 0; step < 120 && h.advice().stage != Stage::finished; ++step) {
        const Stage stage = h.advice().stage;
        if (stage == Stage::look && last.w > 0) {
          const Box shut = h.need("answer 1").box;
          EXPECT_TRUE(last.right() <= shut.x || shut.right() <= last.x) << "step " << step;
          ++compared;
        }
        last = {};
        if (stage == Stage::mark) {
          if (!marked || !h.advice().move->anywhere) crank_deg = wrap_deg(crank_deg + 360);
          last = h.need(marked ? "wide" : "no mark").box;
          h.click(marked ? "wide" : "no mark");
          continue;
        }
        if (stage == Stage::turn) {
          const Turned turn = std::get<Turned>(h.advice().wide.tells.front());
          crank_deg = wrap_deg(crank_deg + (turn.min_deg + turn.max_deg) / 2);
        }
        if (stage != Stage::look && stage != Stage::unseen)
          last = h.need(stage == Stage::chalk && h.advice().wide.label.empty() ? "in line" : "wide").box;
        h.answer(crank_deg);
      }
      EXPECT_GE(compared, 3);
    }
}

/// At the count one bung is not there: the crank does not turn before it is.
TEST(Work, AMissingBungStopsTheTurn) {
  Harness h;
  h.open("inline-six");
  for (int port = 1; port <= 6; ++port) h.log(Reachable{port, false});
  h.click("wide");
  h.click("one is missing");
  EXPECT_EQ(h.advice().stage, Stage::missing);
  EXPECT_EQ(h.advice().sentence, "A bung is missing. The crank must not turn.");
  h.click("wide");
  EXPECT_EQ(h.advice().stage, Stage::finished);
}

TEST(Work, ACrankWithoutAMarkIsNotAskedForItAgain) {
  Harness h;
  h.open("inline-six");
  h.click("no mark");
  EXPECT_EQ(h.advice().stage, Stage::look);
  const auto saved = from_json(to_json(h.now().document));
  ASSERT_TRUE(std::holds_alternative<Document>(saved));
  Harness back;
  back.session.restore(std::get<Document>(saved));
  back.queue(OpenEngine{"v8-cross-plane"});
  back.queue(ShowPage{Page::none});
  EXPECT_EQ(back.advice().stage, Stage::mark) << "another engine";
  back.queue(OpenEngine{"inline-six"});
  back.queue(ShowPage{Page::none});
  EXPECT_EQ(back.advice().stage, Stage::look);
}

/// The six with its mark read at 35 degrees: 3 and 6 seen open, 1 seen shut and to be blasted.
void see_one_shut(Harness& h) {
  h.log(MarkRead{35, 2});
  for (const int port : {3, 6}) h.log(LookedInto{port, Saw::open});
  h.log(ChalkSeen{true});
  h.log(LookedInto{1, Saw::shut});
}

// A glove left on a key repeats it, as every window system does; nothing is logged that nobody did.
TEST(Work, AHeldKeyIsOnePress) {
  for (const Key key : {Key::enter, Key::space, Key::q, Key::w, Key::e, Key::a}) {
    Harness h;
    h.open_demo();
    if (key == Key::enter || key == Key::space)  // these answer no look; here they say what is being done
      see_one_shut(h);
    else
      h.log(NoMark{});
    h.rest();
    const size_t before = h.now().document.events.size();
    for (int repeat = 0; repeat < 40; ++repeat) {
      h.viewer.input.push(KeyChanged{{key}, true});
      h.settle();
    }
    EXPECT_EQ(h.now().document.events.size(), before + 1);
    h.viewer.input.push(KeyChanged{{key}, false});
    h.settle();
    h.press(key);
    EXPECT_EQ(h.now().document.events.size(), before + 2) << "let go, it can be pressed again";
  }
}

// Enter says "go on" everywhere else; a valve is seen shut or open only by who looked.
TEST(Work, EnterAnswersNoLook) {
  Harness h;
  h.open_demo();
  h.log(NoMark{});
  ASSERT_EQ(h.advice().stage, Stage::look);
  const size_t before = h.now().document.events.size();
  h.press(Key::enter);
  h.press(Key::space);
  EXPECT_EQ(h.now().document.events.size(), before);
  const Box shut = h.need("shut").box, open = h.need("open").box;
  EXPECT_NEAR(shut.w, open.w, 1e-9) << "neither answer is suggested";
  EXPECT_NEAR(shut.h, open.h, 1e-9);
  h.press(Key::e);
  EXPECT_EQ(h.face(1), Face::open);
  h.press(Key::d);  // undo
  h.press(Key::q);
  EXPECT_EQ(h.face(1), Face::seen_shut);
}

/// Where two places of the crank's mark do, stopping there is the shortest way; each is one press.
TEST(Work, ByTheMarkOfTheCrank) {
  Harness h;
  h.open("inline-four");
  EXPECT_TRUE(h.says("Turn to the TDC mark of cylinder 1 and let go: does it stay?"));
  h.click("no mark");
  EXPECT_EQ(h.advice().stage, Stage::look);
  h.click("undo");
  h.click("Mark in line, it stays");
  EXPECT_EQ(h.now().document.events.back().event, JobEvent(MarkRead{0, kMarkReads_deg}));
  for (int step = 0; h.advice().stage != Stage::mark && step < 40; ++step) h.answer(0);
  ASSERT_EQ(h.advice().stage, Stage::mark) << h.advice().sentence;
  EXPECT_GE(h.advice().done, 1);
  const size_t before = h.now().document.events.size();
  h.click("Turned: mark in line");
  EXPECT_EQ(h.now().document.events.size(), before + 2);
  EXPECT_EQ(h.advice().stage, Stage::chalk);
}

TEST(Work, ABlastThatWasCutOffAsksForALookBeforeItGoesOn) {
  Harness h;
  h.open("inline-six");
  see_one_shut(h);
  h.log(BlastStarted{1});
  h.queue(ShowPage{Page::came_back});
  EXPECT_TRUE(h.says("Port 1 was being blasted"));
  h.press(Key::w);
  EXPECT_EQ(h.now().document.events.back().event, JobEvent(BlastStopped{1}));
  EXPECT_EQ(h.advice().stage, Stage::chalk) << "has the crank moved?";
  h.click("in line");
  EXPECT_EQ(h.advice().stage, Stage::look);
  EXPECT_TRUE(h.says("It was stopped, not done: suck it out first.")) << h.advice().second;
}

TEST(Work, ANewJobCanBeTakenBack) {
  Harness h;
  h.open("inline-six");
  h.log(LookedInto{1, Saw::shut});
  h.queue(StartOver{});
  EXPECT_TRUE(h.now().document.events.empty());
  EXPECT_NE(h.now().message.find("Undo"), std::string::npos);
  h.click("undo");
  EXPECT_EQ(h.now().document.events.size(), 1u);
}

// Four taps in eight seconds went from "sucked out" past the count of the plugs.
TEST(Work, WhatTakesAMinuteIsNotSaidInASecond) {
  Harness h;
  h.open("inline-six");
  h.settle();
  for (int port = 1; port <= 6; ++port) h.log(Reachable{port, false});
  ASSERT_EQ(h.advice().stage, Stage::clear) << h.advice().sentence;
  const size_t before = h.now().document.events.size();
  const auto enter = [&] {
    h.viewer.input.push(KeyChanged{{Key::enter}, true});
    h.viewer.input.push(KeyChanged{{Key::enter}, false});
    h.settle();
  };
  h.run_for(1);
  enter();
  EXPECT_EQ(h.now().document.events.size(), before);
  h.run_for(1);
  enter();
  EXPECT_EQ(h.now().document.events.size(), before + 1);
  h.run_for(1);
  enter();
  EXPECT_EQ(h.now().document.events.size(), before + 1) << "nor is the next";
}

/// A key takes back a step of the list, not the abrasive in the port.
TEST(Work, UndoKeepsLooseAbrasive) {
  Harness h;
  h.open("inline-six");
  h.log(Turned{300, 420});
  see_one_shut(h);
  h.log(BlastStarted{1});
  const size_t looks = h.now().document.events.size() - 2;  // the chalk among them
  h.queue(Undo{});
  EXPECT_EQ(h.now().document.events.back().event, JobEvent(AbrasiveLeft{1}));
  EXPECT_FALSE(h.now().job.blasting);
  for (size_t i = 0; i < looks; ++i) h.queue(Undo{});
  EXPECT_EQ(h.now().document.events.size(), 2u) << "the turn, and what lies in the port";
  EXPECT_EQ(h.advice().sentence, "Suck out all 6 ports.");
  h.queue(Undo{});
  h.queue(Undo{});
  h.queue(StartOver{});
  h.queue(OpenEngine{"v8-cross-plane"});
  EXPECT_EQ(h.now().document.engine_name, "inline-six") << "another engine would forget it";
  EXPECT_NE(h.now().message.find("port 1"), std::string::npos) << h.now().message;
  h.log(CrankMoved{});
  EXPECT_EQ(h.advice().stage, Stage::inside);
  h.queue(Undo{});
  EXPECT_NE(h.now().message.find("press M"), std::string::npos) << h.now().message;
  Document saved = h.now().document;
  h.session.restore(saved);
  h.settle();
  EXPECT_TRUE(h.now().job.find(1)->loose);
  h.log(SuckedOut{});
  h.queue(OpenEngine{"v8-cross-plane"});
  EXPECT_EQ(h.now().document.engine_name, "v8-cross-plane");
}

TEST(Work, UndoOfABlastOrATurnAsksWhatReallyHappened) {
  Harness h;
  h.open("inline-six");
  see_one_shut(h);
  h.log(BlastStarted{1});
  h.queue(Undo{});
  EXPECT_NE(h.now().message.find("Port 1 counts as not sucked out"), std::string::npos) << h.now().message;
  h.queue(Undo{});
  EXPECT_EQ(h.now().message, "Taken back: the look into port 1.");
  h.log(SuckedOut{});
  h.log(Turned{350, 370});
  h.queue(Undo{});
  EXPECT_NE(h.now().message.find("press M"), std::string::npos);
}

// Undo is pressed as clumsily as everything else.
TEST(Work, ARowOfClicksTakesBackOneStep) {
  Harness h;
  h.open("inline-six");
  for (const int port : {1, 2, 3}) h.log(LookedInto{port, Saw::hidden});
  const Box b = h.need("undo").box;
  for (int click = 0; click < 3; ++click) {
    h.click_at({b.x + b.w / 2, b.y + b.h / 2});
    h.run_for(0.3);
  }
  EXPECT_EQ(h.now().document.events.size(), 2u);
}

// Three clicks in a tenth of a second, as a glove makes them, are one: "seen shut", "start" and "done" come
// to lie under the same finger.
TEST(Work, ATripleClickIsOnePress) {
  Harness h;
  h.open_demo();
  h.log(MarkRead{35, 2});
  for (const int port : {3, 6}) h.log(LookedInto{port, Saw::open});
  h.log(ChalkSeen{true});
  const Box b = h.need("shut: blasting").box;
  const size_t before = h.now().document.events.size();
  for (int click = 0; click < 3; ++click) h.click_at({b.x + b.w / 2, b.y + b.h / 2});
  EXPECT_EQ(h.now().document.events.size(), before + 2) << "the look, and the blast that follows it";
  EXPECT_EQ(h.advice().stage, Stage::blasting);
  h.rest();
  for (int press = 0; press < 3; ++press) {
    h.viewer.input.push(KeyChanged{{Key::m}, true});
    h.viewer.input.push(KeyChanged{{Key::m}, false});
    h.settle();
  }
  EXPECT_EQ(h.now().document.events.size(), before + 3) << "and the crank moved";
}

TEST(Work, TheCrankMovedOverLooseAbrasiveStopsEverything) {
  Harness h;
  h.open("inline-six");
  see_one_shut(h);
  h.click("Port 1: start");
  h.click("crank moved");
  EXPECT_EQ(h.advice().sentence, "Stop. Abrasive may be in cylinder 1.");
  EXPECT_EQ(h.face(1), Face::suspect);
  const Box clean = h.items().by_id("answer 1")->box;
  h.run_for(1);
  h.click_at({clean.x + clean.w / 2, clean.y + clean.h / 2});
  EXPECT_EQ(h.face(1), Face::suspect) << "nobody has read that yet";
  h.click("Port 2");
  EXPECT_EQ(h.advice().stage, Stage::inside) << "no other port is offered before";
  h.log(BlastStarted{1});
  EXPECT_FALSE(h.now().job.blasting);
  h.click("parked until tomorrow");
  EXPECT_TRUE(h.advice().sentence.starts_with("Parked: ")) << h.advice().sentence;
  EXPECT_FALSE(h.has("parked until tomorrow"));
  h.click("found some: sucked out");
  EXPECT_EQ(h.advice().stage, Stage::clear) << "the crank moved, and it still lies there";
  h.click("wide");
  EXPECT_EQ(h.advice().stage, Stage::clear)
      << "the bungs are in: they come out before it is turned to its mark";
  EXPECT_EQ(h.face(1), Face::look);
}

// A row of clicks is one press however slow the row is, up to half a second from one to the next.
TEST(Work, ASlowRowOfClicksIsOnePress) {
  Harness h;
  h.open_demo();
  const Box b = h.need("wide").box;
  const size_t before = h.now().document.events.size();
  for (int click = 0; click < 5; ++click) {
    h.click_at({b.x + b.w / 2, b.y + b.h / 2});
    h.run_for(0.25);
  }
  EXPECT_EQ(h.now().document.events.size(), before + 1);
}

/// Looks of yesterday are worth nothing if somebody has turned the crank since.
TEST(CameBack, AsksWhetherTheCrankHasMoved) {
  for (const Key answer : {Key::enter, Key::q, Key::w}) {
    Harness h;
    h.open("inline-six");
    h.log(LookedInto{1, Saw::shut});
    h.queue(ShowPage{Page::came_back});
    EXPECT_TRUE(h.says("Has the crank moved meanwhile?"));
    h.press(answer);
    EXPECT_EQ(h.now().page, answer == Key::enter ? Page::came_back : Page::none);
    EXPECT_EQ(h.now().job.find(1)->seen.has_value(), answer != Key::q);
  }
}

TEST(CameBack, FromAPressAsksWhetherItTurned) {
  for (const char* answer : {"It may have turned", "Not pressed"}) {
    Harness h;
    h.open("inline-six", {}, TurnBy::starter);
    h.log(LookedInto{1, Saw::shut});
    h.log(PressStarted{0.2});
    h.queue(ShowPage{Page::came_back});
    EXPECT_TRUE(h.says("Did the crank turn?"));
    h.click(answer);
    EXPECT_EQ(h.now().page, Page::none);
    EXPECT_EQ(h.now().job.find(1)->seen.has_value(), answer == std::string("Not pressed"));
  }
}

TEST(Work, ANewJobDoesNotForgetLooseAbrasive) {
  Harness h;
  h.open("inline-six");
  see_one_shut(h);
  h.click("Port 1: start");
  h.click("Done, sucked out, bung in");
  const size_t before = h.now().document.events.size();
  h.click("Menu");
  h.click("New job");
  EXPECT_EQ(h.now().document.events.size(), before);
  EXPECT_NE(h.now().message.find("port 1"), std::string::npos) << h.now().message;
  h.log(SuckedOut{});
  h.queue(StartOver{});
  EXPECT_TRUE(h.now().document.events.empty());
}

TEST(Work, UndoAtEveryStepGivesTheFrameBefore) {
  Harness h;
  h.open_demo();
  h.log(NoMark{});
  const auto said = [&] { return h.advice().sentence + h.advice().second + h.advice().wide.label; };
  std::vector<std::string> sentences;     // before each event: a press may tell two
  for (int step = 0; step < 7; ++step) {  // no blast yet: what that leaves in a port, undo does not take back
    const size_t before = h.now().document.events.size();
    const std::string now = said();
    h.answer(35);
    for (size_t told = before; told < h.now().document.events.size(); ++told)
      sentences.push_back(told == before ? now : "");
  }
  for (size_t i = sentences.size(); i-- > 0;) {
    h.press(KeyPress{Key::z, false, true});
    if (!sentences[i].empty()) {
      EXPECT_EQ(said(), sentences[i]) << "step " << i;
    }
  }
  for (const std::string& sentence : sentences) {
    if (!sentence.empty()) {
      EXPECT_EQ(said(), sentence);
    }
    h.press(KeyPress{Key::y, false, true});
  }
}

TEST(Work, CrankMovedWipesEverySeen) {
  Harness h;
  h.open_demo();
  see_one_shut(h);
  ASSERT_EQ(h.advice().stage, Stage::blast);
  h.click("crank moved");
  EXPECT_TRUE(h.advice().where.full());
  for (const PortView& port : h.advice().ports) EXPECT_EQ(port.face, Face::look) << port.cylinder;
  EXPECT_EQ(h.advice().stage, Stage::clear) << "then on to the mark";
}

TEST(Work, CrankMovedWhileBlastingLeavesThePortUndone) {
  Harness h;
  h.open("inline-six");
  see_one_shut(h);
  h.click("Port 1: start");
  ASSERT_EQ(h.face(1), Face::blasting);
  h.press(Key::m);
  EXPECT_EQ(h.face(1), Face::suspect);
  EXPECT_FALSE(h.now().job.blasting);
}

TEST(Work, AReckonedPortIsNeverShownAsSeen) {
  Harness h;
  h.open("inline-six");
  h.log(MarkRead{35, 2});
  h.log(LookedInto{3, Saw::open});
  for (const PortView& port : h.advice().ports)
    if (port.cylinder != 3) {
      EXPECT_FALSE(port.seen);
      EXPECT_NE(port.face, Face::seen_shut);
    }
}

TEST(Work, ADoubleClickPicksAPort) {
  Harness h;
  h.open("inline-six");
  const Box b = h.need("Port 4").box;
  for (int click = 0; click < 2; ++click) h.click_at({b.x + b.w / 2, b.y + b.h / 2});
  EXPECT_EQ(h.now().picked, 4);
  h.click("Port 4");
  EXPECT_FALSE(h.now().picked);
}

TEST(Work, RareThingsAreOnePressOnThePort) {
  Harness h;
  h.open("v8-cross-plane");
  h.click("Port 4");
  EXPECT_EQ(h.now().picked, 4);
  h.click("not today");
  EXPECT_EQ(h.face(4), Face::out_of_reach);
  h.click("Port 4");
  h.click("Port 4: take it in again");
  EXPECT_EQ(h.face(4), Face::look);
  h.click("Menu");
  h.click("Only bank: left");
  int left_out = 0;
  for (const PortView& port : h.advice().ports) left_out += port.face == Face::left_out ? 1 : 0;
  EXPECT_EQ(left_out, 4);
}

TEST(Work, WhileTheNeedleIsOutNothingIsAdvisedOrLogged) {
  Harness h;
  h.open("inline-six");
  h.queue(MoveWhatIf{200});
  EXPECT_EQ(h.wide(), "Put the needle back");
  const size_t before = h.now().document.events.size();
  h.press(Key::m);
  h.log(LookedInto{1, Saw::shut});
  EXPECT_EQ(h.now().document.events.size(), before);
  h.click("wide");
  EXPECT_FALSE(h.now().what_if_deg);
  EXPECT_EQ(h.wide(), "Mark in line, it stays");
}

TEST(Work, TwoDigitsPickAPortOfTwelve) {
  Harness h;
  h.open("v12");
  h.press(Key::digit1);
  EXPECT_EQ(h.now().picked, 1);
  h.press(Key::digit2);
  EXPECT_EQ(h.now().picked, 12);
  h.press(Key::escape);
  EXPECT_FALSE(h.now().picked);
}

TEST(Start, ThreeQuestions) {
  Harness h;
  EXPECT_FALSE(h.has("Back to the job"));
  h.click("8");
  h.click("V8 4.4, cross-plane crank");
  h.click("Starter by remote switch");
  h.click("Start the job");
  EXPECT_EQ(h.now().document.engine->cylinders.size(), 8u);
  EXPECT_EQ(h.now().document.rules.turn_by, TurnBy::starter);
  EXPECT_EQ(h.now().document.rules.accuracy_deg, 360);
  EXPECT_FALSE(h.now().document.demo);
}

// A double click on "Start the job" must not leaf past the cautions; with the starter there are two pages.
TEST(Start, TheCautionsAreReadBeforeAJob) {
  Harness h;
  h.click("8");
  h.click("V8 4.4, cross-plane crank");
  h.click("Starter by remote switch");
  const Box b = h.need("Start the job").box;
  for (int click = 0; click < 3; ++click) h.click_at({b.x + b.w / 2, b.y + b.h / 2});
  EXPECT_EQ(h.now().page, Page::cautions);
  h.press(Key::enter);
  EXPECT_EQ(h.now().page, Page::bump_cautions);
  h.click("Read and heeded: begin");
  EXPECT_EQ(h.now().page, Page::none);
  EXPECT_TRUE(h.now().document.events.empty());
  h.click("Menu");
  h.click("Cautions");
  EXPECT_EQ(h.now().page, Page::cautions);
}

// A trainer needs no cautions to show a timeline, but Work is never shown before they were read.
TEST(Start, TeachNeedsNoJobAndWorkNeedsTheCautions) {
  Harness h;
  h.click("Teach and explore");
  EXPECT_EQ(h.now().page, Page::none);
  EXPECT_EQ(h.now().document.bench, Bench::teach);
  h.click("Menu");
  h.click("Menu");
  EXPECT_EQ(h.now().document.bench, Bench::teach);
  h.click("Work");
  EXPECT_EQ(h.now().page, Page::cautions);
  h.click("Explore");
  EXPECT_EQ(h.now().page, Page::none);
  h.click("Work");
  EXPECT_EQ(h.now().page, Page::cautions) << "they were not read";
  h.click("Menu");
  h.click("Back to the job");
  EXPECT_EQ(h.now().page, Page::cautions);
  h.click("Read and heeded: begin");
  EXPECT_EQ(h.now().page, Page::none);
  h.click("Teach");
  h.click("Work");
  EXPECT_EQ(h.now().page, Page::none) << "once is enough";
}

TEST(Start, EnginesThatAreSafeWithoutDataComeFirst) {
  Harness h;
  h.click("6");
  bool invented = false;
  for (const Item& item : h.items().items) {
    if (!item.id.starts_with("engine ")) continue;
    const bool any = item.id.starts_with("engine any-");
    EXPECT_FALSE(any && invented) << item.id;
    invented = invented || !any;
  }
  EXPECT_TRUE(invented);
}

TEST(Work, InventedNumbersAreMarkedOutsideTheDemoToo) {
  auto marked = [](const std::string& engine) {
    Harness h;
    h.open(engine);
    for (const TextItem& text : h.items().texts)
      if (text.text.find("INVENTED") != std::string::npos) return true;
    return false;
  };
  EXPECT_TRUE(marked("v8-cross-plane"));
  EXPECT_FALSE(marked("any-inline-six"));
}

TEST(Work, ArrowKeysGoToTheNearestItem) {
  Harness h;
  h.open("v8-cross-plane");
  h.press(Key::up);  // from the wide button
  ASSERT_TRUE(h.viewer.ui().focus().starts_with("port ")) << h.viewer.ui().focus();
  const Box lower = h.need(h.viewer.ui().focus()).box;
  h.press(Key::up);
  const Box upper = h.need(h.viewer.ui().focus()).box;
  EXPECT_LT(upper.bottom(), lower.y + 1);
  EXPECT_NEAR(upper.x, lower.x, 1);
  h.press(Key::right);
  const Box right = h.need(h.viewer.ui().focus()).box;
  EXPECT_GT(right.x, upper.x);
  EXPECT_NEAR(right.y, upper.y, 1);
  const std::string port = h.viewer.ui().focus();
  h.press(Key::enter);
  EXPECT_EQ("port " + std::to_string(h.now().picked.value_or(0)), port);
}

TEST(Work, OneKeyLeavesABankOutAndTakesItIn) {
  Harness h;
  h.open("v8-cross-plane");
  h.press(Key::b);
  EXPECT_EQ(h.now().job.only_bank, 0u);
  h.press(Key::b);
  EXPECT_EQ(h.now().job.only_bank, 1u);
  h.press(Key::b);
  EXPECT_FALSE(h.now().job.only_bank);
}

/// The last of the three buttons never changes what a port is: a glove that knows its place takes nothing
/// out.
TEST(Work, TheLastButtonIsUndoOrBack) {
  Harness h;
  h.open("inline-six");
  for (int n = 0; n < 2; ++n) {
    const Press& last = h.advice().beside[2];
    EXPECT_TRUE(last.does == Press::Does::undo || last.does == Press::Does::back);
    h.click("Port 4");
  }
}

TEST(Start, AFileThatIsNoEngineSaysSoInOneLine) {
  Harness h;
  h.viewer.input.push(FileDropped{"/nonexistent/engine.toml"});
  h.settle();
  EXPECT_FALSE(h.now().document.engine);
  EXPECT_FALSE(h.now().message.empty());
  EXPECT_EQ(h.now().message.find('\n'), std::string::npos);
  bool shown = false;
  for (const TextItem& text : h.items().texts) shown = shown || h.now().message.starts_with(text.text);
  EXPECT_TRUE(shown) << h.now().message;
  h.viewer.input.push(FileDropped{std::string(SHUTLANE_SOURCE) + "/engines/flat-four.toml"});
  h.settle();
  ASSERT_TRUE(h.now().document.engine);
  EXPECT_EQ(h.now().document.engine->cylinders.size(), 4u);
  EXPECT_TRUE(h.now().message.empty());
}

TEST(Settings, ASmallerMarginAsksForAReason) {
  Harness h;
  h.open("inline-six");
  h.press(Key::f10);
  h.click("margin 5\u00b0");
  EXPECT_EQ(h.now().document.rules.margin_deg, 10) << "lowered without a reason";
  h.click("cam marks checked");
  EXPECT_EQ(h.now().document.rules.margin_deg, 5);
  EXPECT_EQ(h.now().document.margin_reason, "cam marks checked");
  h.queue(SetRules{{0, 10, 0.5, TurnBy::wrench}, ""});
  EXPECT_EQ(h.now().document.rules.margin_deg, 5);
}

}  // namespace
}  // namespace shutlane
