// A belief turned by wrench: shift, blur, roll-back.
#include <algorithm>
#include <cmath>
#include <numeric>

#include "sim/witness/belief.hpp"

namespace shutlane {

namespace {

constexpr double kFurtherOff = 0.02;  ///< share of turns that end up to three times the accuracy off

/// Chances of how far the crank moved, as whole bins: `first` is the number of bins of chances[0].
struct Moves {
  long first = 0;
  std::vector<double> chances;
};

/// Integral from -infinity to x of the density of the miss: a triangle over +-a, and a little evenly over
/// +-3a.
double miss_up_to(double x_deg, double a_deg) {
  if (a_deg <= 0) return x_deg >= 0 ? 1.0 : 0.0;
  const double t = std::clamp(x_deg / a_deg, -1.0, 1.0);
  const double triangle = t < 0 ? (1 + t) * (1 + t) / 2 : 1 - (1 - t) * (1 - t) / 2;
  const double wide = std::clamp((x_deg / a_deg + 3) / 6, 0.0, 1.0);
  return (1 - kFurtherOff) * triangle + kFurtherOff * wide;
}

Moves moves_of(const WrenchTurn& turn) {
  const double reach_deg = 3 * turn.accuracy_deg;
  const double back_deg = turn.roll_back_chance > 0 ? turn.roll_back_deg : 0;
  Moves moves;
  moves.first = std::lround(std::floor((turn.turn_deg - reach_deg - back_deg) / kBeliefStep_deg)) - 1;
  const long last = std::lround(std::ceil((turn.turn_deg + reach_deg) / kBeliefStep_deg)) + 1;
  const int steps = back_deg > 0 ? std::max(1, static_cast<int>(back_deg / kBeliefStep_deg)) : 0;
  for (long bin = moves.first; bin <= last; ++bin) {
    auto chance_without = [&](double back) {
      const double off_deg = static_cast<double>(bin) * kBeliefStep_deg - turn.turn_deg + back;
      return miss_up_to(off_deg + kBeliefStep_deg / 2, turn.accuracy_deg) -
             miss_up_to(off_deg - kBeliefStep_deg / 2, turn.accuracy_deg);
    };
    double chance = chance_without(0);
    if (steps > 0) {
      double rolled = 0;
      for (int k = 0; k < steps; ++k) rolled += chance_without(back_deg * (k + 0.5) / steps) / steps;
      chance = (1 - turn.roll_back_chance) * chance + turn.roll_back_chance * rolled;
    }
    moves.chances.push_back(chance);
  }
  return moves;
}

/// By the bins that the crank ends further on, modulo the cycle.
std::vector<double> round_the_cycle(const Moves& moves) {
  std::vector<double> on(kBeliefBins, 0.0);
  constexpr long kBins = static_cast<long>(kBeliefBins);
  for (size_t k = 0; k < moves.chances.size(); ++k) {
    const long at = (moves.first + static_cast<long>(k)) % kBins;
    on[static_cast<size_t>(at < 0 ? at + kBins : at)] += moves.chances[k];
  }
  return on;
}

/// The chances of a turn run straight between few knots: their second difference is nearly everywhere 0, and
/// summed up twice it gives them back. So a turn costs a few passes, however wide it is; rounding adds at
/// most some 1e-10, far below every limit of doubt.
struct Knot {
  size_t at = 0;
  double bend = 0;
};
std::vector<Knot> knots_of(const std::vector<double>& chances) {
  constexpr double kStraight = 1e-13;  // below it is the rounding of the chances
  std::vector<Knot> knots;
  const auto at = [&](size_t k, size_t back) {
    return k >= back && k - back < chances.size() ? chances[k - back] : 0.0;
  };
  for (size_t k = 0; k < chances.size() + 2; ++k) {
    const double bend = at(k, 0) - 2 * at(k, 1) + at(k, 2);
    if (std::fabs(bend) > kStraight) knots.push_back({k, bend});
  }
  return knots;
}

}  // namespace

Belief Belief::turned(const WrenchTurn& turn) const {
  std::vector<double> moves = round_the_cycle(moves_of(turn));
  if (turn.off_by_turn_chance > 0) {  // a turn more and a turn less end at the same place of the cycle
    const std::vector<double> counted = moves;
    for (size_t k = 0; k < kBeliefBins; ++k)
      moves[k] += turn.off_by_turn_chance * (counted[(k + kBeliefBins / 2) % kBeliefBins] - counted[k]);
  }
  const std::vector<Knot> knots = knots_of(moves);
  Belief next = *this;
  std::vector<double> twice(2 * kBeliefBins);
  for (size_t cause = 0; cause < model_->causes().size(); ++cause) {
    const auto from = row(cause);
    const auto to = next.row(cause);
    std::fill(twice.begin(), twice.end(), 0.0);
    for (const Knot& knot : knots)
      for (size_t bin = 0; bin < kBeliefBins && bin + knot.at < twice.size(); ++bin)
        twice[bin + knot.at] += from[bin] * knot.bend;
    std::partial_sum(twice.begin(), twice.end(), twice.begin());
    std::partial_sum(twice.begin(), twice.end(), twice.begin());
    for (size_t bin = 0; bin < kBeliefBins; ++bin)
      to[bin] = std::max(0.0, twice[bin] + twice[bin + kBeliefBins]);
  }
  const double sum = std::accumulate(next.mass_.begin(), next.mass_.end(), 0.0);
  for (double& m : next.mass_) m /= sum;
  return turn.lost_chance > 0 ? next.somebody_moved(turn.lost_chance) : next;
}

}  // namespace shutlane
