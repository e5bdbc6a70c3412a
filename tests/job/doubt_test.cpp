// Two witnesses can be wrong together: the limit of doubt, what is asked for because of it, and the lobe as a
// witness where ports are few.
#include "sim/job/doubt.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "sim/job/advice.hpp"
#include "tests/job/engines_for_jobs.hpp"

namespace shutlane {
namespace {

class Doubts : public ::testing::Test {
 protected:
  JobModel model = make_job_model(inline_six(), {});
  /// The six at 35 degrees: 1, 2, 4 and 5 are shut, 3 and 6 open.
  std::vector<JobEvent> events{LookedInto{1, Saw::shut}, LookedInto{2, Saw::shut}, LookedInto{5, Saw::shut},
                               LookedInto{3, Saw::open}};
  JobState state() const { return fold(model, events); }
  Advice now() const { return advise(model, state()); }
  void add(std::initializer_list<JobEvent> more) { events.insert(events.end(), more); }
};

TEST_F(Doubts, AgreeingWitnessesAreNotEnough) {
  ASSERT_TRUE(witnesses_agree(model, state(), 1));
  EXPECT_FALSE(may_blast(model, state(), 1));
  EXPECT_FALSE(may(model, state(), BlastStarted{1}));
  const Advice a = now();
  EXPECT_EQ(a.stage, Stage::look);
  EXPECT_TRUE(a.second.starts_with("The looks agree; this one makes surer of port 1.")) << a.second;
  EXPECT_EQ(a.ports[0].face, Face::seen_shut);
  EXPECT_EQ(a.ports[0].note, "seen before");
  const Advice picked = advise(model, state(), 1);
  EXPECT_TRUE(picked.second.starts_with("The looks agree, but one more look is needed")) << picked.second;
  add({LookedInto{4, Saw::shut}, LookedInto{6, Saw::open}});
  EXPECT_FALSE(may_blast(model, state(), 1)) << "its own look comes last";
  EXPECT_EQ(now().sentence, "Look into port 1 once more.");
  add({LookedInto{1, Saw::shut}});
  EXPECT_TRUE(may_blast(model, state(), 1));
  EXPECT_EQ(now().stage, Stage::blast);
  EXPECT_EQ(now().ports[0].note, "blast next");
}

TEST_F(Doubts, TheLimitOnlyEverForbids) {
  JobRules strict, loose;
  loose.most_open = 1;
  const JobModel with = make_job_model(inline_six(), strict), without = make_job_model(inline_six(), loose);
  int fewer = 0, allowed = 0;
  for (int answers = 0; answers < 729; ++answers) {
    std::vector<JobEvent> looks;
    for (int port = 1, rest = answers; port <= 6; ++port, rest /= 3)
      looks.push_back(LookedInto{port, static_cast<Saw>(rest % 3)});
    for (int port = 1; port <= 6; ++port) {
      const bool strictly = may_blast(with, fold(with, looks), port);
      const bool loosely = may_blast(without, fold(without, looks), port);
      EXPECT_TRUE(loosely || !strictly) << answers << " port " << port;
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
  for (int looks = 0; looks < 3 && !may_blast(model, state(), 4); ++looks) {
    ASSERT_EQ(now().stage, Stage::look);
    JobEvent look = std::get<JobEvent>(now().wide.does);
    LookedInto& into = std::get<LookedInto>(look);
    into_last = into.cylinder;
    into.saw = into.cylinder % 3 == 0 ? Saw::open : Saw::shut;
    add({look});
  }
  EXPECT_TRUE(may_blast(model, state(), 4));
  EXPECT_EQ(into_last, 4) << "its own last";
  add({BlastStarted{4}, BlastStopped{}});
  EXPECT_FALSE(may_blast(model, state(), 4)) << "nor after a stop";
}

TEST_F(Doubts, WithoutALimitToo) {
  JobRules rules;
  rules.most_open = 1;
  const JobModel loose = make_job_model(model.engine, rules);
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
  const double before = state().doubt.chance_open(1);
  add({LookedInto{1, Saw::shut}, LookedInto{1, Saw::shut}, LookedInto{3, Saw::open}});
  EXPECT_NEAR(state().doubt.chance_open(1), before, 0.1 * before);
}

TEST_F(Doubts, ALookTakenBackIsAsNeverMade) {
  const double before = state().doubt.chance_open(1);
  add({LookedInto{4, Saw::open}, CauseChosen{Suspicion::wrong_port, 4, 0}});
  EXPECT_DOUBLE_EQ(state().doubt.chance_open(1), before);
}

TEST_F(Doubts, AKnownMoveLeavesNothingButTheCauses) {
  for (const JobEvent& move : std::vector<JobEvent>{CrankMoved{}, Bumped{}, TurnedTooFar{}}) {
    std::vector<JobEvent> all = events;
    all.push_back(move);
    const JobState moved = fold(model, all);
    // A port is open for 240 of 720 degrees, as its events say.
    for (int port = 1; port <= 6; ++port) EXPECT_NEAR(moved.doubt.chance_open(port), 1.0 / 3, 0.02) << port;
  }
}

/// By hand, from the events: at 35 degrees and a full turn port 1 stands 47 degrees past its opening, and
/// port 3 at local 155, shut.
TEST_F(Doubts, ATurnCarriesIt) {
  add({LookedInto{4, Saw::shut}, LookedInto{6, Saw::open}, Turned{350, 370}});
  EXPECT_GT(state().doubt.chance_open(1), 0.9);
  EXPECT_LT(state().doubt.chance_open(3), 0.1);
}

/// One cylinder: its own look is no witness, the lobe is.
TEST(FewPorts, TheLobeIsTheOtherWitness) {
  JobRules rules;
  EXPECT_NE(advise(make_job_model(single(), rules), fold(make_job_model(single(), rules), {})).stage,
            Stage::lobe);
  const JobModel model = make_job_model(single(), rules);
  std::vector<JobEvent> events{LookedInto{1, Saw::shut}};
  const Advice asked = advise(model, fold(model, events));
  ASSERT_EQ(asked.stage, Stage::lobe);
  EXPECT_EQ(asked.sentence, "Oil filler: which way points the intake lobe of cylinder 1?");
  EXPECT_TRUE(std::get<JobEvent>(asked.wide.does) == JobEvent(LobeSeen{1, Lobe::unclear})) << "tells nothing";
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
  EXPECT_TRUE(fold(model, events).reckoned.full()) << "nothing was told";
  events.push_back(LobeSeen{3, Lobe::away});
  EXPECT_TRUE(lobes_seen(model, fold(model, events)));
}

/// Three ports never witness each other: without lobes nothing but the mark leads on, and so it is said.
TEST(FewPorts, WithoutLobesTheMarkIsTheWay) {
  LayoutSpec layout;
  layout.firing_order = {1, 3, 2};
  layout.banks = {{"row", 0, {1, 2, 3}, {}}};
  const JobModel model = make_job_model(engine_with(layout), {});
  ASSERT_TRUE(model.mark_suffices);
  std::vector<JobEvent> events{LobeSeen{1, Lobe::hidden}, LobeSeen{2, Lobe::hidden}};
  for (const int port : {1, 2, 3}) events.push_back(LookedInto{port, Saw::hidden});
  events.insert(events.end(), {PortsEmptied{}, PlugsCounted{}});
  const Advice a = advise(model, fold(model, events));
  ASSERT_EQ(a.stage, Stage::turn);
  EXPECT_EQ(a.sentence, "Turn the crank until its mark stands at the pointer.");
  ASSERT_TRUE(a.wide.and_then);
  EXPECT_TRUE(a.others.empty()) << "no number of blind turns would do";
  JobRules by_starter;
  by_starter.turn_by = TurnBy::starter;
  const JobModel bumped = make_job_model(engine_with(layout), by_starter);
  EXPECT_EQ(advise(bumped, fold(bumped, events)).sentence,
            "By wrench: turn the crank until its mark stands at the pointer.")
      << "and no number of bumps";
  events.push_back(std::get<JobEvent>(a.wide.does));
  EXPECT_TRUE(fold(model, events).reckoned.full());
  events.push_back(*a.wide.and_then);
  EXPECT_NEAR(fold(model, events).reckoned.total_deg(), 20, 1e-9) << "two arcs of ten degrees";
}

/// The crank is turned to its mark with empty ports only: after a look plugs are in.
TEST(FewPorts, TheJobBeginsAtTheMarkWhilePortsAreEmpty) {
  const JobModel model = make_job_model(inline_four(), {});
  const auto stage = [&](const std::vector<JobEvent>& events) {
    return advise(model, fold(model, events)).stage;
  };
  ASSERT_TRUE(model.mark_suffices);
  EXPECT_EQ(stage({}), Stage::turn);
  EXPECT_EQ(stage({CrankMoved{}}), Stage::turn);
  EXPECT_EQ(stage({LookedInto{1, Saw::open}, CrankMoved{}}), Stage::look);
  EXPECT_EQ(stage({NoMark{}}), Stage::look);
  EXPECT_EQ(stage({Turned{0, kCycle_deg}, MarkRead{0, kMarkReads_deg}}), Stage::look);
}

/// Of two places a turn apart neither is chosen by an opinion; near one of them it is.
TEST(FewPorts, JustTouchingDoesNotChooseBetweenPlacesOfTheMark) {
  const JobModel model = make_job_model(inline_four(), {});
  const auto where = [&](double mark_deg) {
    return weigh(model,
                 fold(model, std::vector<JobEvent>{MarkRead{mark_deg, 5}, LookedInto{1, Saw::touching}}))
        .where;
  };
  double near = 0, neither = 0;
  for (double mark = 0; mark < 360; mark += 5) {
    const PortArcs& port = model.ports[0];
    const ArcSet both = fold(model, std::vector<JobEvent>{MarkRead{mark, 5}}).reckoned;
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
