// Where the crank is believed after bumps, against games played with dice: cars, starts and rests are drawn,
// only the sector in which the crank comes to rest is told, and the games that were told the same are
// counted. Shares the table's trials with the code under test, and nothing else.
#include <cmath>
#include <map>
#include <memory>
#include <random>

#include "sim/plan/bump_belief.hpp"
#include "sim/plan/bump_plan.hpp"
#include "tests/cranking/engines.hpp"

namespace shutlane::testing {
namespace {

constexpr int kSector_deg = 60;

Arc sector_of(int bin) { return {double(bin / kSector_deg * kSector_deg), kSector_deg}; }

RestTable small_table(const EngineSpec& spec, std::vector<CarSample> cars = {}, int trials = 16) {
  RestTableQuestion q;
  q.presses_s = {0.10, 0.20, 0.30};
  q.cars = std::move(cars);
  q.trials_per_car = trials;
  q.threads = 2;
  return *build_rest_table(model_of(spec), q);
}

double distance(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0;
  for (size_t i = 0; i < a.size(); ++i) sum += std::abs(a[i] - b[i]);
  return sum / 2;
}

TEST(BumpBelief, IsWhatGamesWithDiceCount) {
  const EngineSpec spec = spec_of(inline_four());
  const RestTable table = small_table(spec);
  std::vector<double> weights;
  for (const CarSample& c : table.cars) weights.push_back(c.weight);
  std::mt19937_64 rng(20260);
  std::discrete_distribution<size_t> any_car(weights.begin(), weights.end());
  struct Games {
    int count = 0;
    std::vector<double> rests = std::vector<double>(kBins, 0), cars;
  };
  std::map<std::pair<int, int>, Games> told;
  for (int game = 0; game < 400000; ++game) {
    const size_t car = any_car(rng);
    int bin = std::uniform_int_distribution<int>(100, 179)(rng);
    int sectors[2];
    for (const int press : {0, 2}) {
      const int trial = std::uniform_int_distribution<int>(0, table.trials_per_car - 1)(rng);
      bin = ((bin + table.trials(table.phase_of(bin), press, int(car))[trial]) % kBins + kBins) % kBins;
      sectors[press == 0 ? 0 : 1] = bin / kSector_deg;
    }
    Games& g = told[{sectors[0], sectors[1]}];
    if (g.cars.empty()) g.cars.assign(weights.size(), 0);
    ++g.count;
    g.rests[size_t(bin)] += 1;
    g.cars[car] += 1;
  }
  int compared = 0;
  for (auto& [sectors, g] : told) {
    if (g.count < 20000) continue;
    ++compared;
    for (double& x : g.rests) x /= g.count;
    for (double& x : g.cars) x /= g.count;
    const std::vector<BumpStop> stops{{ArcSet({{100, 80}}), 0.10, true},
                                      {ArcSet({sector_of(sectors.first * kSector_deg)}), 0.30, true},
                                      {ArcSet({sector_of(sectors.second * kSector_deg)})}};
    const BumpBelief belief = believed_after(table, {}, stops);
    const std::vector<double> even = start_within(stops.back().where).weight;
    // A tenth is kept back for what the table does not foresee, at each of two stops.
    EXPECT_LT(distance(belief.angle, g.rests), 0.2) << sectors.first << " " << sectors.second;
    EXPECT_LT(distance(belief.angle, g.rests), distance(even, g.rests));
    EXPECT_LT(distance(belief.cars, g.cars), 0.06);
    EXPECT_EQ(belief.learnt_from, 2);
  }
  EXPECT_GE(compared, 2);
}

TEST(BumpBelief, APressThatWasNotTimedTellsNothing) {
  const RestTable table = small_table(spec_of(inline_four()), {}, 2);
  const ArcSet here({{100, 40}}), there({{230, 60}});
  for (const bool timed : {false, true}) {
    const BumpBelief b = believed_after(table, {}, std::vector<BumpStop>{{here, 0.2, timed}, {there}});
    double outside = 0, own = 0;
    for (int bin = 0; bin < kBins; ++bin) outside += bin < 229 || bin > 291 ? b.angle[size_t(bin)] : 0;
    for (size_t i = 0; i < table.cars.size(); ++i) own += std::abs(b.cars[i] - table.cars[i].weight);
    EXPECT_NEAR(outside, 0, 1e-12) << "the looks hold";
    EXPECT_EQ(own < 1e-12, !timed);
    EXPECT_EQ(b.learnt_from, timed ? 1 : 0);
    if (!timed) {
      EXPECT_LT(distance(b.angle, start_within(there).weight), 1e-12);
    }
  }
}

/// Looks that tell the sector after each bump show whether a car goes further or less far than stated.
TEST(BumpBelief, TheStopsTellAStrongCarFromAWeakOne) {
  EngineSpec spec = spec_of(inline_four());
  spec.cranking.starter_torque_spread = 0.2;
  spec.cranking.friction_spread = 0.4;
  const RestTable table = small_table(spec);
  std::mt19937_64 rng(7);
  double strong = 0, weak = 0;
  for (const double starter : {0.7, 1.4}) {
    CarSample truth;
    truth.draw.starter = starter;
    truth.draw.friction = 1 / starter;
    truth.weight = 1;
    const RestTable own = small_table(spec, {truth}, 16);
    for (int job = 0; job < 20; ++job) {
      int bin = std::uniform_int_distribution<int>(0, kBins - 1)(rng);
      std::vector<BumpStop> stops{{ArcSet({sector_of(bin)})}};
      for (int bump = 0; bump < 5; ++bump) {
        stops.back().press_s = 0.2;
        stops.back().timed = true;
        const int k = std::uniform_int_distribution<int>(0, 15)(rng);
        bin = ((bin + own.trials(own.phase_of(bin), 1, 0)[k]) % kBins + kBins) % kBins;
        stops.push_back({ArcSet({sector_of(bin)})});
      }
      (starter > 1 ? strong : weak) +=
          stronger_than_stated(table, believed_after(table, {}, stops).cars) / 20;
    }
  }
  std::printf("five bumps watched: a strong car is taken for %.2f stronger, a weak one for %.2f\n", strong,
              weak);
  EXPECT_GT(strong, 0.05);
  EXPECT_LT(weak, -0.05);
}

TEST(BumpBelief, AGainlessPressIsFollowedByALongerOne) {
  const Engine engine = engine_of(spec_of(inline_six()));
  const auto table = std::make_shared<const RestTable>(small_table(spec_of(inline_six()), {}, 4));
  BumpPlanner planner(engine, table);
  for (const double gainless_s : {0.0, 0.1, 0.2, 0.3}) {
    BumpStart start = start_worked(start_unknown().weight);
    start.gainless_s = gainless_s;
    const BumpPlan plan = planner.plan(start, {1, 2, 3, 4, 5, 6});
    ASSERT_TRUE(plan.possible());
    if (gainless_s < 0.3) {
      EXPECT_GT(plan.press_s, gainless_s);
      EXPECT_GT(plan.press_min_s, gainless_s);
    } else {
      EXPECT_LT(plan.press_s, gainless_s) << "there is no longer one, but another";
    }
    EXPECT_LE(planner.mixed(start, {1, 2, 3, 4, 5, 6}, 10).expected_moves, plan.expected_bumps + 1e-9);
  }
  EXPECT_EQ(gainless_press_s(std::vector<BumpStop>{{ArcSet::all(), 0.2, true}, {ArcSet::all()}}), 0.2);
  EXPECT_EQ(
      gainless_press_s(std::vector<BumpStop>{{ArcSet::all(), 0.2, true}, {ArcSet::all(), 0, false, true}}),
      0);
  EXPECT_EQ(gainless_press_s(std::vector<BumpStop>{{ArcSet::all()}}), 0);
}

}  // namespace
}  // namespace shutlane::testing
