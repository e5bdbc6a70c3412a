// A belief turned by wrench against the plain sum over every start and every move. Written anew from what is
// said of the miss (sim/witness/belief.hpp): mostly a triangle over the accuracy, one turn in fifty evenly
// over three times as much, then rolled back evenly. It shares the bins and the steps of the roll-back.
#include <cmath>
#include <random>

#include "sim/witness/belief.hpp"
#include "tests/witness/engines.hpp"
#include "tests/witness/trials.hpp"

namespace shutlane {
namespace {

/// Share of turns that end no more than `off_deg` past the aim.
double ends_before(double off_deg, double accuracy_deg) {
  if (accuracy_deg == 0) return off_deg < 0 ? 0 : 1;
  const double a = accuracy_deg, x = off_deg;
  double near = 0, far = 0;
  if (x >= a)
    near = 1;
  else if (x > -a)
    near = x < 0 ? (a + x) * (a + x) / (2 * a * a) : 1 - (a - x) * (a - x) / (2 * a * a);
  if (x >= 3 * a)
    far = 1;
  else if (x > -3 * a)
    far = (x + 3 * a) / (6 * a);
  return 0.98 * near + 0.02 * far;
}

double share_of_bin(double off_deg, const WrenchTurn& turn) {
  const double half_deg = kBeliefStep_deg / 2;
  const auto share = [&](double at_deg) {
    return ends_before(at_deg + half_deg, turn.accuracy_deg) -
           ends_before(at_deg - half_deg, turn.accuracy_deg);
  };
  if (turn.roll_back_chance == 0 || turn.roll_back_deg == 0) return share(off_deg);
  const int steps = std::max(1, static_cast<int>(turn.roll_back_deg / kBeliefStep_deg));
  double rolled = 0;
  for (int k = 0; k < steps; ++k) rolled += share(off_deg + turn.roll_back_deg * (k + 0.5) / steps) / steps;
  return (1 - turn.roll_back_chance) * share(off_deg) + turn.roll_back_chance * rolled;
}

std::vector<double> turned_plainly(const std::vector<double>& from, const WrenchTurn& turn) {
  std::vector<double> on(kBeliefBins, 0.0);  // by how far on it ends, round the cycle
  const long least =
      std::lround((turn.turn_deg - 3 * turn.accuracy_deg - turn.roll_back_deg) / kBeliefStep_deg);
  const long most = std::lround((turn.turn_deg + 3 * turn.accuracy_deg) / kBeliefStep_deg);
  const long bins = static_cast<long>(kBeliefBins);
  for (long k = least - 3; k <= most + 3; ++k)
    on[static_cast<size_t>(((k % bins) + bins) % bins)] +=
        share_of_bin(static_cast<double>(k) * kBeliefStep_deg - turn.turn_deg, turn);
  std::vector<double> to(kBeliefBins, 0.0);
  double sum = 0;
  for (size_t start = 0; start < kBeliefBins; ++start)
    for (size_t k = 0; k < kBeliefBins; ++k) {
      // Counted wrong by a turn, more or less, it ends half a cycle further on.
      const double share = (1 - turn.off_by_turn_chance) * on[k] +
                           turn.off_by_turn_chance * on[(k + kBeliefBins / 2) % kBeliefBins];
      to[(start + k) % kBeliefBins] += from[start] * share;
      sum += from[start] * share;
    }
  for (double& share : to)
    share = share / sum * (1 - turn.lost_chance) + turn.lost_chance / double(kBeliefBins);
  return to;
}

TEST(Belief, ATurnIsThePlainSumOverEveryMove) {
  std::mt19937_64 random(test::seed());
  SCOPED_TRACE(testing::Message() << "seed " << test::seed());
  auto uniform = [&](double a, double b) { return std::uniform_real_distribution<double>(a, b)(random); };
  auto either = [&](double one, double other) { return uniform(0, 1) < 0.5 ? one : other; };
  const auto model = std::make_shared<const LookModel>(test::engine_of({{1, 3, 4, 2}}));
  for (uint64_t trial = 0; trial < test::trials(30); ++trial) {
    Belief belief = Belief::over(model, ArcSet({{uniform(0, 720), uniform(1, 300)}}));
    for (int look = 0; look < 3; ++look) belief = belief.looked(1 + look, uniform(0, 1) < 0.5).belief;
    WrenchTurn turn;
    turn.turn_deg = either(360, uniform(0, 1500));
    turn.accuracy_deg = either(either(0, 360), uniform(0.1, 90));
    turn.roll_back_chance = either(0, uniform(0, 1));
    turn.roll_back_deg = either(60, uniform(0, 360));
    turn.off_by_turn_chance = either(0.002, uniform(0, 1));
    turn.lost_chance = either(0, uniform(0, 0.5));
    const std::vector<double> expected = turned_plainly(belief.angles(), turn);
    const Belief after = belief.turned(turn);
    const std::vector<double> found = after.angles();
    for (size_t bin = 0; bin < kBeliefBins; ++bin)
      ASSERT_NEAR(found[bin], expected[bin], 1e-9)
          << "bin " << bin << ", turn " << turn.turn_deg << " +- " << turn.accuracy_deg << ", back "
          << turn.roll_back_deg << " at " << turn.roll_back_chance;
    // Over all bins of a cause the rounding adds up.
    const std::vector<double> before_causes = belief.cause_chances(), causes = after.cause_chances();
    for (size_t cause = 0; cause < causes.size(); ++cause)
      EXPECT_NEAR(causes[cause], before_causes[cause], 1e-7) << "a turn says nothing of hidden causes";
  }
}

}  // namespace
}  // namespace shutlane
