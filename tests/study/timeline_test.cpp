// The timeline's moves, by hand figures and by properties.
#include "ui/window/study/timeline.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <random>

#include "tests/drawings/demo_engines.hpp"

namespace shutlane {
namespace {

unsigned seed() {
  const char* text = std::getenv("SHUTLANE_SEED");
  return text ? static_cast<unsigned>(std::strtoul(text, nullptr, 10)) : 20250101u;
}
int trials() {
  const char* text = std::getenv("SHUTLANE_TRIALS");
  return text ? std::atoi(text) : 2000;
}

double under(const TimelineRange& r, double part) { return wrap_deg(r.from_deg + part * r.span_deg()); }

TEST(Timeline, ZoomKeepsTheAngleUnderThePointer) {
  std::mt19937 random(seed());
  std::uniform_real_distribution<double> part(0, 1), factor(0.3, 3), from(0, 720), span(kNarrowest_deg, 720);
  for (int i = 0; i < trials(); ++i) {
    const double from_deg = from(random);
    const TimelineRange before{from_deg, from_deg + span(random)};
    const double at = part(random);
    const TimelineRange after = zoomed(before, at, factor(random));
    SCOPED_TRACE("seed " + std::to_string(seed()) + " trial " + std::to_string(i));
    EXPECT_NEAR(std::remainder(under(after, at) - under(before, at), 720.0), 0, 1e-9);
    EXPECT_GE(after.span_deg(), kNarrowest_deg - 1e-9);
    EXPECT_LE(after.span_deg(), 720 + 1e-9);
    EXPECT_GE(after.from_deg, 0);
    EXPECT_LT(after.from_deg, 720);
  }
}

TEST(Timeline, ZoomStopsAtBothEnds) {
  EXPECT_EQ(zoomed({0, 720}, 0.5, 4), (TimelineRange{0, 720}));
  EXPECT_DOUBLE_EQ(zoomed({100, 120}, 0.5, 0.01).span_deg(), kNarrowest_deg);
}

TEST(Timeline, PansRoundTheCycle) {
  EXPECT_EQ(panned({700, 760}, 40), (TimelineRange{20, 80}));
  EXPECT_EQ(panned({10, 70}, -20), (TimelineRange{710, 770}));
}

TEST(Timeline, HoldingPansOnlyWhenItMust) {
  EXPECT_EQ(holding({100, 200}, 150), (TimelineRange{100, 200}));
  EXPECT_EQ(holding({100, 200}, 205), (TimelineRange{115, 215}));  // 5 past, and a tenth of 100
  EXPECT_EQ(holding({100, 200}, 90), (TimelineRange{80, 180}));
  EXPECT_EQ(holding({650, 750}, 20), (TimelineRange{650, 750}));  // 20 is 740
  EXPECT_EQ(holding({0, 720}, 719), (TimelineRange{0, 720}));
}

// The contract's example: intake of cylinder 1 opens 12 before overlap TDC, closes 48 after BDC, exhaust 50
// before BDC and 10 after overlap TDC; sure window {601, 454}.
TEST(Timeline, FindsEveryEventOfACylinder) {
  EngineSpec spec = demo::spec("Single", {1}, {{0, {1}}});
  const Engine engine = demo::built(spec);
  const auto events = crank_events(engine, shut_windows(engine));
  std::vector<std::pair<double, CrankEventKind>> got;
  for (const CrankEvent& e : events) got.emplace_back(std::round(e.at_deg * 1e6) / 1e6, e.kind);
  using K = CrankEventKind;
  EXPECT_EQ(got, (std::vector<std::pair<double, K>>{{130, K::exhaust_opens},
                                                    {335, K::surely_shut_to},
                                                    {348, K::intake_opens},
                                                    {370, K::exhaust_closes},
                                                    {588, K::intake_closes},
                                                    {601, K::surely_shut_from}}));
}

TEST(Timeline, WalksAlongTheEventsBothWays) {
  for (const char* name : {"Inline six", "W12", "Radial seven"}) {
    const Engine engine = demo::named(name);
    const auto events = crank_events(engine, shut_windows(engine));
    for (const Way way : {Way::forward, Way::back}) {
      double at_deg = 10.5, walked_deg = 0;
      size_t seen = 0;
      while (seen < events.size()) {
        const auto there = next_events(events, at_deg, way);
        ASSERT_FALSE(there.empty());
        const double to_deg = there.front().at_deg;
        const double step_deg =
            way == Way::forward ? forward_deg(at_deg, to_deg) : forward_deg(to_deg, at_deg);
        EXPECT_GT(step_deg, 0);
        walked_deg += step_deg;
        at_deg = to_deg;
        seen += there.size();
      }
      // Each event once, and no more than one whole cycle.
      EXPECT_EQ(seen, events.size()) << name;
      EXPECT_LE(walked_deg, 720 + 1e-6) << name;
    }
  }
}

TEST(Timeline, NextPositionIsTheNearestThatWay) {
  WrenchPlan plan;
  plan.positions.resize(3);
  plan.positions[0].at_deg = 35;
  plan.positions[1].at_deg = 395;
  plan.positions[2].at_deg = 700;
  EXPECT_EQ(next_position(plan, 35, Way::forward)->at_deg, 395);
  EXPECT_EQ(next_position(plan, 35, Way::back)->at_deg, 700);
  EXPECT_EQ(next_position(plan, 710, Way::forward)->at_deg, 35);
  EXPECT_EQ(next_position({}, 0, Way::forward), nullptr);
}

TEST(Timeline, RunsAtItsSpeed) {
  TimelineState state;
  state.speed = 3;  // 10 turns a minute: 60 degrees a second
  EXPECT_DOUBLE_EQ(run_on(700, state, 0.5), 10);
}

struct Pointing {
  TimelineState state;
  LanesGeometry geometry;
  Pointing() {
    geometry.plot = {100, 50, 720, 300};  // one degree a unit
    geometry.cylinders = {1, 2, 3};
    geometry.lane_height = 100;
  }
  std::optional<double> point(double x, double y, bool left = false, bool pan = false, double wheel = 0) {
    geometry.from_deg = state.range.from_deg;
    geometry.to_deg = state.range.to_deg;
    return follow(state, geometry, {{x, y}, true, left, pan, wheel, 0});
  }
};

TEST(TimelinePointer, DragsTheNeedle) {
  Pointing p;
  EXPECT_EQ(p.point(150, 100), std::nullopt);
  EXPECT_EQ(p.state.hover_deg, 50);
  EXPECT_EQ(p.state.hover_cylinder, 1);
  EXPECT_EQ(p.point(150, 100, true), 50);
  EXPECT_EQ(p.point(250, 100, true), 150);
  EXPECT_EQ(p.point(50, 700, true), 0) << "dragged out of the plot it waits at the end";
  EXPECT_EQ(p.point(300, 100), std::nullopt) << "let go";
}

TEST(TimelinePointer, AHoldThatBeganOutsideMovesNothing) {
  Pointing p;
  EXPECT_EQ(p.point(50, 20, true), std::nullopt);
  // Pulled in from outside with the button held: it takes hold where it comes in, as a hand would.
  EXPECT_EQ(p.state.grip, TimelineState::Grip::none);
}

TEST(TimelinePointer, PansAndZooms) {
  Pointing p;
  p.point(300, 100, false, true);
  p.point(250, 100, false, true);
  EXPECT_EQ(p.state.range, (TimelineRange{50, 770}));
  p.point(250, 100);
  p.state.range = {};
  p.point(100 + 360, 100, false, false, 2);
  EXPECT_NEAR(p.state.range.span_deg(), 720 * 0.85 * 0.85, 1e-9);
  EXPECT_NEAR(p.state.range.from_deg + 0.5 * p.state.range.span_deg(), 360, 1e-9);
}

}  // namespace
}  // namespace shutlane
