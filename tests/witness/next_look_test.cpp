// The only chooser of looks against a sweep: every angle of a fine comb asked by itself, without arcs. What
// lies between two teeth (0.05 degrees) it cannot see. And everybody who asks is told the same.
#include "sim/witness/next_look.hpp"

#include <algorithm>
#include <random>

#include "sim/plan/plan_from_looks.hpp"
#include "sim/witness/locate.hpp"
#include "tests/witness/engines.hpp"
#include "tests/witness/trials.hpp"

namespace shutlane {
namespace {

constexpr double kTooth_deg = 0.05;

std::vector<char> comb(const ArcSet& set) {
  std::vector<char> teeth(static_cast<size_t>(kCycle_deg / kTooth_deg), 0);
  for (size_t i = 0; i < teeth.size(); ++i) {
    const double at_deg = (static_cast<double>(i) + 0.37) * kTooth_deg;
    for (const Arc& arc : set.arcs()) {
      double into_deg = at_deg - arc.from_deg;
      if (into_deg < 0) into_deg += kCycle_deg;
      if (into_deg <= arc.length_deg) teeth[i] = 1;
    }
  }
  return teeth;
}

/// Length expected to be left by a look into the port.
double left_deg(const PortSets& port, const std::vector<char>& where) {
  const auto nominal = comb(port.nominal), shut = comb(port.if_shut), open = comb(port.if_open);
  double all = 0, called_shut = 0, stay_shut = 0, stay_open = 0;
  for (size_t i = 0; i < where.size(); ++i) {
    if (!where[i]) continue;
    ++all;
    called_shut += nominal[i];
    stay_shut += shut[i];
    stay_open += open[i];
  }
  return kTooth_deg * (called_shut * stay_shut + (all - called_shut) * stay_open) / all;
}

class Draw {
 public:
  double uniform(double a, double b) { return std::uniform_real_distribution<double>(a, b)(random_); }
  bool happens(double chance) { return uniform(0, 1) < chance; }

 private:
  std::mt19937_64 random_{test::seed()};
};

TEST(NextLook, NoLookLeavesLess) {
  Draw draw;
  SCOPED_TRACE(testing::Message() << "seed " << test::seed());
  int named = 0, none = 0;
  for (const test::Named& shape : test::engines()) {
    const auto ports = port_sets(test::engine_of(shape.shape));
    SCOPED_TRACE(shape.name);
    for (uint64_t trial = 0; trial < test::trials(12); ++trial) {
      std::vector<Arc> arcs;
      for (int i = 0; i < 3; ++i) arcs.push_back({draw.uniform(0, 720), draw.uniform(0.5, 200)});
      arcs.resize(static_cast<size_t>(draw.uniform(1, 4)));
      const ArcSet where = draw.happens(0.1) ? ArcSet::all() : ArcSet(arcs);
      std::vector<int> candidates;
      for (const PortSets& p : ports)
        if (draw.happens(0.7)) candidates.push_back(p.cylinder);
      const auto teeth = comb(where);
      double least_deg = where.total_deg();
      for (const int c : candidates) least_deg = std::min(least_deg, left_deg(*sets_of(ports, c), teeth));
      // An end of each arc may fall on either side of a tooth.
      const double slack_deg = 12 * kTooth_deg;
      const auto found = look_that_narrows(ports, where, candidates);
      if (!found) {
        ++none;
        EXPECT_GT(least_deg, where.total_deg() - slack_deg);
        continue;
      }
      ++named;
      ASSERT_TRUE(std::count(candidates.begin(), candidates.end(), *found));
      EXPECT_LE(left_deg(*sets_of(ports, *found), teeth), least_deg + slack_deg) << *found;
      for (const int c : candidates)  // the first of equals
        if (c < *found) {
          EXPECT_GT(left_deg(*sets_of(ports, c), teeth), least_deg - slack_deg) << c;
        }
    }
  }
  if (test::trials(12) >= 12) {
    EXPECT_GT(named, 50);
    EXPECT_GT(none, 5);
  }
}

TEST(NextLook, OfEqualLooksTheLowestNumber) {
  const auto ports = port_sets(test::engine_of({{1, 5, 3, 6, 2, 4}}));
  EXPECT_EQ(look_that_narrows(ports, ArcSet::all(), {1, 2, 3, 4, 5, 6}), 1);
  EXPECT_EQ(look_that_narrows(ports, ArcSet::all(), {3, 4, 6}), 3);
  EXPECT_FALSE(look_that_narrows(ports, ArcSet::all(), {}));
  EXPECT_FALSE(look_that_narrows(ports, ArcSet({{60, 1}}), {1, 2, 3, 4, 5, 6})) << "nothing left to learn";
}

/// The look that decides between the mark's two places: surely shut at one, under every tolerance open at the
/// other; by stepping, not by arcs.
TEST(NextLook, TheOneThatDecidesIsRightAtBothPlaces) {
  int found_some = 0;
  for (const test::Named& shape : test::engines()) {
    const auto ports = port_sets(test::engine_of(shape.shape));
    SCOPED_TRACE(shape.name);
    std::vector<int> all;
    for (const PortSets& p : ports) all.push_back(p.cylinder);
    for (double mark_deg = 0; mark_deg < 360; mark_deg += 7) {
      const ArcSet where = mark_arcs({mark_deg, 5});
      const auto found = look_that_decides(ports, where, all);
      if (!found) continue;
      ++found_some;
      const PortSets& port = *sets_of(ports, *found);
      const auto all_within = [&](double place_deg, const ArcSet& set) {
        for (double off = -5; off <= 5; off += 0.25)
          if (!set.contains(wrap_deg(place_deg + off))) return false;
        return true;
      };
      const auto none_within = [&](double place_deg, const ArcSet& set) {
        for (double off = -5; off <= 5; off += 0.25)
          if (set.contains(wrap_deg(place_deg + off))) return false;
        return true;
      };
      const double other_deg = mark_deg + 360;
      EXPECT_TRUE((all_within(mark_deg, port.sure) && none_within(other_deg, port.if_shut)) ||
                  (all_within(other_deg, port.sure) && none_within(mark_deg, port.if_shut)))
          << *found << " at " << mark_deg;
    }
  }
  EXPECT_GT(found_some, 100);
}

/// One mind: whoever asks on the same looks is told the same port.
TEST(NextLook, LocateAndThePlanFromLooksNameTheSame) {
  Draw draw;
  SCOPED_TRACE(testing::Message() << "seed " << test::seed());
  int to_blast = 0, to_turn = 0;
  std::vector<test::Named> shapes = test::engines();
  shapes.push_back({"four, open long", {{1, 3, 4, 2}, {}, 60, 110, 10}});  // no turn is always right
  for (const test::Named& shape : shapes) {
    const Engine engine = test::engine_of(shape.shape);
    SCOPED_TRACE(shape.name);
    for (uint64_t trial = 0; trial < test::trials(40); ++trial) {
      const double true_deg = draw.uniform(0, 720), looked = draw.uniform(0, 1);
      Looks looks;
      LooksPlanQuestion question;
      question.margin_deg = draw.uniform(0, 30);
      for (const Cylinder& c : engine.cylinders) {
        if (draw.happens(0.9)) question.left.push_back(c.number);
        if (!draw.happens(looked)) continue;
        const bool shut = lifts_mm(engine, c, ValveKind::intake, true_deg)[0] <= 0.25;
        (shut ? looks.shut : looks.open).push_back(c.number);
      }
      if (draw.happens(0.3)) looks.mark = MarkRead{true_deg + draw.uniform(-4, 4), 5};
      const Location there = locate(engine, looks);
      const LooksPlan plan = plan_from_looks(engine, looks, question);
      ASSERT_EQ(there.contradiction.has_value(), plan.contradiction());
      if (plan.look_to_blast) {
        EXPECT_EQ(plan.look_to_blast, there.next_look);
      }
      if (plan.look_next) {
        EXPECT_EQ(plan.look_next, there.next_look);
      }
      // Nor is the plan silent where nothing can be done without a look.
      if (!plan.contradiction() && plan.blast_now.empty()) {
        EXPECT_EQ(plan.look_to_blast, there.next_look);
      }
      if (!plan.contradiction() && !plan.ready()) {
        EXPECT_EQ(plan.look_next, there.next_look);
      }
      to_blast += plan.look_to_blast.has_value();
      to_turn += plan.look_next.has_value();
    }
  }
  if (test::trials(40) >= 40) {
    EXPECT_GT(to_blast, 50);
    EXPECT_GT(to_turn, 5);
  }
}

}  // namespace
}  // namespace shutlane
