// Where the crank can stand: every answer against a brute-force walk over the cycle. The walk cuts the cycle
// at all angles where anything can change and asks port_oracle at the middle of each piece; it cannot see
// pieces shorter than 1e-5 degrees (a trial with one is skipped). And the promise behind it all: looks made
// at a true crank angle with true tolerances never exclude that angle, nor call a lifted port shut.
#include "sim/witness/locate.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "tests/sim/dice.hpp"
#include "tests/sim/locate_walk.hpp"
#include "tests/sim/port_oracle.hpp"
#include "tests/sim/some_engines.hpp"

namespace shutlane::test {
namespace {

struct Truth {
  double at_deg;
  std::map<int, std::vector<Moved>> moved;
};

/// Looks as somebody would make them at a true angle: each port seen, or not; open only when above the eye.
Looks true_looks(Dice& dice, const Engine& engine, const Truth& truth) {
  Looks looks;
  looks.eye_mm = dice.pick<double>({0.5, 0.5, 0, 0.2, 1, 3});
  const double seen = dice.pick<double>({0.3, 0.6, 1});
  for (const Cylinder& c : engine.cylinders) {
    if (!dice.chance(seen)) continue;
    const PortOracle port(engine, c.number);
    const double lift = port.lift_mm(truth.at_deg, truth.moved.at(c.number));
    // What stands above the eye's limit is seen open; below it the eye may call it either way.
    const bool open = lift > looks.eye_mm || (lift > 0 && dice.chance(0.3));
    (open ? looks.open : looks.shut).push_back(c.number);
  }
  if (dice.chance(0.3)) {
    const double off = dice.between(-5, 5);
    looks.mark = MarkRead{std::fmod(truth.at_deg + off + 720, 360), dice.between(std::abs(off) + 0.5, 12)};
  }
  return looks;
}

Truth random_truth(Dice& dice, const Engine& engine) {
  Truth truth{dice.between(0, 720), {}};
  for (const Cylinder& c : engine.cylinders)
    truth.moved[c.number] = PortOracle(engine, c.number).sampled(dice);
  return truth;
}

void check_contradiction(const Walk& walk, const Looks& looks, const Contradiction& found) {
  for (const int k : found.shut) EXPECT_TRUE(std::count(looks.shut.begin(), looks.shut.end(), k)) << k;
  for (const int k : found.open) EXPECT_TRUE(std::count(looks.open.begin(), looks.open.end(), k)) << k;
  EXPECT_TRUE(!found.mark || looks.mark);
  auto impossible = [&](const Looks& some) { return walk.length(walk.allowed(some)) == 0; };
  auto only_mark = [&](bool kept) { return kept ? looks.mark : std::nullopt; };
  EXPECT_TRUE(impossible({found.shut, found.open, looks.eye_mm, only_mark(found.mark)}));
  const size_t size = found.shut.size() + found.open.size() + found.mark;
  const size_t s = looks.shut.size(), o = looks.open.size(), n = s + o + looks.mark.has_value();
  for (unsigned chosen = 0; chosen < 1U << n; ++chosen) {  // no smaller set of looks contradicts itself
    if (static_cast<size_t>(__builtin_popcount(chosen)) >= size) continue;
    Looks some{{}, {}, looks.eye_mm, only_mark(looks.mark && (chosen >> (n - 1) & 1U))};
    for (size_t i = 0; i < s + o; ++i)
      if (chosen >> i & 1U)
        (i < s ? some.shut : some.open).push_back(i < s ? looks.shut[i] : looks.open[i - s]);
    EXPECT_FALSE(impossible(some)) << "a smaller contradiction";
  }
}

void check_lists(const Walk& walk, const Looks& looks, const Location& found) {
  const auto here = walk.allowed(looks);
  std::vector<int> surely_shut, witnessed, surely_open, undecided;
  for (const int k : walk.numbers) {
    const PortFacts& f = walk.facts.at(k);
    if (Walk::all(f.within_tolerance, here)) {
      surely_shut.push_back(k);
      if (Walk::all(f.within_tolerance, walk.allowed(looks, k))) witnessed.push_back(k);
    } else {
      (Walk::all(f.always_open, here) ? surely_open : undecided).push_back(k);
    }
  }
  EXPECT_EQ(found.surely_shut, surely_shut);
  EXPECT_EQ(found.witnessed, witnessed);
  EXPECT_EQ(found.surely_open, surely_open);
  EXPECT_EQ(found.undecided, undecided);

  double best = walk.length(here);
  std::optional<int> next;
  bool close_call = false;
  for (const int k : undecided) {
    if (std::count(looks.shut.begin(), looks.shut.end(), k) +
        std::count(looks.open.begin(), looks.open.end(), k))
      continue;  // the same eye at the same valve says the same again
    const double after = walk.after_look(k, here);
    close_call = close_call || (std::abs(best - after - kSame_deg) < 0.9 * kSame_deg);
    if (after > best - kSame_deg) continue;
    best = after;
    next = k;
  }
  if (!close_call) {
    EXPECT_EQ(found.next_look.value_or(0), next.value_or(0));
  }
}

TEST(Locate, EveryAnswerByBruteForce) {
  int judged = 0, impossible = 0;
  for_trials(120, [&](Dice& dice) {
    const Engine engine = built(random_engine(dice, {.cylinders_most = dice.chance(0.1) ? 12 : 6}));
    Looks looks = true_looks(dice, engine, random_truth(dice, engine));
    if (dice.chance(0.4)) {  // somebody looked into the wrong port
      if (!looks.shut.empty() && dice.chance(0.5)) {
        looks.open.push_back(looks.shut.back());
        looks.shut.pop_back();
      } else if (!looks.open.empty()) {
        looks.shut.push_back(looks.open.back());
        looks.open.pop_back();
      }
    }
    const Walk walk(engine, looks);
    if (walk.cells.empty()) return;
    ++judged;
    const Location found = locate(engine, looks);
    const auto here = walk.allowed(looks);
    for (size_t i = 0; i < walk.cells.size(); ++i)
      EXPECT_EQ(found.consistent.contains(walk.cells[i].middle_deg), here[i]) << walk.cells[i].middle_deg;
    EXPECT_NEAR(found.consistent.total_deg(), walk.length(here), 1e-5);
    EXPECT_EQ(found.contradiction.has_value(), walk.length(here) == 0);
    if (found.contradiction) {
      ++impossible;
      check_contradiction(walk, looks, *found.contradiction);
    } else {
      check_lists(walk, looks, found);
    }
  });
  if (trials(120) >= 120) {
    EXPECT_GT(judged, 100);
    EXPECT_GT(impossible, 10);
  }
}

TEST(Locate, TrueLooksNeverExcludeTheTruth) {
  for_trials(800, [](Dice& dice) {
    const Engine engine = built(random_engine(dice));
    const Truth truth = random_truth(dice, engine);
    const Looks looks = true_looks(dice, engine, truth);
    const Location found = locate(engine, looks);
    ASSERT_FALSE(found.contradiction);
    EXPECT_TRUE(found.consistent.contains(truth.at_deg)) << truth.at_deg;
    for (const auto& entry : truth.moved) {
      const int number = entry.first;
      const double lift = PortOracle(engine, number).lift_mm(truth.at_deg, entry.second);
      auto listed = [&](const std::vector<int>& list) {
        return std::count(list.begin(), list.end(), number) > 0;
      };
      if (listed(found.surely_shut) || listed(found.witnessed)) {
        EXPECT_EQ(lift, 0) << number;
      }
      if (listed(found.surely_open)) {
        EXPECT_GT(lift, 0) << number;
      }
    }
  });
}

TEST(Locate, NoLooksNothingKnown) {
  const Engine engine = built(inline_six());
  const Location found = locate(engine, {});
  EXPECT_TRUE(found.consistent.full());
  EXPECT_TRUE(found.surely_shut.empty());
  EXPECT_TRUE(found.surely_open.empty());
  EXPECT_EQ(found.undecided, (std::vector{1, 2, 3, 4, 5, 6}));
  EXPECT_EQ(found.next_look, 1);  // all alike: the lowest number
}

TEST(Locate, APortThatWasLookedIntoIsNotAskedForAgain) {
  const Engine engine = built(inline_six());
  Looks looks;
  std::set<int> asked;
  for (Location found = locate(engine, looks); found.next_look; found = locate(engine, looks)) {
    ASSERT_TRUE(asked.insert(*found.next_look).second) << *found.next_look;
    looks.shut.push_back(*found.next_look);  // at the end of its opening each may look so
    if (locate(engine, looks).contradiction) {
      looks.shut.pop_back();
      looks.open.push_back(*found.next_look);
    }
  }
  EXPECT_GE(asked.size(), 3u);
}

TEST(Locate, APortsOwnLookIsNoSecondWitness) {
  // An eye that tells everything (0 mm) and no tolerance: "1 shut" alone makes 1 surely shut, on its own word
  // only.
  EngineSpec spec = inline_six();
  spec.tolerance.timing_deg = 0;
  const Engine engine = built(spec);
  const Location own = locate(engine, {.shut = {1}, .open = {}, .eye_mm = 0, .mark = {}});
  EXPECT_EQ(own.consistent.arcs(), (std::vector<Arc>{{588, 480}}));
  EXPECT_EQ(own.surely_shut, std::vector{1});
  EXPECT_TRUE(own.witnessed.empty());
  // Cylinder 6 seen open is a witness for its companion 1: the two are never open together.
  const Location both = locate(engine, {.shut = {}, .open = {6}, .eye_mm = 0, .mark = {}});
  EXPECT_EQ(both.consistent.arcs(), (std::vector<Arc>{{708, 240}}));
  EXPECT_TRUE(std::count(both.witnessed.begin(), both.witnessed.end(), 1));
  EXPECT_EQ(both.surely_open, std::vector{6});
}

TEST(Locate, TheEyesLimitKeepsAnglesPastTheSeat) {
  EngineSpec spec = in_line({1});
  spec.tolerance.timing_deg = 0;
  const Engine engine = built(spec);
  const Arc sharp =
      locate(engine, {.shut = {1}, .open = {}, .eye_mm = 0, .mark = {}}).consistent.arcs().at(0);
  const Arc half =
      locate(engine, {.shut = {1}, .open = {}, .eye_mm = 0.5, .mark = {}}).consistent.arcs().at(0);
  EXPECT_GT(half.length_deg, sharp.length_deg + 40);  // 0.5 mm is more than 20 degrees off the seat, twice
  EXPECT_NEAR(engine.trains[0].profile.lift_mm(half.from_deg), 0.5, 1e-9);
}

TEST(Locate, TheMarkIsReadModulo360) {
  const Engine engine = built(inline_six());
  const Location found = locate(engine, {.shut = {}, .open = {}, .eye_mm = 0.5, .mark = MarkRead{358, 5}});
  EXPECT_EQ(found.consistent.arcs(), (std::vector<Arc>{{353, 10}, {713, 10}}));
  const Location late = locate(engine, {.shut = {}, .open = {}, .eye_mm = 0.5, .mark = MarkRead{718, 5}});
  EXPECT_EQ(late.consistent, found.consistent);
}

TEST(Locate, CompanionsBothOpenContradictEachOther) {
  const Engine engine = built(inline_six());
  const Location found = locate(engine, {.shut = {2}, .open = {1, 5, 6}, .eye_mm = 0.5, .mark = {}});
  ASSERT_TRUE(found.contradiction);
  EXPECT_EQ(found.contradiction->open, (std::vector{1, 6}));
  EXPECT_TRUE(found.contradiction->shut.empty());
  EXPECT_FALSE(found.contradiction->mark);
}

TEST(Locate, ASmallestContradictionWhereEndsFallTogether) {
  // Open for 240 degrees, an exact eye and no tolerance: one port's opening ends where another's begins, and
  // a lone point is nowhere to stand.
  EngineSpec spec = inline_six();
  spec.tolerance.timing_deg = 0;
  const Location found = locate(built(spec), {.shut = {}, .open = {1, 3, 5}, .eye_mm = 0, .mark = {}});
  ASSERT_TRUE(found.contradiction);  // openings begin at 348, 588 and 468
  EXPECT_EQ(found.contradiction->open, (std::vector{1, 3}));
}

}  // namespace
}  // namespace shutlane::test
