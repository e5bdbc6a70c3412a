// What the job says, step by step, and that its reckoning agrees with the contract's `locate` where both
// answer.
#include "sim/job/advice.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "sim/witness/locate.hpp"
#include "tests/job/engines_for_jobs.hpp"

namespace shutlane {
namespace {

Advice advice_after(const JobModel& model, const std::vector<JobEvent>& events) {
  return advise(model, fold(model, events));
}

std::vector<int> with_face(const Advice& advice, Face face) {
  std::vector<int> found;
  for (const PortView& port : advice.ports)
    if (port.face == face) found.push_back(port.cylinder);
  return found;
}

/// The six of the documentation, its crank mark read at 35 degrees: 1, 2, 4 and 5 are to be worked here, 3
/// and 6 a full turn on, as the contract's example says.
class MarkedSix : public ::testing::Test {
 protected:
  /// The two witnesses alone decide: what is asserted here is the course and its words. The limit of doubt
  /// has its own tests (doubt_test.cpp, whole_jobs_test.cpp), and so has the way back to the mark below.
  MarkedSix() { model.mark_suffices = false; }
  JobModel model = make_job_model(inline_six(), {10, 10, 0.5, TurnBy::wrench, 1});
  std::vector<JobEvent> events{MarkRead{35, 0.5}, LookedInto{3, Saw::open}, LookedInto{6, Saw::open},
                               ChalkSeen{true}};
  void add(std::initializer_list<JobEvent> more) { events.insert(events.end(), more); }
  void work(std::initializer_list<int> ports) {
    for (const int port : ports)
      add({LookedInto{port, Saw::shut}, BlastStarted{port}, PortDone{port}, ChalkSeen{true}});
  }
  Advice now() const { return advice_after(model, events); }
};

std::vector<std::string> labels(const std::vector<Press>& presses) {
  std::vector<std::string> found;
  for (const Press& press : presses) found.push_back(press.label);
  return found;
}

TEST_F(MarkedSix, LooksIntoWhatTheContractsPlanBlasts) {
  const Advice a = now();
  EXPECT_EQ(a.stage, Stage::look);
  EXPECT_EQ(a.sentence, "Look into port 1.");
  EXPECT_EQ(
      a.second,
      "It is reckoned shut. Shut all round the seat? Then blast it at once. Then 2, 4 and 5, in the same "
      "way.");
  EXPECT_EQ(a.wide.label, "") << "nothing but answers, and none of them lies there";
  EXPECT_EQ(labels(a.answers), (std::vector<std::string>{"shut: blasting", "a hair open, not sure", "open"}));
  EXPECT_EQ(with_face(a, Face::open), (std::vector<int>{3, 6}));
  EXPECT_EQ(a.position, 1);
  EXPECT_EQ(a.positions, 2);
  ASSERT_EQ(a.ahead.size(), 1u);
  EXPECT_NEAR(a.ahead[0].at_deg, 395, 1.0);
  EXPECT_EQ(a.ahead[0].blast, (std::vector<int>{3, 6}));
}

/// One press tells the look and the start; the blast goes where the look went.
TEST_F(MarkedSix, ALookThatSaysShutGoesStraightOnToTheBlast) {
  const Press shut = now().answers.front();
  EXPECT_EQ(shut.tells, (std::vector<JobEvent>{LookedInto{1, Saw::shut}, BlastStarted{1}}));
  add({shut.tells[0], shut.tells[1]});
  EXPECT_EQ(now().stage, Stage::blasting);
  EXPECT_EQ(now().sentence, "Blasting port 1.");
  EXPECT_EQ(now().wide.label, "Done, sucked out, bung in");
  EXPECT_EQ(now().beside[0].tells, std::vector<JobEvent>{BlastStopped{1}});
}

TEST_F(MarkedSix, SaysWhatFollows) {
  work({1, 2, 4});
  const Advice a = now();
  EXPECT_EQ(a.sentence, "Look into port 5.");
  EXPECT_EQ(
      a.second,
      "It is reckoned shut. Shut all round the seat? Then blast it at once. After it: one full turn of the "
      "crank, then 3 and 6.");
  EXPECT_EQ(with_face(a, Face::done), (std::vector<int>{1, 2, 4}));
}

/// One page with three lines, ticked one by one; none before the one above it.
TEST_F(MarkedSix, TheTurnComesAfterSuckingEmptyingCounting) {
  work({1, 2, 4, 5});
  const auto ticked = [&] {
    std::vector<bool> found;
    for (const Press& tick : now().ticks) found.push_back(tick.ticked);
    return found;
  };
  const auto next = [&] {
    int enabled = 0;
    JobEvent told;
    for (const Press& tick : now().ticks)
      if (tick.enabled()) {
        ++enabled;
        told = tick.tells.at(0);
      }
    EXPECT_EQ(enabled, 1);
    return told;
  };
  ASSERT_EQ(now().stage, Stage::clear);
  EXPECT_EQ(now().sentence, "Suck out all 6 ports.");
  EXPECT_EQ(labels(now().ticks),
            (std::vector<std::string>{"All 6 ports sucked out", "Everything out of every port",
                                      "Counted: 6 bungs"}));
  EXPECT_EQ(ticked(), (std::vector<bool>{false, false, false}));
  EXPECT_EQ(next(), JobEvent(SuckedOut{}));
  add({next()});
  EXPECT_EQ(now().stage, Stage::clear);
  EXPECT_EQ(ticked(), (std::vector<bool>{true, false, false}));
  EXPECT_EQ(next(), JobEvent(PortsEmptied{}));
  for (const PortView& port : now().ports) EXPECT_EQ(port.bung, Bung::comes_out) << port.cylinder;
  add({next()});
  EXPECT_EQ(now().sentence, "Count the bungs: 6.");
  EXPECT_EQ(ticked(), (std::vector<bool>{true, true, false}));
  EXPECT_EQ(next(), JobEvent(BungsCounted{}));
  add({next()});
  const Advice turn = now();
  EXPECT_EQ(turn.stage, Stage::turn);
  EXPECT_EQ(turn.sentence, "Turn the crank: one full turn.");
  // The contract allows 206 to 540 degrees from 35 exactly, so 206.5 to 539.5 from within half a degree of
  // it.
  const Turned told = std::get<Turned>(turn.wide.tells.at(0));
  EXPECT_GE(told.min_deg, 206);
  EXPECT_LE(told.max_deg, 540);
  EXPECT_TRUE(turn.second.starts_with("Clockwise, seen from the pulley end; never back. ")) << turn.second;
  EXPECT_TRUE(turn.second.ends_with(" Then look into 3 and 6.")) << turn.second;
  EXPECT_EQ(labels({turn.beside.begin(), turn.beside.end()}),
            (std::vector<std::string>{"too far or too little", "crank moved", "undo"}));
  add({told});
  const Advice after_turn = now();
  for (const PortView& port : after_turn.ports) EXPECT_FALSE(port.seen) << port.cylinder;
  EXPECT_EQ(after_turn.stage, Stage::chalk) << "a new line at a new position";
  for (const PortView& port : after_turn.ports) EXPECT_EQ(port.bung, Bung::goes_in) << port.cylinder;
  EXPECT_EQ(after_turn.position, 2);
  add({ChalkSeen{true}});
  EXPECT_EQ(now().sentence, "Bungs in all ports. Then look into port 3.");
  EXPECT_EQ(now().ports[1].note, "bung: put in") << "done, and open to what flies about";
}

TEST_F(MarkedSix, ABungThatIsMissingStopsTheCrank) {
  work({1, 2, 4, 5});
  add({SuckedOut{}, PortsEmptied{}});
  ASSERT_EQ(now().answers.size(), 1u);
  EXPECT_EQ(now().answers[0].label, "one is missing");
  add({now().answers[0].tells.at(0)});
  EXPECT_EQ(now().stage, Stage::missing);
  EXPECT_EQ(now().sentence, "A bung is missing. The crank must not turn.");
  EXPECT_EQ(now().second.substr(0, 20), "Look into every port");
  for (const Press& press : now().told())
    for (const JobEvent& event : press.tells)
      EXPECT_FALSE(std::holds_alternative<Turned>(event)) << press.label;
  add({now().wide.tells.at(0)});
  EXPECT_EQ(now().stage, Stage::turn);
}

/// What the hand at each place sees: from the gearbox end a crank that turns clockwise turns the other way.
TEST_F(MarkedSix, TheWayOfTheTurnIsSaidForThePlaceOfTheHand) {
  work({1, 2, 4, 5});
  add({SuckedOut{}, PortsEmptied{}, BungsCounted{}});
  auto way = [&](TurnBy by, Rotation turns) {
    JobModel m = model;
    m.rules.turn_by = by;
    m.engine.spec.layout.rotation = turns;
    const std::string second = advice_after(m, events).second;
    return second.substr(0, second.find(';'));
  };
  EXPECT_EQ(way(TurnBy::wrench, Rotation::clockwise), "Clockwise, seen from the pulley end");
  EXPECT_EQ(way(TurnBy::wrench, Rotation::anticlockwise), "Anticlockwise, seen from the pulley end");
  EXPECT_EQ(way(TurnBy::bar, Rotation::clockwise), "Anticlockwise, seen from the gearbox end");
  EXPECT_EQ(way(TurnBy::bar, Rotation::anticlockwise), "Clockwise, seen from the gearbox end");
  EXPECT_EQ(way(TurnBy::road_wheel, Rotation::clockwise), "As when the car drives forward");
}

/// Every way in which a valve may have stood open over loose abrasive stops the job until that cylinder was
/// looked into; sucked out in time, none does.
TEST_F(MarkedSix, LooseAbrasiveBeforeAValveThatMayHaveOpened) {
  add({LookedInto{1, Saw::shut}, BlastStarted{1}});
  std::vector<JobEvent> done = events;
  done.push_back(PortDone{1});
  for (const std::vector<JobEvent>& so_far : {events, done})
    for (const JobEvent& what : std::vector<JobEvent>{
             CrankMoved{}, Turned{10, 20}, Bumped{}, PressStarted{}, ChalkSeen{false},
             LookedInto{1, Saw::open}, LookedInto{1, Saw::touching},
             CauseChosen{Suspicion::engine_data, 0, 0}, CauseChosen{Suspicion::missed_look, 1, 0},
             CauseChosen{Suspicion::moved, 0, 0}}) {
      std::vector<JobEvent> all = so_far;
      all.push_back(what);
      const Advice a = advice_after(model, all);
      EXPECT_EQ(a.stage, Stage::inside) << what.index();
      EXPECT_EQ(a.sentence, "Stop. Abrasive may be in cylinder 1.");
      EXPECT_EQ(with_face(a, Face::suspect), std::vector<int>{1});
      EXPECT_EQ(labels(a.answers), (std::vector<std::string>{"Cylinder 1: clean", "found some: sucked out",
                                                             "parked until tomorrow"}));
      std::vector<JobEvent> parked = all;
      parked.push_back(InsideLooked{1, Inside::parked});
      EXPECT_EQ(advice_after(model, parked).stage, Stage::inside) << "the crank stands with it";
      EXPECT_EQ(advice_after(model, parked).sentence, "Parked: abrasive may be in cylinder 1.");
      for (const Inside found : {Inside::clean, Inside::sucked_out}) {
        std::vector<JobEvent> looked = all;
        looked.push_back(InsideLooked{1, found});
        const Advice still = advice_after(model, looked);
        EXPECT_EQ(still.stage, Stage::clear) << "it still lies in the port";
        EXPECT_FALSE(still.ticks.at(0).ticked);
        looked.push_back(SuckedOut{});
        const Advice sucked = advice_after(model, looked);
        EXPECT_NE(sucked.stage, Stage::inside);
        EXPECT_TRUE(sucked.stage != Stage::clear || sucked.ticks.at(0).ticked);
      }
    }
  done.insert(done.end(), {SuckedOut{}, CrankMoved{}});
  EXPECT_NE(advice_after(model, done).stage, Stage::inside);
  EXPECT_FALSE(may(model, fold(model, done), InsideLooked{1, Inside::clean}));
}

/// What was blasted was blasted, whatever the rules say later on; and of a blast taken back remains what may
/// lie in the port.
TEST_F(MarkedSix, WhatHappenedIsNotRefusedAfterwards) {
  add({LookedInto{1, Saw::shut}, BlastStarted{1}, PortDone{1}});
  const JobModel strict = make_job_model(inline_six(), {180, 10, 0.5, TurnBy::wrench, 1});
  EXPECT_FALSE(may(strict, fold(strict, std::vector(events.begin(), events.end() - 2)), BlastStarted{1}));
  EXPECT_TRUE(fold(strict, events).find(1)->done);
  EXPECT_TRUE(fold(strict, events).find(1)->loose);
  events.resize(events.size() - 2);
  add({AbrasiveLeft{1}, CrankMoved{}});
  EXPECT_EQ(now().stage, Stage::inside);
  EXPECT_FALSE(may(model, fold(model, events), AbrasiveLeft{7}));
}

TEST_F(MarkedSix, AnOpenedPortAfterTheChecksAsksForThemAgain) {
  work({1, 2, 4, 5});
  add({SuckedOut{}, PortsEmptied{}, BungsCounted{}});
  ASSERT_EQ(now().stage, Stage::turn);
  add({LookedInto{1, Saw::shut}});
  EXPECT_EQ(now().stage, Stage::clear);
  EXPECT_TRUE(now().ticks.at(0).ticked) << "nothing was blasted since";
  EXPECT_FALSE(now().ticks.at(1).ticked);
  EXPECT_FALSE(now().ticks.at(2).ticked);
}

TEST_F(MarkedSix, ALookIsNotItsOwnWitness) {
  const JobModel bare = make_job_model(inline_six(), {});
  for (int port = 1; port <= 6; ++port) {
    const JobState state = fold(bare, std::vector<JobEvent>{NoChalk{}, LookedInto{port, Saw::shut}});
    EXPECT_FALSE(may_blast(bare, state, port)) << port;
    EXPECT_EQ(after(bare, state, BlastStarted{port}).blasting, std::nullopt);
  }
}

TEST_F(MarkedSix, ALookThatCannotBeTrueStopsTheAdvice) {
  add({LookedInto{1, Saw::open}});
  const Advice a = now();
  EXPECT_EQ(a.stage, Stage::disagreement);
  EXPECT_FALSE(a.causes.empty());
  for (const PortView& port : a.ports) EXPECT_FALSE(may_blast(model, fold(model, events), port.cylinder));
  add({LooksForgotten{}});
  EXPECT_NE(now().stage, Stage::disagreement);
}

TEST_F(MarkedSix, OutOfReachPortsAreLeftAndNamedAtTheEnd) {
  work({1, 2, 4, 5});
  add({Reachable{3, false}, Reachable{6, false}, SuckedOut{}});
  Advice a = now();
  EXPECT_EQ(a.stage, Stage::clear) << "no bung is left inside at the end of the job";
  for (const PortView& port : a.ports) EXPECT_EQ(port.note, "bung: take out") << port.cylinder;
  add({PortsEmptied{}});
  a = now();
  EXPECT_EQ(a.sentence, "Count the bungs: 6.");
  for (const PortView& port : a.ports) EXPECT_EQ(port.note, "no bung") << port.cylinder;
  add({BungsCounted{}});
  a = now();
  EXPECT_EQ(a.stage, Stage::finished);
  EXPECT_EQ(a.sentence, "Done for today.");
  EXPECT_EQ(a.second, "Left for another day: 3 and 6. This job keeps it in mind: press its tile to go on.");
}

/// Grit lies round the bung of an open port: once abrasive lies about, none that is seen or reckoned open is
/// opened. A port that was stopped is sucked out before anything is opened beside it.
TEST_F(MarkedSix, NothingOpensAnOpenPortBesideLooseAbrasive) {
  work({1});
  for (int looks = 0; looks < 12 && now().stage != Stage::clear; ++looks) {
    const Advice a = now();
    if (a.stage == Stage::look) {
      EXPECT_FALSE(a.ports[static_cast<size_t>(a.port - 1)].open) << a.sentence;
      EXPECT_TRUE(a.ports[static_cast<size_t>(a.port - 1)].reckoned_shut) << a.sentence;
      add({LookedInto{a.port, a.port % 3 == 0 ? Saw::open : Saw::shut}});
    } else {
      add({a.told().front().tells.at(0)});
    }
  }
  EXPECT_EQ(now().stage, Stage::clear);
  EXPECT_EQ(fold(model, events).cost.looks_into_open_ports_after_blasting, 0);
}

TEST_F(MarkedSix, AStoppedPortIsSuckedOutFirst) {
  add({LookedInto{1, Saw::shut}, BlastStarted{1}, BlastStopped{1}, ChalkSeen{true}});
  ASSERT_EQ(now().port, 1);
  EXPECT_TRUE(now().second.starts_with("It was stopped, not done: suck it out first. ")) << now().second;
  std::vector<JobEvent> hidden = events;
  hidden.push_back(LookedInto{1, Saw::hidden});
  EXPECT_EQ(advice_after(model, hidden).stage, Stage::clear) << "nobody sees its valve any more";
  add({Reachable{1, false}});
  ASSERT_EQ(now().stage, Stage::look);
  EXPECT_EQ(now().port, 2);
  EXPECT_TRUE(now().second.starts_with("First suck out port 1, and put the bung in. ")) << now().second;
}

/// An open port needs its bung most, done or not.
TEST_F(MarkedSix, ADonePortThatStandsOpenIsDrawnOpen) {
  work({1});
  EXPECT_FALSE(now().ports[0].open);
  add({SuckedOut{}, PortsEmptied{}, BungsCounted{}, Turned{420, 420}});
  const PortView port = now().ports[0];  // at 455: open from 348 to 588
  EXPECT_EQ(port.face, Face::done);
  EXPECT_TRUE(port.open);
  EXPECT_EQ(port.note, "open, bung: put in");
}

/// Just closed at 250 degrees (48 after bottom dead centre, 3 of tolerance): seen so, port 1 is not blasted
/// here, but the crank is known to stand near, and where nothing else is left a little further will do.
TEST_F(MarkedSix, AValveJustTouchingAsksForALittleMore) {
  events = {Reachable{2, false}, Reachable{3, false},    Reachable{4, false},          Reachable{5, false},
            Reachable{6, false}, MarkRead{595 - 360, 5}, LookedInto{1, Saw::touching}, NoChalk{}};
  Advice a = now();
  EXPECT_EQ(with_face(a, Face::touching), std::vector<int>{1});
  EXPECT_EQ(a.ports[0].word, "NOT YET");
  EXPECT_FALSE(may(model, fold(model, events), BlastStarted{1}));
  EXPECT_TRUE(a.where.contains(595)) << "just closed";
  EXPECT_FALSE(a.where.contains(235)) << "a turn before it is well open or well shut";
  add({PortsEmptied{}, BungsCounted{}});
  a = now();
  EXPECT_EQ(a.sentence, "Turn the crank: an eighth of a turn, 45\u00b0.");
  EXPECT_TRUE(a.second.starts_with("A hair open here, surely shut a little further on. ")) << a.second;
  add({Turned{35, 55}, LookedInto{1, Saw::shut}});
  EXPECT_TRUE(may(model, fold(model, events), BlastStarted{1}));
}

/// The six with the mark in line at 360: 4 and 1 stand open, the others shut.
class SixAtTheMark : public ::testing::Test {
 protected:
  JobModel model = make_job_model(inline_six(), {});
  std::vector<JobEvent> events;
  Advice now() const { return advice_after(model, events); }
  void press(const Press& pressed) {
    events.insert(events.end(), pressed.tells.begin(), pressed.tells.end());
  }
  void answer(const std::string& label) {
    for (const Press& offered : now().told())
      if (offered.label == label) return press(offered);
    FAIL() << label << " is not offered: " << now().sentence;
  }
};

/// Mark, one look that decides the revolution, chalk, and then look by look each port.
TEST_F(SixAtTheMark, TheCourse) {
  EXPECT_EQ(now().stage, Stage::mark);
  EXPECT_EQ(now().wide.label, "Mark in line, it stays");
  EXPECT_EQ(now().wide.tells, (std::vector<JobEvent>{MarkRead{0, kMarkReads_deg}}))
      << "no look goes with a turn";
  press(now().wide);
  ASSERT_EQ(now().stage, Stage::look);
  EXPECT_EQ(
      now().second,
      "The mark stands in line twice a cycle: here this port is shut one time and wide open the other.");
  // Wide open at one place and shut at the other: 3 (open at 0) or 4 (open at 360), by hand from the events.
  int looks = 0;
  for (; now().stage == Stage::look && looks < 3; ++looks) {
    EXPECT_TRUE(now().port == 3 || now().port == 4) << now().port;
    answer(now().port == 4 ? "open" : "shut");
  }
  EXPECT_LE(looks, 2);
  EXPECT_EQ(now().where.arcs().size(), 1u);
  EXPECT_EQ(now().stage, Stage::chalk);
  answer("Chalk line drawn");
  int blasts = 0;
  for (; now().stage == Stage::look && blasts < 6; ++blasts) {
    EXPECT_TRUE(now().port != 4 && now().port != 1) << "reckoned open";
    answer("shut: blasting");
    EXPECT_EQ(now().stage, Stage::blasting);
    answer("Done, sucked out, bung in");
    EXPECT_EQ(now().stage, Stage::chalk);
    answer("in line");
  }
  EXPECT_GE(blasts, 3);
  ASSERT_EQ(now().stage, Stage::clear);
  for (int tick = 0; tick < 3; ++tick)
    for (const Press& line : std::vector<Press>(now().ticks))
      if (line.enabled()) {
        press(line);
        break;
      }
  ASSERT_EQ(now().stage, Stage::mark);
  EXPECT_EQ(now().sentence, "Turn the crank one full turn, to the mark again.");
  press(now().wide);
  EXPECT_TRUE(now().where.contains(0));
  EXPECT_FALSE(now().where.contains(360)) << "the turn is counted";
  EXPECT_EQ(now().stage, Stage::chalk);
}

/// "No mark" is one press, remembered, and one pass over all ports in the order in which they stand follows.
TEST_F(SixAtTheMark, WithoutAMarkOnePassOverAllPorts) {
  answer("no mark");
  EXPECT_EQ(events, std::vector<JobEvent>{NoMark{}});
  for (int port = 1; port <= 6; ++port) {
    ASSERT_EQ(now().stage, Stage::look);
    EXPECT_EQ(now().port, port) << "pulley end to gearbox end, whatever was seen";
    EXPECT_TRUE(now().second.starts_with("One pass over all ports")) << now().second;
    answer(port == 4 || port == 1 ? "open" : "shut");
  }
  EXPECT_NE(now().stage, Stage::disagreement);
  EXPECT_FALSE(now().second.starts_with("One pass over all ports")) << "once";
}

/// A V engine's ports stand bank by bank.
TEST_F(SixAtTheMark, ThePassGoesBankByBank) {
  const JobModel eight = make_job_model(cross_plane_v8(), {});
  std::vector<JobEvent> told{NoMark{}};
  for (const int port : {1, 3, 5, 7, 2, 4, 6, 8}) {
    const Advice a = advice_after(eight, told);
    EXPECT_EQ(a.port, port);
    told.push_back(LookedInto{port, Saw::hidden});
  }
}

/// Told after a look the mark comes with the turn that led to it: what was seen before it holds no longer.
TEST_F(SixAtTheMark, ALookBeforeTheTurnToTheMarkGoesWithIt) {
  for (const JobEvent& looked : std::vector<JobEvent>{LookedInto{1, Saw::shut}, LookedInto{1, Saw::hidden}}) {
    events = {looked, CrankMoved{}, PortsEmptied{}, BungsCounted{}};
    ASSERT_EQ(now().stage, Stage::mark);
    EXPECT_EQ(now().wide.tells.size(), 2u);
    EXPECT_TRUE(std::holds_alternative<Turned>(now().wide.tells.at(0)));
  }
}

/// With nothing known but looks, the reckoning must be `locate`'s: same arcs, and the witnessed ports of
/// margin 0.
TEST(Reckonings, AgreeWithLocate) {
  const char* given = std::getenv("SHUTLANE_SEED");
  const unsigned long seed = given ? std::strtoul(given, nullptr, 10) : 99;
  SCOPED_TRACE("SHUTLANE_SEED=" + std::to_string(seed));
  std::mt19937_64 random(seed);
  JobRules rules;
  rules.margin_deg = 0;
  for (const Engine& engine : {inline_six(), cross_plane_v8(), inline_four()}) {
    const JobModel model = make_job_model(engine, rules);
    for (int trial = 0; trial < 60; ++trial) {
      std::vector<JobEvent> events;
      Looks looks;
      for (const Cylinder& c : engine.cylinders) {
        const int answer = static_cast<int>(random() % 4);
        if (answer == 0) continue;
        const Saw saw = answer == 1 ? Saw::open : answer == 2 ? Saw::shut : Saw::hidden;
        events.push_back(LookedInto{c.number, saw});
        if (saw == Saw::shut) looks.shut.push_back(c.number);
        if (saw == Saw::open) looks.open.push_back(c.number);
      }
      const Location there = locate(engine, looks);
      const Reckoning here = reckoning(model, fold(model, events));
      EXPECT_EQ(here.contradiction(), there.contradiction.has_value());
      if (here.contradiction()) continue;
      EXPECT_NEAR(here.where.total_deg(), there.consistent.total_deg(), 1e-6);
      EXPECT_NEAR(here.where.intersected(there.consistent).total_deg(), there.consistent.total_deg(), 1e-6);
      for (size_t i = 0; i < engine.cylinders.size(); ++i) {
        const int n = engine.cylinders[i].number;
        const bool witnessed = std::count(there.witnessed.begin(), there.witnessed.end(), n) > 0;
        EXPECT_EQ(here.ports[i] == Reckoned::shut, witnessed) << "port " << n;
      }
    }
  }
}

/// What is said to come next is never the port in hand, and no turn is named while a port reckoned shut is
/// left.
TEST(Forecast, NamesOtherPortsAndNoTurnTooEarly) {
  const JobModel model = make_job_model(inline_six(), {});
  std::vector<JobEvent> events{MarkRead{0, 5}, LookedInto{3, Saw::open}, ChalkSeen{true}};
  int looks = 0;
  for (int step = 0; step < 12; ++step) {
    const Advice a = advise(model, fold(model, events));
    if (a.stage == Stage::clear) break;
    if (a.stage == Stage::look) {
      ++looks;
      const std::string number = std::to_string(a.port);
      EXPECT_EQ(a.second.find("Then " + number), std::string::npos) << a.second;
      bool left = false;
      for (const PortView& port : a.ports)
        left = left || (port.cylinder != a.port && port.reckoned_shut && port.face == Face::look);
      EXPECT_EQ(a.second.find("After it:") != std::string::npos, !left) << a.second;
    }
    const std::vector<Press> presses = a.told();
    ASSERT_FALSE(presses.empty());
    events.insert(events.end(), presses.front().tells.begin(), presses.front().tells.end());
  }
  EXPECT_EQ(looks, 3);
}

}  // namespace
}  // namespace shutlane
