// The bump plan against brute force that shares none of its code: value iteration over every (bin, set of
// ports) on the table's own trials, and games played with dice. What these cannot see: a wrong rest table.
#include <algorithm>
#include <cmath>
#include <memory>
#include <random>

#include "sim/plan/bump_learn.hpp"
#include "sim/plan/bump_plan.hpp"
#include "sim/plan/wrench.hpp"
#include "tests/cranking/engines.hpp"

namespace shutlane::testing {
namespace {

std::vector<int> all_of(const Engine& e) {
  std::vector<int> out;
  for (const Cylinder& c : e.cylinders) out.push_back(c.number);
  return out;
}

/// A table of invented trials: any angle forward, a little back, some that do not move at all.
RestTable invented(double period, int presses, int trials, uint64_t seed) {
  std::mt19937_64 rng(seed);
  RestTable t;
  for (int h = 0; h < presses; ++h) t.presses_s.push_back(0.1 + 0.1 * h);
  t.cars = {{{}, 0.7}, {{}, 0.3}};
  t.trials_per_car = trials;
  t.period_deg = period;
  t.phases = int(period);
  for (int i = 0; i < t.phases; ++i)
    for (int h = 0; h < presses; ++h)
      for (int k = 0; k < 2 * trials; ++k) {
        const int far = 60 + 130 * h;
        int moved = std::uniform_int_distribution<int>(-20, far)(rng);
        if (std::uniform_int_distribution<int>(0, 3)(rng) == 0) moved = 0;
        t.moved.push_back(int16_t(moved));
      }
  return t;
}

/// Fewest expected bumps by plain sweeps over every bin and every set, until nothing changes.
struct BruteForce {
  const RestTable& t;
  const SureBins& bins;
  std::vector<std::vector<double>> v;  // [set][bin]

  double q(int bin, PortSet left, int press) const {
    double sum = 1;
    for (size_t car = 0; car < t.cars.size(); ++car)
      for (int k = 0; k < t.trials_per_car; ++k) {
        const int phase = int(std::fmod(bin, t.period_deg));
        const size_t at = ((size_t(phase) * t.presses_s.size() + size_t(press)) * t.cars.size() + car) *
                              size_t(t.trials_per_car) +
                          size_t(k);
        const int rest = ((bin + t.moved[at]) % 720 + 720) % 720;
        const PortSet then = left & ~bins.sure[size_t(rest)];
        sum += t.cars[car].weight / t.trials_per_car * v[then][size_t(rest)];
      }
    return sum;
  }
  BruteForce(const RestTable& table, const SureBins& sure) : t(table), bins(sure) {
    const PortSet sets = PortSet(1) << sure.ports;
    v.assign(sets, std::vector<double>(720, 0));
    for (PortSet s = 1; s < sets; ++s) {
      for (int sweep = 0; sweep < 20000; ++sweep) {
        double change = 0;
        for (int b = 0; b < 720; ++b) {
          double best = 0;
          const PortSet here = s & ~bins.sure[size_t(b)];
          if (here != s) {
            best = v[here][size_t(b)];
          } else {
            best = 1e18;
            for (int h = 0; h < int(t.presses_s.size()); ++h) best = std::min(best, q(b, s, h));
          }
          change = std::max(change, std::abs(best - v[s][size_t(b)]));
          v[s][size_t(b)] = best;
        }
        if (change < 1e-13) break;
      }
    }
  }
};

TEST(BumpPlan, EqualsBruteForceOnSmallEngines) {
  for (const int n : {2, 3, 4}) {
    for (const bool repeats : {true, false}) {
      const Engine e = engine_of(spec_of(even(n)));
      const auto table = std::make_shared<const RestTable>(
          invented(repeats ? 720.0 / n : 720, 3, 3, uint64_t(17 * n + repeats)));
      BumpPlanner planner(e, table);
      EXPECT_EQ(planner.sure_bins().period, repeats ? 720 / n : 720);
      const BruteForce brute(*table, planner.sure_bins());
      const PortSet full = (PortSet(1) << n) - 1;
      for (int b = 0; b < 720; b += 7)
        for (PortSet left = 1; left <= full; ++left) {
          const PortSet here = left & ~planner.sure_bins().sure[size_t(b)];
          const double want = brute.v[here][size_t(b)];
          EXPECT_NEAR(planner.bumps_at(b, planner.numbers(left)), want, 1e-6 * (1 + want)) << n << " " << b;
        }
      // The whole plan from a known start: the best of the first presses over the five smeared bins.
      const BumpStart start = start_at(35.5);
      const BumpPlan plan = planner.plan(start, all_of(e));
      ASSERT_TRUE(plan.possible());
      const PortSet left = full & ~planner.ports(plan.done_at_start);
      double best = 1e18;
      for (int h = 0; h < 3; ++h) {
        double sum = 0;
        for (int b = 0; b < 720; ++b)
          if (start.weight[size_t(b)] > 0) sum += start.weight[size_t(b)] * (left ? brute.q(b, left, h) : 0);
        best = std::min(best, sum);
        EXPECT_NEAR(plan.presses[size_t(h)].expected_bumps, sum, 1e-5 * sum);
      }
      EXPECT_NEAR(plan.expected_bumps, best, 1e-6 * (1 + best));
      EXPECT_LT(plan.relative_error, 1e-7);
      for (const Habit& h : plan.habits)
        EXPECT_GE(h.expected_bumps, plan.expected_bumps * (1 - 1e-7)) << h.name;
      EXPECT_LE(plan.press_min_s, plan.press_s);
      EXPECT_GE(plan.press_max_s, plan.press_s);
      // Of presses that are equally good none is nearer the middle of what is nearly as good.
      const double middle_s = (plan.press_min_s + plan.press_max_s) / 2;
      for (const PressScore& s : plan.presses)
        if (s.expected_bumps <= plan.expected_bumps && s.press_s >= plan.press_min_s &&
            s.press_s <= plan.press_max_s) {
          EXPECT_LE(std::abs(plan.press_s - middle_s), std::abs(s.press_s - middle_s) + 1e-6);
        }
    }
  }
}

/// Where every press scatters alike, the one named leaves room to both sides.
TEST(BumpPlan, OfEquallyGoodPressesTheMiddleOneIsNamed) {
  const Engine e = engine_of(spec_of(inline_four()));
  RestTable alike = invented(180, 5, 3, 4);
  for (size_t phase = 0; phase < 180; ++phase)
    for (size_t press = 1; press < 5; ++press)
      std::copy_n(alike.moved.begin() + std::ptrdiff_t(phase * 5 * 6), 6,
                  alike.moved.begin() + std::ptrdiff_t((phase * 5 + press) * 6));
  BumpPlanner planner(e, std::make_shared<const RestTable>(alike));
  const BumpPlan plan = planner.plan(start_unknown(), all_of(e));
  ASSERT_TRUE(plan.possible());
  EXPECT_EQ(plan.press_s, alike.presses_s[2]);
  EXPECT_EQ(plan.press_min_s, alike.presses_s[0]);
  EXPECT_EQ(plan.press_max_s, alike.presses_s[4]);
}

TEST(BumpPlan, TurningThePictureChangesNothing) {
  // The solver folds sets that differ by firing intervals into one; the same table unfolded must give the
  // same.
  const Engine e = engine_of(spec_of(inline_six()));
  const RestTable folded = invented(120, 4, 4, 5);
  RestTable unfolded = folded;
  unfolded.period_deg = 720;
  unfolded.phases = 720;
  unfolded.moved.clear();
  for (int i = 0; i < 6; ++i)
    unfolded.moved.insert(unfolded.moved.end(), folded.moved.begin(), folded.moved.end());
  BumpPlanner a(e, std::make_shared<const RestTable>(folded)),
      b(e, std::make_shared<const RestTable>(unfolded));
  for (int bin = 0; bin < 720; bin += 11)
    EXPECT_NEAR(a.bumps_at(bin, {1, 2, 3, 4, 5, 6}), b.bumps_at(bin, {1, 2, 3, 4, 5, 6}), 1e-6);
  EXPECT_LT(a.sets_solved(), b.sets_solved());
}

/// Plays a policy with dice on the table; returns mean and standard error.
template <typename Choose>
std::pair<double, double> played(const BumpPlanner& p, PortSet full, int games, uint64_t seed,
                                 bool number_order, const Choose& choose) {
  std::mt19937_64 rng(seed);
  const RestTable& t = p.table();
  double sum = 0, squares = 0;
  for (int g = 0; g < games; ++g) {
    int bin = std::uniform_int_distribution<int>(0, 719)(rng), bumps = 0;
    PortSet left = full;
    while (true) {
      const PortSet sure = p.sure_bins().sure[size_t(bin)];
      if (number_order) {
        for (const int number : p.numbers(left)) {
          if (!(sure & p.ports({number}))) break;
          left &= ~p.ports({number});
        }
      } else {
        left &= ~sure;
      }
      if (left == 0 || bumps > 5000) break;
      const int press = choose(bin, left, bumps);
      double at = std::uniform_real_distribution<double>(0, 1)(rng);
      size_t car = 0;
      while (car + 1 < t.cars.size() && at >= t.cars[car].weight) at -= t.cars[car++].weight;
      const int k = std::uniform_int_distribution<int>(0, t.trials_per_car - 1)(rng);
      bin = ((bin + t.trials(t.phase_of(bin), press, int(car))[k]) % 720 + 720) % 720;
      ++bumps;
    }
    sum += bumps;
    squares += double(bumps) * bumps;
  }
  const double mean = sum / games;
  return {mean, std::sqrt((squares / games - mean * mean) / games)};
}

TEST(BumpPlan, GamesPlayedWithDiceAgree) {
  const Engine e = engine_of(spec_of(inline_six()));
  RestTableQuestion q;
  q.trials_per_car = 8;
  q.threads = 2;
  const CrankingModel m = model_of(spec_of(inline_six()));
  const auto table = std::make_shared<const RestTable>(*build_rest_table(m, q));
  BumpPlanner p(e, table);
  const BumpPlan plan = p.plan(start_unknown(), all_of(e));
  ASSERT_TRUE(plan.possible());
  ASSERT_EQ(plan.habits.size(), 4u);
  const PortSet full = 63;
  const auto index_of = [&](double press_s) {
    for (size_t h = 0; h < table->presses_s.size(); ++h)
      if (std::abs(table->presses_s[h] - press_s) < 1e-9) return int(h);
    return -1;
  };
  const auto near = [](std::pair<double, double> game, double want) {
    EXPECT_NEAR(game.first, want, 4 * game.second + 1e-3);  // four standard errors
  };
  near(played(p, full, 20000, 1, false,
              [&](int bin, PortSet left, int bumps) {
                return index_of(bumps == 0 ? plan.press_s : p.press_at(bin, p.numbers(left)));
              }),
       plan.expected_bumps);
  near(played(p, full, 4000, 2, true, [&](int, PortSet, int) { return index_of(plan.habits[0].press_s); }),
       plan.habits[0].expected_bumps);
  for (const size_t i : {1u, 3u})
    near(played(p, full, 8000, 3 + i, false,
                [&](int, PortSet, int) { return index_of(plan.habits[i].press_s); }),
         plan.habits[i].expected_bumps);
  EXPECT_EQ(plan.habits[2].press_s, 0.10);
  EXPECT_EQ(plan.habits[3].press_s, 0.30);
  // The order of magnitude of a rough first model of a warm inline six: 1.06 at best, 1.08 with a fixed 0.3
  // s.
  EXPECT_LT(plan.expected_bumps, 1.15);
  EXPECT_LT(plan.habits[3].expected_bumps, 1.3);
  EXPECT_GT(plan.habits[0].expected_bumps, 4);
  EXPECT_GT(plan.finish_first, 0.85);
}

/// As many cylinders as are planned for: the plan's expectation is what its own policy takes with dice.
TEST(BumpPlan, SixteenCylindersAgreeWithDice) {
  const Engine e = engine_of(spec_of(even(16)));
  const auto table = std::make_shared<const RestTable>(invented(45, 4, 6, 31));
  BumpPlanner p(e, table);
  const BumpPlan plan = p.plan(start_unknown(), all_of(e));
  ASSERT_TRUE(plan.possible());
  EXPECT_LT(plan.relative_error, 1e-6);
  const auto index_of = [&](double press_s) {
    return int(
        std::min_element(table->presses_s.begin(), table->presses_s.end(),
                         [&](double a, double b) { return std::abs(a - press_s) < std::abs(b - press_s); }) -
        table->presses_s.begin());
  };
  const auto [mean, error] = played(p, 0xffff, 8000, 5, false, [&](int bin, PortSet left, int bumps) {
    return index_of(bumps == 0 ? plan.press_s : p.press_at(bin, p.numbers(left)));
  });
  EXPECT_NEAR(mean, plan.expected_bumps, 4 * error + 1e-3);
  for (const double press_s : table->presses_s) {  // no fixed press does better
    const auto fixed =
        played(p, 0xffff, 2000, 6, false, [&](int, PortSet, int) { return index_of(press_s); });
    EXPECT_GT(fixed.first + 4 * fixed.second, plan.expected_bumps);
  }
}

TEST(BumpPlan, SaysWhenThereIsNone) {
  const Engine e = engine_of(spec_of(inline_four()));
  RestTable still = invented(180, 2, 2, 1);
  std::fill(still.moved.begin(), still.moved.end(), int16_t(0));  // no press moves the crank
  BumpPlanner stuck(e, std::make_shared<const RestTable>(still));
  const BumpPlan never = stuck.plan(start_at(35), {1, 2, 3, 4});
  EXPECT_FALSE(never.possible());
  EXPECT_TRUE(never.may_never_end);
  BumpPlanner wide(e, std::make_shared<const RestTable>(invented(180, 2, 2, 1)), {}, 300);
  const BumpPlan narrow = wide.plan(start_at(35), {1, 3});
  EXPECT_EQ(narrow.no_plan, (std::vector<int>{1, 3}));
  const BumpPlan nothing = stuck.plan(start_at(35), {});
  EXPECT_TRUE(nothing.possible());
  EXPECT_EQ(nothing.expected_bumps, 0);
  EXPECT_EQ(nothing.finish_first, 1);
}

TEST(BumpPlan, APressThatMayLeadIntoATrapIsNotTaken) {
  // Press 0 finishes half the time and else falls into bin 1, where nothing moves; press 1 takes longer, but
  // surely ends. A policy that may never end has no expectation.
  SureBins bins;
  bins.ports = 1;
  bins.sure[2] = 1;
  RestTable t;
  t.presses_s = {0.1, 0.2};
  t.cars = {{{}, 1}};
  t.trials_per_car = 2;
  t.period_deg = 720;
  t.phases = 720;
  t.moved.assign(720 * 2 * 2, 0);
  t.moved[0] = 2, t.moved[1] = 1;  // from bin 0, press 0: bin 2 or bin 1
  t.moved[2] = 2, t.moved[3] = 0;  // from bin 0, press 1: bin 2 or stay
  const RestLaw law(t, {1});
  BumpSolver solver(law, bins);
  EXPECT_NEAR(solver.bumps(0, 1), 2, 1e-6);
  EXPECT_EQ(solver.best_press(0, 1), 1);
  EXPECT_EQ(solver.bumps(1, 1), kNever);
}

TEST(BumpPlan, ChainsThatHardlyMoveAreStillRight) {
  // A chain with p = 0.002 a bump: 500 bumps. A stop on small changes alone would be far off (check values,
  // 9).
  SureBins bins;
  bins.ports = 1;
  bins.sure[1] = 1;
  RestTable t;
  t.presses_s = {0.1};
  t.cars = {{{}, 1}};
  t.trials_per_car = 500;
  t.period_deg = 720;
  t.phases = 720;
  t.moved.assign(720 * 500, 0);
  t.moved[0] = 1;
  const RestLaw law(t, {1});
  BumpSolver solver(law, bins);
  EXPECT_NEAR(solver.bumps(0, 1), 500, 0.05);  // chances are kept in single precision: 1e-7 / 0.002
  EXPECT_LT(solver.relative_error(), 1e-6);
}

TEST(MixedPlan, CountsTheTurnsThatTheWrenchPlanCounts) {
  for (const Shape& shape : {inline_six(), inline_four(), even(3), even(8)}) {
    const Engine e = engine_of(spec_of(shape));
    const double n = double(e.cylinders.size());
    BumpPlanner p(e, std::make_shared<const RestTable>(invented(720 / n, 3, 3, 9)));
    const std::vector<Windows> windows = shut_windows(e);
    for (double from = 5.5; from < 720; from += 61) {
      WrenchQuestion q;
      q.from_deg = from;
      q.left = all_of(e);
      const MixedPlan mixed = p.mixed(start_at(from), all_of(e), kDefaultAccuracy_deg);
      EXPECT_EQ(mixed.turns_if_wrench_only, int(plan_wrench(windows, q).turns())) << n << " from " << from;
      EXPECT_LE(mixed.expected_moves, mixed.expected_bumps_only * (1 + 1e-9));
      EXPECT_LE(mixed.expected_moves, mixed.turns_if_wrench_only + 1e-9);
      EXPECT_NEAR(mixed.expected_moves, mixed.expected_bumps + mixed.expected_turns, 1e-5);
    }
    const MixedPlan lost = p.mixed(start_unknown(), all_of(e), kDefaultAccuracy_deg);
    EXPECT_FALSE(lost.wrench_first);  // a turn cannot be aimed from an angle that is not known
    EXPECT_NEAR(lost.expected_moves, lost.expected_bumps + lost.expected_turns, 1e-5);
  }
}

TEST(Learning, DoesNotMakeThePlanWorseOnHiddenCars) {
  // Cars with a starter and a friction that nobody knows; eight bumps are watched. The first press chosen
  // before and after is then judged on the hidden car's own table.
  EngineSpec spec = spec_of(inline_four());
  spec.cranking.starter_torque_spread = 0.2;
  spec.cranking.friction_spread = 0.4;
  const Engine e = engine_of(spec);
  const CrankingModel m = model_of(spec);
  RestTableQuestion q;
  q.trials_per_car = 8;
  q.threads = 2;
  const auto table = std::make_shared<const RestTable>(*build_rest_table(m, q));
  std::vector<double> prior;
  for (const CarSample& c : table->cars) prior.push_back(c.weight);
  const double before_press = BumpPlanner(e, table).plan(start_unknown(), all_of(e)).press_s;
  double before = 0, after = 0;
  int moved_towards = 0, cars = 0;
  std::mt19937_64 rng(11);
  for (const double starter : {0.75, 1.0, 1.33})
    for (const double friction : {0.6, 1.6}) {
      CarSample truth;
      truth.draw.starter = starter;
      truth.draw.friction = friction;
      truth.weight = 1;
      RestTableQuestion own = q;
      own.cars = {truth};
      own.trials_per_car = 16;
      const auto hidden = std::make_shared<const RestTable>(*build_rest_table(m, own));
      std::vector<double> weights = prior;
      int bin = 35;
      const int press = 10;  // 0.26 s
      for (int bump = 0; bump < 8; ++bump) {
        const int k = std::uniform_int_distribution<int>(0, 15)(rng);
        const int moved = hidden->trials(hidden->phase_of(bin), press, 0)[k];
        const ReckonedAdvance r = reckoned_advance(*table, weights, bin, press);
        weights = learned(*table, weights, bin, press,
                          moved < r.low_deg    ? Went::less_far
                          : moved > r.high_deg ? Went::further
                                               : Went::as_reckoned);
        bin = ((bin + moved) % 720 + 720) % 720;
      }
      double sum = 0, reckoned = 0;
      for (size_t c = 0; c < weights.size(); ++c) {
        sum += weights[c];
        reckoned += weights[c] * table->cars[c].draw.starter / table->cars[c].draw.friction;
      }
      EXPECT_NEAR(sum, 1, 1e-9);
      double at_first = 0;
      for (size_t c = 0; c < prior.size(); ++c)
        at_first += prior[c] * table->cars[c].draw.starter / table->cars[c].draw.friction;
      const double true_ratio = starter / friction;
      moved_towards += std::abs(std::log(reckoned / true_ratio)) < std::abs(std::log(at_first / true_ratio));
      ++cars;
      const double after_press = BumpPlanner(e, table, weights).plan(start_unknown(), all_of(e)).press_s;
      const BumpPlan own_plan = BumpPlanner(e, hidden).plan(start_unknown(), all_of(e));
      for (const PressScore& s : own_plan.presses) {
        if (s.press_s == before_press) before += s.expected_bumps;
        if (s.press_s == after_press) after += s.expected_bumps;
      }
    }
  RecordProperty("mean_bumps_before", std::to_string(before / cars));
  RecordProperty("mean_bumps_after", std::to_string(after / cars));
  std::printf("mean bumps on hidden cars: %.3f before, %.3f after eight watched bumps\n", before / cars,
              after / cars);
  EXPECT_LE(after, before * 1.005);
  EXPECT_GE(moved_towards, cars - 2);
}

}  // namespace
}  // namespace shutlane::testing
