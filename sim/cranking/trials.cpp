#include "sim/cranking/trials.hpp"

#include <algorithm>
#include <cmath>
#include <mutex>

#include "sim/cranking/random.hpp"
#include "sim/cranking/split_work.hpp"
#include "sim/cycle/angle.hpp"

namespace shutlane {
namespace {

/// `car_of(trial)` is the car of each trial; it is called from several threads.
template <typename CarOf>
TrialsAnswer answered(const FastKernel& kernel, const TrialsQuestion& q, const CarOf& car_of) {
  constexpr int kBlock = 1024;
  const CrankingSpec& spec = kernel.model().spreads;
  TrialsAnswer a;
  a.advance_deg.resize(size_t(q.trials));
  const int blocks = (q.trials + kBlock - 1) / kBlock;
  std::mutex reporting;
  int done = 0;
  const bool finished = split_work(blocks, q.threads, [&](int block) {
    const int first = block * kBlock, last = std::min(q.trials, first + kBlock);
    std::vector<FastTrial> trials;
    std::vector<float> drives(size_t(last - first)), advance;
    for (int i = first; i < last; ++i) {
      DrawNumbers u;
      const uint64_t place = uint64_t(q.first_trial) + uint64_t(i);
      for (size_t d = 0; d < u.size(); ++d) u[d] = uniform(q.seed, 1, place, d);
      const CrankingDraw own = car_of(place);
      FastTrial t;
      t.start_deg = q.from_deg;
      t.draw = bump_draw(spec, own, u);
      drives[size_t(i - first)] = float(drive_s(kernel.model(), q.press_s, t.draw));
      t.drives_s = &drives[size_t(i - first)];
      t.presses = 1;
      trials.push_back(t);
    }
    kernel.run(trials, advance);
    std::copy(advance.begin(), advance.end(), a.advance_deg.begin() + first);
    if (!q.progress) return true;
    const std::lock_guard<std::mutex> lock(reporting);
    return q.progress(double(++done) / blocks);
  });
  if (!finished) {
    a.given_up = true;
    a.advance_deg.clear();
    return a;
  }
  double sum = 0, squares = 0;
  for (const float d : a.advance_deg) {
    sum += double(d);
    const int bin = int(wrap_deg(q.from_deg + double(d)));
    ++a.rest_histogram[size_t(std::min(bin, 719))];
  }
  a.mean_deg = sum / q.trials;
  for (const float d : a.advance_deg) squares += (double(d) - a.mean_deg) * (double(d) - a.mean_deg);
  a.sd_deg = q.trials > 1 ? std::sqrt(squares / (q.trials - 1)) : 0;
  std::vector<float> sorted = a.advance_deg;
  std::sort(sorted.begin(), sorted.end());
  const auto quantile = [&](double p) {  // the smallest advance that at least a share p does not exceed
    const double rank = std::ceil(p * double(sorted.size()));
    return double(sorted[size_t(std::max(0.0, rank - 1))]);
  };
  a.p05_deg = quantile(0.05);
  a.p50_deg = quantile(0.50);
  a.p95_deg = quantile(0.95);
  return a;
}

}  // namespace

TrialsAnswer bump_trials(const FastKernel& kernel, const TrialsQuestion& q) {
  const CrankingSpec& spec = kernel.model().spreads;
  return answered(kernel, q, [&](uint64_t i) {
    return car_draw(spec, uniform(q.seed, 2, i, 0), uniform(q.seed, 2, i, 1));
  });
}

TrialsAnswer bump_trials(const FastKernel& kernel, const TrialsQuestion& q, const CrankingDraw& car) {
  return answered(kernel, q, [&](uint64_t) { return car; });
}

TrialsAnswer bump_trials(const FastKernel& kernel, const TrialsQuestion& q,
                         const std::vector<CarSample>& cars) {
  return answered(kernel, q, [&](uint64_t i) {
    double left = uniform(q.seed, 2, i, 0);
    size_t car = 0;
    while (car + 1 < cars.size() && left >= cars[car].weight) left -= cars[car++].weight;
    return cars[car].draw;
  });
}

}  // namespace shutlane
