// The fast path: independence of batch and threads, clustering of rests, the rest table.
#include <cmath>
#include <memory>

#include "sim/cranking/reference.hpp"
#include "sim/cranking/rest_table.hpp"
#include "sim/cranking/trials.hpp"
#include "tests/cranking/engines.hpp"

namespace shutlane::testing {
namespace {

RestTableQuestion small_question() {
  RestTableQuestion q;
  q.presses_s = {0.1, 0.2, 0.3};
  q.trials_per_car = 4;
  return q;
}

TEST(Trials, SameSeedSameNumbersOnAnyThreadCount) {
  const FastKernel kernel(model_of(spec_of(inline_six())));
  TrialsQuestion q{35, 0.3, 5000, 7, 1};
  const TrialsAnswer one = bump_trials(kernel, q);
  q.threads = 3;
  EXPECT_EQ(bump_trials(kernel, q).advance_deg, one.advance_deg);
  q.seed = 8;
  EXPECT_NE(bump_trials(kernel, q).advance_deg, one.advance_deg);
  int counted = 0;
  for (const int c : one.rest_histogram) counted += c;
  EXPECT_EQ(counted, 5000);
  EXPECT_LE(one.p05_deg, one.p50_deg);
  EXPECT_LE(one.p50_deg, one.p95_deg);
}

TEST(Fast, ATrialDoesNotDependOnItsNeighbours) {
  const FastKernel kernel(model_of(spec_of(inline_six())));
  std::vector<FastTrial> all;
  std::vector<float> drives(300);
  for (int i = 0; i < 100; ++i) {
    for (int h = 0; h < 3; ++h) drives[size_t(3 * i + h)] = 0.05f + 0.1f * float(h) + 0.0007f * float(i);
    FastTrial t;
    t.start_deg = 7.3 * i;
    t.draw.friction = 0.7 + 0.006 * i;
    t.drives_s = &drives[size_t(3 * i)];
    t.presses = 3;
    all.push_back(t);
  }
  std::vector<float> together, alone;
  kernel.run(all, together);
  for (size_t i = 0; i < all.size(); i += 9) {
    kernel.run({all[i]}, alone);
    for (size_t h = 0; h < 3; ++h) EXPECT_EQ(alone[h], together[3 * i + h]) << i;
  }
}

TEST(Fast, AWrenchStiffStarterMovesNothing) {
  EngineSpec spec = spec_of(inline_six());
  spec.cranking.starter_torque_nm = 10;  // below breakaway
  const FastKernel kernel(model_of(spec));
  TrialsQuestion q{35, 0.3, 100, 7, 1};
  const TrialsAnswer a = bump_trials(kernel, q);
  EXPECT_EQ(a.p95_deg, 0);
  EXPECT_EQ(bump(model_of(spec), 35, 0.3).advance_deg, 0);
}

TEST(Rests, GatherBetweenCompressionsOnlyWithThePlugsIn) {
  // First Fourier component of the rest angle over a firing interval: near 0 when every angle is equally
  // likely.
  const auto gathering = [](Plugs plugs) {
    const FastKernel kernel(model_of(spec_of(inline_six()), plugs));
    double c = 0, s = 0;
    int n = 0;
    for (double from = 3; from < 120; from += 7) {
      const TrialsAnswer a = bump_trials(kernel, {from, 0.4, 1000, 5, 1});
      for (const float d : a.advance_deg) {
        c += std::cos(2 * kPi * (from + double(d)) / 120);
        s += std::sin(2 * kPi * (from + double(d)) / 120);
        ++n;
      }
    }
    return std::hypot(c, s) / n;
  };
  EXPECT_GT(gathering(Plugs::in), 0.5);
  EXPECT_LT(gathering(Plugs::out), 0.1);
}

TEST(RestTable, DoesNotDependOnThreadsAndSurvivesBytes) {
  const CrankingModel m = model_of(spec_of(inline_four()));
  RestTableQuestion q = small_question();
  const auto one = build_rest_table(m, q);
  q.threads = 4;
  const auto four = build_rest_table(m, q);
  ASSERT_TRUE(one && four);
  EXPECT_EQ(one->hash(), four->hash());
  EXPECT_EQ(one->phases, 180);
  std::vector<unsigned char> bytes = to_bytes(*one);
  const auto back = rest_table_from_bytes(bytes);
  ASSERT_TRUE(back);
  EXPECT_EQ(back->moved, one->moved);
  EXPECT_EQ(back->hash(), one->hash());
  bytes[bytes.size() - 3] ^= 1;
  EXPECT_FALSE(rest_table_from_bytes(bytes));
  bytes.resize(bytes.size() / 2);
  EXPECT_FALSE(rest_table_from_bytes(bytes));
  EXPECT_FALSE(rest_table_from_bytes({}));
}

TEST(RestTable, KeyNamesEveryInput) {
  const EngineSpec spec = spec_of(inline_four());
  const std::string key = rest_table_key(model_of(spec), small_question());
  EXPECT_EQ(key, rest_table_key(model_of(spec), small_question()));
  EngineSpec other = spec;
  other.cranking.friction_bar *= 1.01;
  EXPECT_NE(key, rest_table_key(model_of(other), small_question()));
  other = spec;
  other.cranking.press_spread += 0.01;
  EXPECT_NE(key, rest_table_key(model_of(other), small_question()));
  other = spec;
  other.valves[0].closes_deg += 1;
  EXPECT_NE(key, rest_table_key(model_of(other), small_question()));
  RestTableQuestion q = small_question();
  q.seed = 2;
  EXPECT_NE(key, rest_table_key(model_of(spec), q));
}

TEST(RestTable, GivesUpWhenAskedAndLeavesNothing) {
  RestTableQuestion q = small_question();
  int calls = 0;
  q.progress = [&](double done) {
    ++calls;
    return done < 0.05;
  };
  EXPECT_FALSE(build_rest_table(model_of(spec_of(inline_four())), q));
  EXPECT_LT(calls, 20);
}

TEST(RestTable, EvenEnginesRepeatWithTheirFiringInterval) {
  // The fast path over the whole cycle, made uneven by 1e-3 degrees, against one firing interval only.
  Shape even_six = inline_six(), odd_six = inline_six();
  odd_six.intervals = {120.001, 119.999, 120, 120, 120, 120};
  const CrankingModel even_model = model_of(spec_of(even_six)), odd_model = model_of(spec_of(odd_six));
  ASSERT_EQ(even_model.period_deg(), 120);
  ASSERT_EQ(odd_model.period_deg(), 720);
  const FastKernel a(even_model), b(odd_model);
  int far = 0;
  for (int i = 0; i < 200; ++i) {
    const float drive = 0.05f + 0.0017f * float(i);
    FastTrial t;
    t.start_deg = 3.6 * i;
    t.drives_s = &drive;
    t.presses = 1;
    std::vector<float> x, y;
    a.run({t}, x);
    b.run({t}, y);
    far += std::abs(x[0] - y[0]) > 0.2f;
  }
  EXPECT_LE(far, 6);  // knife-edges
}

}  // namespace
}  // namespace shutlane::testing
