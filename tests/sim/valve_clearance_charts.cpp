// Two-position valve-clearance charts: with the crank at firing TDC of one cylinder, and one crank turn
// later, half the valves each can be measured because they are shut. Common practice, no source (the V8 chart
// from memory). An outside check of order, firing TDC and windows: each listed valve must come out shut.
#include <algorithm>

#include "sim/shut/windows.hpp"
#include "tests/sim/some_engines.hpp"

#include <gtest/gtest.h>

namespace shutlane::test {
namespace {

struct Chart {
  std::vector<int> order;
  std::vector<int> intake[2], exhaust[2];  // at cylinder 1's firing TDC and one turn later
  int fires_at_360;                        // the cylinder at firing TDC one turn later
};

const Chart kCharts[] = {
    {{1, 3, 4, 2}, {{1, 2}, {3, 4}}, {{1, 3}, {2, 4}}, 4},
    {{1, 5, 3, 6, 2, 4}, {{1, 2, 4}, {3, 5, 6}}, {{1, 3, 5}, {2, 4, 6}}, 6},
    {{1, 8, 4, 3, 6, 5, 7, 2}, {{1, 2, 5, 7}, {3, 4, 6, 8}}, {{1, 3, 4, 8}, {2, 5, 6, 7}}, 6},
};

TEST(ValveClearanceChart, ListedValvesAreShut) {
  for (const Chart& chart : kCharts) {
    const Engine engine = built(in_line(chart.order));  // banks play no part in the timing
    EXPECT_EQ(engine.find(chart.fires_at_360)->firing_tdc_deg, 360);
    std::vector<int> all[2];
    for (int turn = 0; turn < 2; ++turn) {
      const double at = 360.0 * turn;
      for (const int number : chart.intake[turn]) {
        const Cylinder& cylinder = *engine.find(number);
        EXPECT_TRUE(nominally_shut(engine, cylinder).contains(at)) << number;
        EXPECT_TRUE(shut_within_tolerance(engine, cylinder).contains(at)) << number;
        for (const double lift : lifts_mm(engine, cylinder, ValveKind::intake, at))
          EXPECT_EQ(lift, 0) << number;
        all[0].push_back(number);
      }
      for (const int number : chart.exhaust[turn]) {
        for (const double lift : lifts_mm(engine, *engine.find(number), ValveKind::exhaust, at))
          EXPECT_EQ(lift, 0) << number;
        all[1].push_back(number);
      }
    }
    for (auto& list : all) {  // each valve once in two positions
      std::sort(list.begin(), list.end());
      EXPECT_EQ(list.size(), engine.cylinders.size());
      for (size_t i = 0; i < list.size(); ++i) EXPECT_EQ(list[i], static_cast<int>(i + 1));
    }
  }
}

TEST(ValveClearanceChart, CompanionCylindersRockWhileTheOtherFires) {
  // Companions 360 degrees apart: I4 1-4, 2-3; I6 1-6, 2-5, 3-4; V8 1-6, 8-5, 4-7, 3-2.
  const std::pair<std::vector<int>, std::vector<std::pair<int, int>>> rows[] = {
      {{1, 3, 4, 2}, {{1, 4}, {2, 3}}},
      {{1, 5, 3, 6, 2, 4}, {{1, 6}, {2, 5}, {3, 4}}},
      {{1, 8, 4, 3, 6, 5, 7, 2}, {{1, 6}, {8, 5}, {4, 7}, {3, 2}}}};
  for (const auto& [order, pairs] : rows) {
    const Engine engine = built(in_line(order));
    for (const auto& [a, b] : pairs)
      for (const auto& [firing, rocking] : {std::pair{a, b}, std::pair{b, a}}) {
        const double at = engine.find(firing)->firing_tdc_deg;
        const Cylinder& other = *engine.find(rocking);
        EXPECT_EQ(other.local_deg(at), 360);
        for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust}) {  // both just off their seats
          EXPECT_GT(lifts_mm(engine, other, kind, at)[0], 0);
          EXPECT_EQ(lifts_mm(engine, *engine.find(firing), kind, at)[0], 0);
        }
      }
  }
}

}  // namespace
}  // namespace shutlane::test
