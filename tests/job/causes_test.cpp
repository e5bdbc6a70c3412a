// Of a disagreement: what is offered, what choosing it does, and that nothing is blasted before.
#include "sim/job/causes.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "tests/job/engines_for_jobs.hpp"

namespace shutlane {
namespace {

JobEvent event_of(const Press& press) { return press.tells.at(0); }

/// The documented six, its mark at 35: port 1 cannot be open there.
class AtOdds : public ::testing::Test {
 protected:
  JobModel model = make_job_model(inline_six(), {});
  std::vector<JobEvent> events{NoChalk{},
                               MarkRead{35, 0.5},
                               LookedInto{3, Saw::open},
                               LookedInto{6, Saw::open},
                               LookedInto{2, Saw::shut},
                               LookedInto{1, Saw::open}};
  Advice now() const { return advise(model, fold(model, events)); }
  bool anything_to_blast() const {
    const JobState state = fold(model, events);
    return std::any_of(state.ports.begin(), state.ports.end(),
                       [&](const JobPort& port) { return may_blast(model, state, port.cylinder); });
  }
  OfferedCause offered(Suspicion what) const {
    for (const OfferedCause& cause : offered_causes(model, fold(model, events)))
      if (cause.what == what) return cause;
    throw std::runtime_error("not offered");
  }
};

TEST_F(AtOdds, EveryCauseIsOfferedOnceWithACheck) {
  ASSERT_EQ(now().stage, Stage::disagreement);
  std::set<Suspicion> kinds;
  for (const OfferedCause& cause : offered_causes(model, fold(model, events))) {
    kinds.insert(cause.what);
    EXPECT_FALSE(cause.name.empty());
    EXPECT_FALSE(cause.check.empty());
    EXPECT_FALSE(cause.choose.label.empty());
  }
  EXPECT_EQ(kinds.size(), 8u) << "no lobe and no turn was told";
  events.pop_back();
  EXPECT_TRUE(offered_causes(model, fold(model, events)).empty()) << "nothing contradicts";
}

/// The outside reckoning: at every half degree, which looks an eye could have made.
TEST_F(AtOdds, MendingLooksAreThoseOfASweep) {
  const auto possible = [&](int left_out) {
    for (double deg = 0; deg < 720; deg += 0.5) {
      if (std::abs(std::remainder(deg - 35, 360)) > 0.5) continue;
      bool all = true;
      for (const JobEvent& event : events)
        if (const auto* look = std::get_if<LookedInto>(&event); look && look->cylinder != left_out) {
          // Opens 12 before gas-exchange TDC, shuts 48 after BDC: local angles 348 to 588.
          const double local = model.engine.find(look->cylinder)->local_deg(deg);
          const bool open = local > 348 && local < 588;
          all = all && open == (look->saw == Saw::open);
        }
      if (all) return true;
    }
    return false;
  };
  std::vector<int> expected;
  for (const int port : {1, 2, 3, 6})
    if (possible(port)) expected.push_back(port);
  ASSERT_FALSE(possible(0));
  EXPECT_EQ(mending_looks(model, fold(model, events)), expected);
  EXPECT_EQ(expected, std::vector<int>{1});
}

TEST_F(AtOdds, AMisleadingLookIsTakenBackAndAskedForAgain) {
  const OfferedCause cause = offered(Suspicion::missed_look);
  const auto chosen = std::get<CauseChosen>(event_of(cause.choose));
  EXPECT_EQ(chosen.cylinder, 1);
  EXPECT_EQ(cause.choose.label, "look into 1 again");
  events.push_back(chosen);
  EXPECT_EQ(now().stage, Stage::look_again);
  EXPECT_EQ(now().sentence, "Look into port 1 again.");
  EXPECT_FALSE(anything_to_blast()) << "port 2 is witnessed, but the look is not made again yet";
  EXPECT_TRUE(fold(model, events).find(2)->seen) << "the other looks stay";
  events.push_back(LookedInto{1, Saw::shut});
  EXPECT_EQ(now().stage, Stage::blast);
  EXPECT_TRUE(anything_to_blast());
}

TEST_F(AtOdds, TheSameAnswerAgainIsTheSameDisagreement) {
  events.push_back(event_of(offered(Suspicion::wrong_port).choose));
  events.push_back(LookedInto{1, Saw::open});
  EXPECT_EQ(now().stage, Stage::disagreement);
  EXPECT_FALSE(anything_to_blast());
}

/// Asked again and again, a look would one day get another answer, and a port be blasted on it.
TEST_F(AtOdds, ALookThatSaidTheSameAgainIsNotBlamedAgain) {
  events.push_back(event_of(offered(Suspicion::missed_look).choose));
  events.push_back(LookedInto{1, Saw::open});
  ASSERT_EQ(now().stage, Stage::disagreement);
  const std::vector<OfferedCause> causes = offered_causes(model, fold(model, events));
  ASSERT_EQ(causes.size(), 8u);
  for (size_t i = 0; i < causes.size(); ++i) {
    const bool look = causes[i].what == Suspicion::missed_look || causes[i].what == Suspicion::wrong_port;
    EXPECT_EQ(look, i >= 6) << "looks come last: " << causes[i].name;
    EXPECT_TRUE(!look || std::get<CauseChosen>(event_of(causes[i].choose)).cylinder == 0);
  }
  // Chosen all the same, it takes every look with it.
  events.push_back(CauseChosen{Suspicion::missed_look, 1, 0});
  for (const int port : {1, 2, 3, 6}) EXPECT_TRUE(fold(model, events).find(port)->look_due) << port;
  EXPECT_TRUE(now().where.full());
}

TEST_F(AtOdds, AnotherAnswerIsNoConfirmation) {
  events.push_back(event_of(offered(Suspicion::missed_look).choose));
  events.push_back(LookedInto{1, Saw::shut});
  EXPECT_FALSE(fold(model, events).find(1)->confirmed);
  EXPECT_NE(now().stage, Stage::disagreement);
}

TEST_F(AtOdds, AMovedCrankIsLost) {
  events.push_back(event_of(offered(Suspicion::moved).choose));
  EXPECT_TRUE(now().where.full());
  EXPECT_EQ(now().stage, Stage::clear) << "bungs are in";
  events.insert(events.end(), {PortsEmptied{}, BungsCounted{}});
  EXPECT_EQ(now().stage, Stage::mark);
}

TEST_F(AtOdds, APartAtFaultKeepsAdviceOffUntilEveryLookIsMadeAgain) {
  for (const Suspicion what :
       {Suspicion::phaser, Suspicion::chain, Suspicion::crumb, Suspicion::engine_data}) {
    const std::vector<JobEvent> before = events;
    events.push_back(event_of(offered(what).choose));
    for (const LookedInto& look : {LookedInto{1, Saw::shut}, LookedInto{2, Saw::shut},
                                   LookedInto{3, Saw::open}, LookedInto{6, Saw::open}}) {
      EXPECT_EQ(now().stage, Stage::look_again);
      EXPECT_TRUE(now().second.starts_with("First ")) << now().second;
      EXPECT_FALSE(anything_to_blast());
      events.push_back(look);
    }
    EXPECT_NE(now().stage, Stage::look_again);
    EXPECT_NE(now().stage, Stage::disagreement);
    events = before;
  }
}

TEST_F(AtOdds, LookingAgainIsNoWayRoundTheChoice) {
  events.push_back(LooksForgotten{});
  events.push_back(LookedInto{2, Saw::shut});
  EXPECT_EQ(now().stage, Stage::look_again);
  EXPECT_FALSE(anything_to_blast());
}

/// A mark can be wrong like a look. It alone is taken back: the looks stay, and with them what they say.
TEST_F(AtOdds, TheMarkCanBeAtFault) {
  events = {MarkRead{0, kMarkReads_deg}, LookedInto{5, Saw::open}};  // at 0 and at 360 port 5 is shut
  ASSERT_EQ(now().stage, Stage::disagreement);
  const OfferedCause mark = offered(Suspicion::mark);
  EXPECT_EQ(mark.name, "The crank\u2019s mark was not in line.");
  const std::vector<OfferedCause> causes = offered_causes(model, fold(model, events));
  const auto rank = [&](Suspicion what) {
    return std::find_if(causes.begin(), causes.end(), [&](const OfferedCause& c) { return c.what == what; }) -
           causes.begin();
  };
  EXPECT_LE(rank(Suspicion::mark), 1) << "one look against one mark";
  EXPECT_LT(rank(Suspicion::mark), rank(Suspicion::engine_data));
  events.push_back(event_of(mark.choose));
  EXPECT_NE(now().stage, Stage::disagreement);
  EXPECT_EQ(now().where, fold(model, std::vector<JobEvent>{LookedInto{5, Saw::open}}).here.where(model));
  EXPECT_EQ(fold(model, events).find(5)->seen, Saw::open);
  EXPECT_FALSE(fold(model, events).mark_here);
  EXPECT_TRUE(fold(model, events).looks_due() == false) << "no look is at fault";
}

/// A lobe that contradicts a look is among the causes, and taken back it leaves the look alone.
TEST(Causes, TheLobeCanBeAtFault) {
  const JobModel model = make_job_model(inline_four(), {});
  std::vector<JobEvent> events{LookedInto{1, Saw::open}, LobeSeen{1, Lobe::away}};
  const JobState state = fold(model, events);
  ASSERT_EQ(advise(model, state).stage, Stage::disagreement);
  bool found = false;
  for (const OfferedCause& cause : offered_causes(model, state)) {
    if (cause.what != Suspicion::lobe) continue;
    found = true;
    EXPECT_EQ(cause.choose.label, "lobe 1");
    std::vector<JobEvent> mended = events;
    mended.push_back(event_of(cause.choose));
    EXPECT_NE(advise(model, fold(model, mended)).stage, Stage::disagreement);
    EXPECT_EQ(fold(model, mended).find(1)->seen, Saw::open);
    EXPECT_EQ(fold(model, mended).here.where(model),
              fold(model, std::vector<JobEvent>{events[0]}).here.where(model));
  }
  EXPECT_TRUE(found);
}

/// Counted one turn too many: the looks of the new position fit each other, but not the turn that was told.
TEST(Causes, TheTurnCanBeAtFault) {
  const JobModel model = make_job_model(inline_six(), {});
  // At 35 degrees ports 3 and 6 are open; a full turn on, 1 and 4 would be.
  std::vector<JobEvent> events{MarkRead{35, 2},  LookedInto{3, Saw::open}, LookedInto{1, Saw::shut},
                               Turned{355, 365}, LookedInto{3, Saw::open}, LookedInto{6, Saw::open}};
  const JobState state = fold(model, events);
  ASSERT_EQ(advise(model, state).stage, Stage::disagreement);
  const std::vector<OfferedCause> causes = offered_causes(model, state);
  const auto turn = std::find_if(causes.begin(), causes.end(),
                                 [](const OfferedCause& cause) { return cause.what == Suspicion::turn; });
  ASSERT_NE(turn, causes.end());
  EXPECT_EQ(turn, causes.begin()) << "two looks agree against one turn";
  events.push_back(event_of(turn->choose));
  const JobState mended = fold(model, events);
  EXPECT_NE(advise(model, mended).stage, Stage::disagreement);
  EXPECT_EQ(mended.find(3)->seen, Saw::open);
  EXPECT_EQ(mended.find(6)->seen, Saw::open);
  EXPECT_TRUE(mended.here.where(model).contains(35));
  // Without a turn that was told, nobody suspects one.
  for (const OfferedCause& cause :
       offered_causes(model, fold(model, std::vector<JobEvent>{MarkRead{0, 5}, LookedInto{5, Saw::open}})))
    EXPECT_NE(cause.what, Suspicion::turn);
}

/// A crumb holds open a port that somebody saw open.
TEST_F(AtOdds, NoCrumbInAPortThatNobodyLookedInto) {
  events = {MarkRead{35, 0.5}, LookedInto{3, Saw::shut}, LookedInto{1, Saw::shut}};
  ASSERT_EQ(now().stage, Stage::disagreement);
  for (const OfferedCause& cause : offered_causes(model, fold(model, events)))
    EXPECT_NE(cause.what, Suspicion::crumb) << cause.name;
}

/// Two marks that exclude each other: no look mends it, and starting again must lead out.
TEST_F(AtOdds, MarksThatExcludeEachOther) {
  events = {MarkRead{35, 2}, MarkRead{120, 2}};
  ASSERT_EQ(now().stage, Stage::disagreement);
  EXPECT_TRUE(mending_looks(model, fold(model, events)).empty());
  const std::vector<JobEvent> before = events;
  for (const OfferedCause& cause : offered_causes(model, fold(model, before))) {
    events = before;
    events.push_back(event_of(cause.choose));
    EXPECT_EQ(now().stage, Stage::mark) << cause.name;
  }
  events = before;
  events.push_back(LooksForgotten{});
  EXPECT_EQ(now().stage, Stage::mark);
}

}  // namespace
}  // namespace shutlane
