// The chalk line across pulley and cover: a free glance that nobody moved the crank, and what a broken one
// means for what was blasted.
#include <gtest/gtest.h>

#include "sim/job/advice.hpp"
#include "tests/job/engines_for_jobs.hpp"

namespace shutlane {
namespace {

/// The six at 35 degrees: 1, 2, 4 and 5 are shut, 3 and 6 open.
class Chalk : public ::testing::Test {
 protected:
  JobModel model = make_job_model(inline_six(), {});
  std::vector<JobEvent> events{MarkRead{35, 0.5}, LookedInto{3, Saw::open}, LookedInto{6, Saw::open}};
  JobState state() const { return fold(model, events); }
  Advice now() const { return advise(model, state()); }
  void add(std::initializer_list<JobEvent> more) { events.insert(events.end(), more); }
  bool anything_to_blast() const {
    const JobState here = state();
    return std::any_of(here.ports.begin(), here.ports.end(),
                       [&](const JobPort& port) { return may_blast(model, here, port.cylinder); });
  }
  std::vector<int> maybe_inside() const {
    std::vector<int> found;
    for (const JobPort& port : state().ports)
      if (port.maybe_inside) found.push_back(port.cylinder);
    return found;
  }
};

TEST_F(Chalk, IsDrawnBeforeTheFirstBlast) {
  EXPECT_EQ(now().stage, Stage::chalk);
  EXPECT_EQ(now().sentence, "Draw a chalk line across pulley and cover.");
  EXPECT_EQ(now().wide.label, "Chalk line drawn");
  add({LookedInto{1, Saw::shut}});
  EXPECT_TRUE(may_blast_by_looks(model, state(), 1));
  EXPECT_FALSE(may_blast(model, state(), 1));
  EXPECT_FALSE(may(model, state(), BlastStarted{1}));
  EXPECT_EQ(now().stage, Stage::chalk);
  const std::optional<WaitsFor> waits = now().ports[0].waits_for;
  ASSERT_TRUE(waits);
  EXPECT_EQ(waits->what, WaitsFor::What::chalk);
  EXPECT_EQ(now().ports[0].note, "waits: chalk");
  std::vector<JobEvent> before = events;
  add({ChalkSeen{true}});
  EXPECT_TRUE(may_blast(model, state(), 1));
  EXPECT_EQ(now().stage, Stage::blast) << "the look is the last one still";
  events = before;
  add({NoChalk{}});
  EXPECT_TRUE(may_blast(model, state(), 1)) << "where none can be drawn fresh looks do";
}

TEST_F(Chalk, IsLookedAtAfterEveryBlast) {
  add({ChalkSeen{true}, LookedInto{1, Saw::shut}, BlastStarted{1}});
  EXPECT_FALSE(anything_to_blast());
  std::vector<JobEvent> before = events;
  for (const JobEvent& end : std::vector<JobEvent>{PortDone{1}, BlastStopped{1}}) {
    events = before;
    add({end, LookedInto{2, Saw::shut}});
    EXPECT_TRUE(may_blast_by_looks(model, state(), 2));
    EXPECT_FALSE(anything_to_blast()) << "until the chalk was seen";
    EXPECT_EQ(now().stage, Stage::chalk);
    EXPECT_EQ(now().sentence, "Chalk line: still in line?");
    ASSERT_EQ(now().answers.size(), 2u);
    EXPECT_EQ(now().wide.label, "") << "answers only: nothing lies where done lay";
    add({ChalkSeen{true}});
    EXPECT_TRUE(may_blast(model, state(), 2));
  }
}

TEST_F(Chalk, GoesWithEveryMove) {
  for (const JobEvent& move :
       std::vector<JobEvent>{Turned{350, 370}, Bumped{}, CrankMoved{}, ChalkSeen{false}}) {
    std::vector<JobEvent> all = events;
    all.insert(all.end(), {ChalkSeen{true}, move});
    EXPECT_FALSE(chalk_holds(fold(model, all))) << move.index();
    all.push_back(NoChalk{});
    EXPECT_TRUE(chalk_holds(fold(model, all)));
  }
}

/// Broken after the blast of 4: its valve may have opened over what lies before it. Those of 1 and 2 were
/// shut and sucked out with the line in line after them.
TEST_F(Chalk, BrokenItSuspectsThePortBlastedLastAlone) {
  add({ChalkSeen{true}});
  for (const int port : {1, 2})
    add({LookedInto{port, Saw::shut}, BlastStarted{port}, PortDone{port}, ChalkSeen{true}});
  add({LookedInto{4, Saw::shut}, BlastStarted{4}, PortDone{4}});
  EXPECT_TRUE(maybe_inside().empty());
  add({ChalkSeen{false}});
  EXPECT_EQ(maybe_inside(), std::vector<int>{4});
  EXPECT_EQ(now().stage, Stage::inside);
  EXPECT_TRUE(state().here.where(model).full()) << "and the crank is lost";
  EXPECT_FALSE(anything_to_blast());
  add({InsideLooked{4, Inside::clean}});
  EXPECT_TRUE(maybe_inside().empty());
  EXPECT_EQ(now().stage, Stage::clear) << "it still lies in the port";
}

/// Without a line nobody knows after which blast the crank was moved.
TEST_F(Chalk, WithoutOneEveryPortBlastedHereIsSuspected) {
  add({NoChalk{}});
  for (const int port : {1, 2}) add({LookedInto{port, Saw::shut}, BlastStarted{port}, PortDone{port}});
  add({CrankMoved{}});
  EXPECT_EQ(maybe_inside(), (std::vector<int>{1, 2}));
}

/// A port stopped, not done, was not sucked out by itself.
TEST_F(Chalk, DoesNotClearAPortThatWasStopped) {
  add({ChalkSeen{true}, LookedInto{1, Saw::shut}, BlastStarted{1}, BlastStopped{1}, ChalkSeen{true},
       CrankMoved{}});
  EXPECT_EQ(maybe_inside(), std::vector<int>{1});
}

/// It takes the place of the looks that were asked for because of the pause.
TEST_F(Chalk, InLineTheDoubtOfThePauseIsSmaller) {
  add({ChalkSeen{true}, LookedInto{1, Saw::shut}, BlastStarted{1}, PortDone{1}});
  const double before = state().here.chance_open(2);
  add({ChalkSeen{true}});
  EXPECT_LT(state().here.chance_open(2), before);
}

}  // namespace
}  // namespace shutlane
