#include "sim/plan/bump_belief.hpp"

#include <algorithm>
#include <cmath>

#include "sim/plan/bump_learn.hpp"
#include "sim/plan/bump_plan.hpp"

namespace shutlane {
namespace {

/// Every angle that the looks leave, equally likely.
std::vector<double> even_within(const ArcSet& where) {
  return where.empty() || where.full() ? start_unknown().weight : start_within(where).weight;
}

double sum_of(const std::vector<double>& v) {
  double sum = 0;
  for (const double x : v) sum += x;
  return sum;
}

std::vector<double> carried(const RestTable& table, const std::vector<double>& angle, int press, int car) {
  std::vector<double> rests(kBins, 0);
  for (int bin = 0; bin < kBins; ++bin) {
    if (angle[size_t(bin)] <= 0) continue;
    const int16_t* moved = table.trials(table.phase_of(bin), press, car);
    const double each = angle[size_t(bin)] / table.trials_per_car;
    for (int t = 0; t < table.trials_per_car; ++t)
      rests[size_t(((bin + moved[t]) % kBins + kBins) % kBins)] += each;
  }
  return rests;
}

int nearest_press(const RestTable& table, double press_s) {
  int best = 0;
  for (int h = 1; h < int(table.presses_s.size()); ++h)
    if (std::abs(table.presses_s[size_t(h)] - press_s) < std::abs(table.presses_s[size_t(best)] - press_s))
      best = h;
  return best;
}

}  // namespace

BumpBelief believed_after(const RestTable& table, std::vector<double> cars, std::span<const BumpStop> stops) {
  if (cars.empty())
    for (const CarSample& c : table.cars) cars.push_back(c.weight);
  BumpBelief now{even_within(stops.front().where), std::move(cars), 0};
  std::vector<std::vector<double>> of_car(now.cars.size(), now.angle);
  for (size_t i = 1; i < stops.size(); ++i) {
    const std::vector<double> even = even_within(stops[i].where);
    const bool told = !stops[i].where.empty() && !stops[i].where.full();
    if (stops[i - 1].press_s <= 0 || !stops[i - 1].timed) {
      of_car.assign(now.cars.size(), even);
      continue;
    }
    const int press = nearest_press(table, stops[i - 1].press_s);
    const double even_top = *std::max_element(even.begin(), even.end());
    const double by_slip = told ? std::min(1.0, stops[i].where.total_deg() / kBins) : 1;
    for (size_t car = 0; car < of_car.size(); ++car) {
      std::vector<double> rests = carried(table, of_car[car], press, int(car));
      for (size_t bin = 0; bin < rests.size(); ++bin) rests[bin] *= even[bin] / even_top;
      const double fits = sum_of(rests);
      for (size_t bin = 0; bin < rests.size(); ++bin)
        rests[bin] =
            (fits > 0 ? (1 - kUnforeseen) * rests[bin] / fits : 0) + (fits > 0 ? kUnforeseen : 1) * even[bin];
      of_car[car] = std::move(rests);
      now.cars[car] *= (1 - kSlip) * fits + kSlip * by_slip;
    }
    const double all = sum_of(now.cars);
    for (double& weight : now.cars) weight /= all;
    now.learnt_from += told;
  }
  std::fill(now.angle.begin(), now.angle.end(), 0);
  for (size_t car = 0; car < of_car.size(); ++car)
    for (size_t bin = 0; bin < now.angle.size(); ++bin) now.angle[bin] += now.cars[car] * of_car[car][bin];
  return now;
}

double stronger_than_stated(const RestTable& table, const std::vector<double>& cars) {
  if (cars.empty()) return 0;
  double sum = 0;
  for (size_t i = 0; i < table.cars.size(); ++i)
    sum +=
        (cars[i] - table.cars[i].weight) * std::log(table.cars[i].draw.starter / table.cars[i].draw.friction);
  return sum;
}

double gainless_press_s(std::span<const BumpStop> stops) {
  if (stops.size() < 2 || stops.back().gained) return 0;
  return stops[stops.size() - 2].press_s;
}

}  // namespace shutlane
