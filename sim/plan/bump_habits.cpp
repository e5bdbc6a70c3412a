// The habits of the trade, on the same rest table as the plan.
#include <algorithm>
#include <cmath>

#include "sim/plan/bump_plan.hpp"

namespace shutlane {
namespace {

/// Index of the press nearest to a length.
int nearest_press(const std::vector<double>& presses_s, double press_s) {
  size_t best = 0;
  for (size_t h = 1; h < presses_s.size(); ++h)
    if (std::abs(presses_s[h] - press_s) < std::abs(presses_s[best] - press_s)) best = h;
  return int(best);
}

}  // namespace

double BumpPlanner::goes_on(int press) const {
  double on = 0;
  for (int phase = 0; phase < table_->phases; ++phase)
    for (size_t car = 0; car < table_->cars.size(); ++car) {
      const int16_t* moved = table_->trials(phase, press, int(car));
      int count = 0;
      for (int t = 0; t < table_->trials_per_car; ++t) count += moved[t] * 2 * bins_.ports >= kBins;
      on += weights_[car] * count / table_->trials_per_car;
    }
  return on / table_->phases;
}

// A hand that feels the crank bounce back presses a little longer: the shortest tap is the shortest press of
// the table that goes on at least every other time.
int BumpPlanner::shortest_tap() const {
  for (int h = 0; h < law_.presses(); ++h)
    if (goes_on(h) >= 0.5) return h;
  return law_.presses() - 1;
}

// One port after the other in number order with one press, every other port left alone meanwhile: for each
// port the hitting times of a chain, and what comes after it is what its first bin on the port gives.
double BumpPlanner::in_number_order(const std::vector<Case>& all, PortSet left, int press) const {
  std::vector<double> after(kBins, 0);  // bumps still to be expected once the ports before are done
  std::vector<int> order = numbers(left);
  std::reverse(order.begin(), order.end());
  for (const int number : order) {
    const PortSet port = ports({number});
    std::vector<double> value = after;
    std::vector<char> hits(kBins);
    for (int b = 0; b < kBins; ++b) hits[size_t(b)] = (bins_.sure[size_t(b)] & port) != 0;
    // Which bins lead to the port at all?
    std::vector<char> leads = hits;
    for (bool grown = true; grown;) {
      grown = false;
      for (int b = 0; b < kBins; ++b) {
        if (leads[size_t(b)]) continue;
        law_.rests(b, press,
                   [&](int rest, double) { leads[size_t(b)] = leads[size_t(b)] || leads[size_t(rest)]; });
        grown = grown || leads[size_t(b)];
      }
    }
    for (int b = 0; b < kBins; ++b)
      if (!hits[size_t(b)]) value[size_t(b)] = leads[size_t(b)] ? 1 : kNever;
    for (int sweep = 0; sweep < 200000; ++sweep) {
      double change = 0;
      for (int b = 0; b < kBins; ++b) {
        if (hits[size_t(b)] || !std::isfinite(value[size_t(b)])) continue;
        double sum = 1;
        law_.rests(b, press, [&](int rest, double chance) { sum += chance * value[size_t(rest)]; });
        change = std::max(change, std::isfinite(sum) ? std::abs(sum - value[size_t(b)]) : 0.0);
        value[size_t(b)] = sum;
      }
      if (change < 1e-9) break;  // checked residual; every bump costs 1, so the relative error is below it
    }
    after = value;
  }
  double sum = 0;
  for (const Case& c : all)
    for (const auto& [bin, weight] : c.bins) sum += weight * after[size_t(bin)];
  return sum;
}

std::vector<Habit> BumpPlanner::habits(const BumpStart& start, const std::vector<int>& left_numbers) {
  const PortSet left = ports(left_numbers);
  const std::vector<Case> all = cases(start, left);
  const std::vector<double>& presses = table_->presses_s;
  const auto every_shut_port = [&](int press) {
    bool anything = false;
    for (const Case& c : all) anything = anything || c.left != 0;
    if (!anything) return 0.0;
    BumpSolver fixed(law_, bins_, {press});
    return expected(fixed, all, {press});
  };
  const int tap = shortest_tap(), tenth = nearest_press(presses, 0.10), fixed = nearest_press(presses, 0.30);
  const auto habit = [&](const char* name, int press, double bumps) {
    return Habit{name, presses[size_t(press)], goes_on(press), bumps};
  };
  return {
      habit("shortest taps in number order", tap, in_number_order(all, left, tap)),
      habit("shortest taps, every shut port", tap, every_shut_port(tap)),
      habit("0.10 s taps, every shut port", tenth, every_shut_port(tenth)),
      habit("0.30 s presses, every shut port", fixed, every_shut_port(fixed)),
  };
}

}  // namespace shutlane
