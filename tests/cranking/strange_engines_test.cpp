// Legal engines that nobody has built: 1 to 99 cylinders, fired unevenly, some together, under short and long
// presses. The accurate path is the oracle; it shares the model, not the tables and not the steps.
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <numeric>
#include <random>

#include "sim/cranking/record.hpp"
#include "sim/cranking/reference.hpp"
#include "sim/cranking/trials.hpp"
#include "tests/cranking/engines.hpp"

namespace shutlane::testing {
namespace {

unsigned long seed_or(unsigned long otherwise) {
  const char* text = std::getenv("SHUTLANE_SEED");
  return text ? std::strtoul(text, nullptr, 10) : otherwise;
}

int trials_or(int otherwise) {
  const char* text = std::getenv("SHUTLANE_TRIALS");
  return text ? std::atoi(text) : otherwise;
}

Shape strange_shape(std::mt19937_64& random, int cylinders) {
  const auto uniform = [&](double a, double b) {
    return std::uniform_real_distribution<double>(a, b)(random);
  };
  Shape s = even(cylinders);
  std::shuffle(s.order.begin(), s.order.end(), random);
  if (random() % 4 != 0) {
    for (int i = 0; i < cylinders; ++i)
      s.intervals.push_back(random() % 5 == 0 ? 0.0 : std::round(uniform(1, 100)));
    if (std::accumulate(s.intervals.begin(), s.intervals.end(), 0.0) <= 0) s.intervals.back() = 1;
    const double sum = std::accumulate(s.intervals.begin(), s.intervals.end(), 0.0);
    for (double& interval : s.intervals) interval *= kCycle_deg / sum;
  }
  s.intake_closes = uniform(0, 80);
  s.exhaust_opens = uniform(0, 90);
  s.compression = uniform(7, 14);
  return s;
}

TEST(StrangeEngines, TheFastPathHoldsEveryCylinderOfALegalEngine) {
  const unsigned long seed = seed_or(5);
  SCOPED_TRACE("SHUTLANE_SEED=" + std::to_string(seed));
  std::mt19937_64 random(seed);
  int compared = 0, far = 0;
  for (int n = 0; n < trials_or(60); ++n) {
    const int cylinders = n < 4 ? (n % 2 ? 99 : 21) : 1 + int(random() % 99);
    Shape shape = strange_shape(random, cylinders);
    if (n == 3) shape.intervals.clear();  // 99 that fire evenly: slots that move on
    const CrankingModel model = model_of(spec_of(shape));
    ASSERT_EQ(model.cylinders.size(), size_t(cylinders));
    const FastKernel kernel(model);
    ASSERT_GE(kernel.tables().slots, 1);
    const double from_deg = double(random() % 7200) / 10, press_s = 0.06 + double(random() % 100) / 250;
    const TrialsAnswer many = bump_trials(kernel, {from_deg, press_s, 64, 3, 1});
    for (const float d : many.advance_deg) {
      ASSERT_TRUE(std::isfinite(d));
      ASSERT_LT(std::abs(d), 5000) << cylinders << " cylinders";
    }
    if (n >= 4 && n % 6 != 0) continue;
    FastTrial stated;
    const float drive = float(drive_s(model, press_s, stated.draw));
    stated.start_deg = from_deg;
    stated.drives_s = &drive;
    stated.presses = 1;
    std::vector<float> fast;
    kernel.run({stated}, fast);
    ++compared;
    far += std::abs(double(fast[0]) - bump(model, from_deg, press_s).advance_deg) > 6;
  }
  if (trials_or(60) == 60) {
    EXPECT_GE(compared, 13);
    EXPECT_LE(far, 2);  // on the edge between two rests no two solvers agree
  }
}

double seconds_for(const FastKernel& kernel, const TrialsQuestion& q) {
  const auto begin = std::chrono::steady_clock::now();
  bump_trials(kernel, q);
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

TEST(LongPress, CostsNoMoreThanItTakesToBecomeSteady) {
  for (const Shape& shape : {inline_six(), even(1)}) {
    const FastKernel kernel(model_of(spec_of(shape)));
    const TrialsQuestion one{35, 1.2, 2000, 1, 1}, five{35, 5, 2000, 1, 1};
    const double short_s = std::min(seconds_for(kernel, one), seconds_for(kernel, one));
    const double long_s = std::min(seconds_for(kernel, five), seconds_for(kernel, five));
    EXPECT_LT(long_s, 2.5 * short_s) << shape.order.size() << " cylinders: " << short_s << " s, " << long_s;
  }
}

TEST(LongPress, PassesOverWholePeriodsWithoutMovingTheRest) {
  // The accurate path turns the crank through all of it.
  int far = 0, compared = 0;
  for (const Shape& shape : {inline_six(), inline_four(), Shape{{1, 2}, {315, 405}}}) {
    const CrankingModel model = model_of(spec_of(shape));
    const FastKernel kernel(model);
    for (double press_s = 1.3; press_s < 3; press_s += 0.31) {
      FastTrial t;
      const float drive = float(drive_s(model, press_s, t.draw));
      t.start_deg = 35;
      t.drives_s = &drive;
      t.presses = 1;
      std::vector<float> fast;
      kernel.run({t}, fast);
      ReferenceOptions slack;
      slack.tolerance = 1e-8;
      const double off = double(fast[0]) - bump(model, 35, press_s, slack).advance_deg;
      ++compared;
      far += std::abs(off) > 6;
    }
  }
  EXPECT_GE(compared, 15);
  EXPECT_LE(far, compared / 6);  // knife-edges
}

}  // namespace
}  // namespace shutlane::testing
