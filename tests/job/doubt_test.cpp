// Two witnesses can be wrong together: the limit of doubt, what is asked for because of it, and the lobe as a
// witness where ports are few.
#include <gtest/gtest.h>

#include <cmath>

#include "sim/job/advice.hpp"
#include "tests/job/engines_for_jobs.hpp"

namespace shutlane {
namespace {

JobRules limited(double most_open) {
  JobRules rules;
  rules.most_open = most_open;
  return rules;
}

/// A limit at which four looks are not enough: what is asserted is what a limit does, not where it lies.
class Doubts : public ::testing::Test {
 protected:
  JobModel model = make_job_model(inline_six(), limited(2e-5));
  /// The six at 35 degrees: 1, 2, 4 and 5 are shut, 3 and 6 open. No chalk: it has its own tests.
  std::vector<JobEvent> events{NoChalk{}, LookedInto{2, Saw::shut}, LookedInto{5, Saw::shut},
                               LookedInto{3, Saw::open}, LookedInto{1, Saw::shut}};
  JobState state() const { return fold(model, events); }
  Advice now() const { return advise(model, state()); }
  void add(std::initializer_list<JobEvent> more) { events.insert(events.end(), more); }
  static Saw seen(int port) { return port % 3 == 0 ? Saw::open : Saw::shut; }
  bool sets_allow(int port) const {
    const JobModel loose = make_job_model(model.engine, limited(1));
    return may_blast(loose, fold(loose, events), port);
  }
};

TEST_F(Doubts, AgreeingWitnessesAreNotEnough) {
  ASSERT_TRUE(witnesses_agree(model, state(), 1));
  ASSERT_TRUE(sets_allow(1));
  EXPECT_FALSE(may_blast(model, state(), 1));
  EXPECT_FALSE(may(model, state(), BlastStarted{1}));
  EXPECT_EQ(now().ports[0].face, Face::seen_shut);
  ASSERT_TRUE(now().ports[0].waits_for) << "a port that must wait says for what";
  EXPECT_EQ(now().ports[0].waits_for->what, WaitsFor::What::look);
  for (int looks = 0; looks < 6 && !may_blast(model, state(), 1); ++looks) {
    const Advice a = now();
    ASSERT_EQ(a.stage, Stage::look) << a.rule;
    add({LookedInto{a.port, seen(a.port)}});
  }
  EXPECT_TRUE(may_blast(model, state(), 1));
  EXPECT_EQ(now().stage, Stage::blast);
  EXPECT_EQ(now().ports[0].note, "blast next");
}

TEST_F(Doubts, ItsOwnLookComesLast) {
  add({LookedInto{4, Saw::shut}, LookedInto{6, Saw::open}});
  EXPECT_FALSE(may_blast(model, state(), 1));
  EXPECT_FALSE(sets_allow(1)) << "with no limit neither";
  add({LookedInto{1, Saw::shut}});
  EXPECT_TRUE(may_blast(model, state(), 1));
}

TEST_F(Doubts, TheLimitOnlyEverForbids) {
  const JobModel strict = make_job_model(inline_six(), limited(2e-5)),
                 usual = make_job_model(inline_six(), {}), none = make_job_model(inline_six(), limited(1));
  int fewer = 0, allowed = 0;
  for (int answers = 0; answers < 729; ++answers) {
    std::vector<JobEvent> looks{NoChalk{}};
    for (int port = 1, rest = answers; port <= 6; ++port, rest /= 3)
      looks.push_back(LookedInto{port, static_cast<Saw>(rest % 3)});
    const JobState by_strict = fold(strict, looks), by_usual = fold(usual, looks),
                   by_none = fold(none, looks);
    for (int port = 1; port <= 6; ++port) {
      const bool strictly = may_blast(strict, by_strict, port), usually = may_blast(usual, by_usual, port),
                 loosely = may_blast(none, by_none, port);
      EXPECT_TRUE(loosely || !usually) << answers << " port " << port;
      EXPECT_TRUE(usually || !strictly) << answers << " port " << port;
      fewer += loosely && !strictly;
      allowed += strictly;
    }
  }
  EXPECT_GT(fewer, 0);
  EXPECT_GT(allowed, 0);
}

TEST_F(Doubts, AfterAPauseAFreshLookIsWanted) {
  add({LookedInto{4, Saw::shut}, LookedInto{6, Saw::open}, LookedInto{1, Saw::shut}, BlastStarted{1},
       PortDone{1}});
  ASSERT_TRUE(witnesses_agree(model, state(), 4));
  EXPECT_FALSE(may_blast(model, state(), 4)) << "somebody may have moved the crank meanwhile";
  int into_last = 0;
  for (int looks = 0; looks < 5 && !may_blast(model, state(), 4); ++looks) {
    ASSERT_EQ(now().stage, Stage::look);
    into_last = now().port;
    EXPECT_EQ(seen(into_last), Saw::shut) << "nothing open is opened beside loose abrasive";
    add({LookedInto{into_last, seen(into_last)}});
    if (into_last != 4 && may_blast(model, state(), into_last))
      add({BlastStarted{into_last}, PortDone{into_last}});
  }
  EXPECT_TRUE(may_blast(model, state(), 4));
  EXPECT_EQ(into_last, 4) << "its own last";
  add({BlastStarted{4}, BlastStopped{4}});
  EXPECT_FALSE(may_blast(model, state(), 4)) << "nor after a stop";
}

TEST_F(Doubts, WithoutALimitToo) {
  const JobModel loose = make_job_model(model.engine, limited(1));
  std::vector<JobEvent> told = events;
  const auto may_work_4 = [&](const JobEvent& event) {
    told.push_back(event);
    return may_blast(loose, fold(loose, told), 4);
  };
  EXPECT_TRUE(may_work_4(LookedInto{4, Saw::shut}));
  EXPECT_FALSE(may_work_4(LookedInto{6, Saw::open})) << "another port was looked into since";
  EXPECT_FALSE(may_work_4(LookedInto{1, Saw::shut}));
  EXPECT_FALSE(may_work_4(BlastStarted{1}));
  EXPECT_FALSE(may_work_4(PortDone{1})) << "and a port was blasted";
  EXPECT_TRUE(may_work_4(LookedInto{4, Saw::shut}));
}

TEST_F(Doubts, LookingTwiceInARowProvesNothing) {
  const double before = state().here.chance_open(1);
  add({LookedInto{1, Saw::shut}, LookedInto{1, Saw::shut}, LookedInto{3, Saw::open}});
  EXPECT_NEAR(state().here.chance_open(1), before, 0.1 * before);
}

TEST_F(Doubts, ALookTakenBackIsAsNeverMade) {
  const double before = state().here.chance_open(1);
  add({LookedInto{4, Saw::open}, CauseChosen{Suspicion::wrong_port, 4, 0}});
  EXPECT_DOUBLE_EQ(state().here.chance_open(1), before);
}

TEST_F(Doubts, AKnownMoveLeavesNothingButTheCauses) {
  for (const JobEvent& move :
       std::vector<JobEvent>{CrankMoved{}, Bumped{}, PressStarted{}, CauseChosen{Suspicion::moved, 0, 0}}) {
    std::vector<JobEvent> all = events;
    all.push_back(move);
    const JobState moved = fold(model, all);
    // A port is open for 240 of 720 degrees, as its events say.
    for (int port = 1; port <= 6; ++port) EXPECT_NEAR(moved.here.chance_open(port), 1.0 / 3, 0.02) << port;
  }
}

/// By hand, from the events: at 35 degrees and a full turn port 1 stands 47 degrees past its opening, and
/// port 3 at local 155, shut.
TEST_F(Doubts, ATurnCarriesIt) {
  add({LookedInto{4, Saw::shut}, LookedInto{6, Saw::open}, Turned{350, 370}});
  EXPECT_GT(state().here.chance_open(1), 0.9);
  EXPECT_LT(state().here.chance_open(3), 0.1);
}

/// One cylinder: its own look is no witness, the lobe is.
TEST(FewPorts, TheLobeIsTheOtherWitness) {
  const JobModel model = make_job_model(single(), {});
  EXPECT_NE(advise(model, fold(model, {})).stage, Stage::lobe) << "a look comes first";
  std::vector<JobEvent> events{LookedInto{1, Saw::shut}};
  const Advice asked = advise(model, fold(model, events));
  ASSERT_EQ(asked.stage, Stage::lobe);
  EXPECT_EQ(asked.sentence, "Oil filler: which way points the intake lobe of cylinder 1?");
  EXPECT_TRUE(asked.answers.front().tells.front() == JobEvent(LobeSeen{1, Lobe::unclear}))
      << "where shut lay a moment ago lies what tells nothing";
  EXPECT_FALSE(witnesses_agree(model, fold(model, events), 1));
  events.push_back(LobeSeen{1, Lobe::away});
  EXPECT_TRUE(witnesses_agree(model, fold(model, events), 1));
  events.back() = LobeSeen{1, Lobe::unclear};
  EXPECT_FALSE(witnesses_agree(model, fold(model, events), 1));
  EXPECT_NE(advise(model, fold(model, events)).stage, Stage::lobe) << "asked once at a position";
  events.back() = LobeSeen{1, Lobe::at_valve};
  EXPECT_FALSE(witnesses_agree(model, fold(model, events), 1)) << "it may be open by less than is seen";
}

/// Two lobes that can't be seen are enough: no third is asked for, until one was seen after all.
TEST(FewPorts, LobesThatCannotBeSeenAreNotAskedForAgain) {
  const JobModel model = make_job_model(inline_four(), {});
  std::vector<JobEvent> events{LobeSeen{1, Lobe::hidden}};
  EXPECT_TRUE(lobes_seen(model, fold(model, events)));
  events.push_back(LobeSeen{2, Lobe::hidden});
  EXPECT_FALSE(lobes_seen(model, fold(model, events)));
  EXPECT_TRUE(fold(model, events).here.where(model).full()) << "nothing was told";
  events.push_back(LobeSeen{3, Lobe::away});
  EXPECT_TRUE(lobes_seen(model, fold(model, events)));
}

Engine inline_three() {
  LayoutSpec layout;
  layout.firing_order = {1, 3, 2};
  layout.banks = {{"row", 0, {1, 2, 3}, {}}};
  return engine_with(layout);
}

/// Three ports never witness each other: without lobes nothing but the mark leads on, and so it is said.
TEST(FewPorts, WithoutLobesTheMarkIsTheWay) {
  const JobModel model = make_job_model(inline_three(), {});
  ASSERT_TRUE(model.mark_suffices);
  std::vector<JobEvent> events{NoMark{}, LobeSeen{1, Lobe::hidden}, LobeSeen{2, Lobe::hidden}};
  for (const int port : {1, 2, 3}) events.push_back(LookedInto{port, Saw::hidden});
  events.insert(events.end(), {PortsEmptied{}, BungsCounted{}});
  const Advice a = advise(model, fold(model, events));
  ASSERT_EQ(a.stage, Stage::mark);
  EXPECT_EQ(a.sentence, "Turn to the TDC mark of cylinder 1 and let go: does it stay?");
  EXPECT_NE(a.second.find("No mark? Make one"), std::string::npos) << a.second;
  for (const Press& press : a.told())
    for (const JobEvent& event : press.tells)
      EXPECT_FALSE(std::holds_alternative<NoMark>(event)) << "no number of blind turns would do";
  JobRules by_starter;
  by_starter.turn_by = TurnBy::starter;
  const JobModel bumped = make_job_model(inline_three(), by_starter);
  EXPECT_EQ(advise(bumped, fold(bumped, events)).sentence,
            "By wrench: turn to the TDC mark of cylinder 1 and let go: does it stay?")
      << "and no number of bumps";
  ASSERT_EQ(a.wide.tells.size(), 2u);
  events.push_back(a.wide.tells[0]);
  EXPECT_TRUE(fold(model, events).here.where(model).full());
  events.push_back(a.wide.tells[1]);
  EXPECT_NEAR(fold(model, events).here.where(model).total_deg(), 20, 1e-9) << "two arcs of ten degrees";
}

/// Lead with the mark, while nothing is known of the crank; once a bung may be in, all is taken out first.
TEST(FewPorts, TheJobBeginsAtTheMark) {
  for (const Engine& engine : {inline_four(), inline_six(), cross_plane_v8(), single()})
    for (const TurnBy by : {TurnBy::wrench, TurnBy::bar, TurnBy::road_wheel}) {
      JobRules rules;
      rules.turn_by = by;
      const JobModel model = make_job_model(engine, rules);
      const auto advice = [&](const std::vector<JobEvent>& events) {
        return advise(model, fold(model, events));
      };
      EXPECT_EQ(advice({}).stage, Stage::mark);
      EXPECT_EQ(advice({}).sentence,
                "Turn to the TDC mark of cylinder 1 and let go: does it stay?");
      EXPECT_EQ(advice({CrankMoved{}}).stage, Stage::mark);
      EXPECT_EQ(advice({LookedInto{1, Saw::open}, CrankMoved{}}).stage, Stage::clear);
      EXPECT_EQ(advice({LookedInto{1, Saw::open}, CrankMoved{}, PortsEmptied{}, BungsCounted{}}).stage,
                Stage::mark);
      EXPECT_EQ(advice({NoMark{}}).stage, Stage::look);
      EXPECT_EQ(
          advice({NoMark{}, LookedInto{1, Saw::open}, CrankMoved{}, PortsEmptied{}, BungsCounted{}}).stage,
          Stage::look)
          << "it is remembered";
      EXPECT_NE(advice({Turned{0, kCycle_deg}, MarkRead{0, kMarkReads_deg}}).stage, Stage::mark);
    }
  const JobModel bumped = make_job_model(inline_six(), {10, 360, 0.5, TurnBy::starter});
  EXPECT_EQ(advise(bumped, fold(bumped, {})).stage, Stage::look) << "a starter stops at no mark";
}

/// Of two places a turn apart neither is chosen by an opinion; near one of them it is.
TEST(FewPorts, JustTouchingDoesNotChooseBetweenPlacesOfTheMark) {
  const JobModel model = make_job_model(inline_four(), {});
  const auto where = [&](double mark_deg) {
    return fold(model, std::vector<JobEvent>{MarkRead{mark_deg, 5}, LookedInto{1, Saw::touching}})
        .here.where(model);
  };
  double near = 0, neither = 0;
  for (double mark = 0; mark < 360; mark += 5) {
    const PortSets& port = model.ports[0];
    const ArcSet both = fold(model, std::vector<JobEvent>{MarkRead{mark, 5}}).here.where(model);
    if (both.intersected(port.touching).empty()) {
      ++neither;
      EXPECT_TRUE(where(mark).contains(mark) || where(mark).contains(mark + 5) ||
                  where(mark).contains(mark - 5));
      EXPECT_TRUE(where(mark).contains(mark + 360) || where(mark).contains(mark + 365) ||
                  where(mark).contains(mark + 355))
          << mark;
    } else if (where(mark).arcs().size() == 1) {
      ++near;
    }
  }
  EXPECT_GT(near, 0);
  EXPECT_GT(neither, 0);
}

/// Where the nose of a lobe points, by hand: the cam turns half as fast as the crank and its nose stands at
/// the valve at peak lift, in the middle between the events: (-12 + 228) / 2 = 108 after gas-exchange TDC.
TEST(FewPorts, LobeArcsHoldEveryAngleThatShowsSo) {
  const Engine engine = single();
  for (double crank = 0; crank < 720; crank += 1) {
    const double nose_deg = std::fabs(std::remainder(crank - 468, 720.0)) / 2;
    EXPECT_TRUE(nose_deg > 45 || lobe_arcs(engine, {1, Lobe::at_valve}).contains(crank)) << crank;
    EXPECT_TRUE(nose_deg < 135 || lobe_arcs(engine, {1, Lobe::away}).contains(crank)) << crank;
    // Nor much more than the tolerance of 3 degrees.
    EXPECT_TRUE(nose_deg < 50 || !lobe_arcs(engine, {1, Lobe::at_valve}).contains(crank)) << crank;
    EXPECT_TRUE(nose_deg > 130 || !lobe_arcs(engine, {1, Lobe::away}).contains(crank)) << crank;
  }
}

}  // namespace
}  // namespace shutlane
