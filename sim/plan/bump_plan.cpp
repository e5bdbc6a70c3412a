#include "sim/plan/bump_plan.hpp"

#include <algorithm>
#include <cmath>

#include "sim/cycle/angle.hpp"

namespace shutlane {
namespace {

constexpr double kEquallyGood = 1e-9;  ///< of the best expectation: no more than rounding

constexpr double kSamePress_s = 1e-6;

constexpr double kSmear_deg = 2.5;

std::vector<double> own_weights(const RestTable& table, std::vector<double> weights) {
  if (!weights.empty()) return weights;
  for (const CarSample& c : table.cars) weights.push_back(c.weight);
  return weights;
}

/// Each bin by the length of the interval that lies in it, as a share of `whole_deg`.
void add_interval(std::vector<double>& weight, const Arc& interval, double whole_deg) {
  const double end = interval.from_deg + interval.length_deg;
  for (double at = interval.from_deg; at < end;) {
    const double next = std::min(std::floor(at) + 1, end);
    weight[size_t(std::floor(at)) % kBins] += (next - at) / whole_deg;
    at = next;
  }
}

}  // namespace

BumpStart start_at(double from_deg, double plus_minus_deg) {
  BumpStart s;
  s.weight.assign(kBins, 0);
  if (plus_minus_deg >= kTurn_deg) {
    s.weight.assign(kBins, 1.0 / kBins);
    s.known = Arc{0, kCycle_deg};
    return s;
  }
  s.known = Arc{wrap_deg(from_deg - plus_minus_deg), 2 * plus_minus_deg};
  const double smear_deg = std::max(plus_minus_deg, kSmear_deg);
  add_interval(s.weight, {wrap_deg(from_deg - smear_deg), 2 * smear_deg}, 2 * smear_deg);
  return s;
}

BumpStart start_within(const ArcSet& where) {
  std::vector<Arc> smeared;
  for (const Arc& arc : where.arcs()) {
    const double more_deg = std::max(0.0, kSmear_deg - arc.length_deg / 2);
    smeared.push_back({wrap_deg(arc.from_deg - more_deg), arc.length_deg + 2 * more_deg});
  }
  const ArcSet all(std::move(smeared));
  BumpStart s{std::vector<double>(kBins, 0), Arc{0, kCycle_deg}};  // no port is shut all round
  for (const Arc& arc : all.arcs()) add_interval(s.weight, arc, all.total_deg());
  return s;
}

BumpStart start_unknown() { return {std::vector<double>(kBins, 1.0 / kBins), std::nullopt}; }

BumpStart start_believed(std::vector<double> weight) {
  weight.resize(kBins, 0);
  double sum = 0;
  for (const double w : weight) sum += w;
  for (double& w : weight) w /= sum;
  return {std::move(weight), std::nullopt};
}

BumpStart start_worked(std::vector<double> weight) {
  BumpStart s = start_believed(std::move(weight));
  s.known = Arc{0, kCycle_deg};  // no port is shut all round
  return s;
}

SureBins sure_bins(const Engine& engine, const std::vector<Windows>& windows, const RestTable& table) {
  SureBins s;
  s.ports = int(engine.firing.size());
  for (int b = 0; b < kBins; ++b)
    for (int i = 0; i < s.ports; ++i)
      if (windows[engine.firing[size_t(i)]].sure.covers(Arc{double(b), 1.0}))
        s.sure[size_t(b)] |= PortSet(1) << i;
  s.period = repeats_after(s, table);
  return s;
}

int repeats_after(const SureBins& s, const RestTable& table) {
  const int period = int(std::lround(table.period_deg));
  if (std::abs(table.period_deg - period) > 1e-9 || period >= kBins || period * s.ports != kBins)
    return kBins;
  const PortSet all = PortSet((uint64_t(1) << s.ports) - 1);
  for (int b = 0; b < kBins; ++b) {
    const PortSet on = ((s.sure[size_t(b)] << 1) | (s.sure[size_t(b)] >> (s.ports - 1))) & all;
    if (s.sure[size_t((b + period) % kBins)] != on) return kBins;
  }
  return period;
}

BumpPlanner::BumpPlanner(const Engine& engine, std::shared_ptr<const RestTable> table,
                         std::vector<double> weights, double margin_deg, std::optional<SureBins> done_in)
    : table_(std::move(table)),
      weights_(own_weights(*table_, std::move(weights))),
      windows_(shut_windows(engine, margin_deg)),
      bins_(done_in ? *done_in : shutlane::sure_bins(engine, windows_, *table_)),
      law_(*table_, weights_),
      solver_(law_, bins_) {
  for (const size_t i : engine.firing) number_at_.push_back(engine.cylinders[i].number);
}

PortSet BumpPlanner::ports(const std::vector<int>& numbers) const {
  PortSet set = 0;
  for (size_t i = 0; i < number_at_.size(); ++i)
    if (std::find(numbers.begin(), numbers.end(), number_at_[i]) != numbers.end()) set |= PortSet(1) << i;
  return set;
}

std::vector<int> BumpPlanner::numbers(PortSet set) const {
  std::vector<int> out;
  for (size_t i = 0; i < number_at_.size(); ++i)
    if (set >> i & 1) out.push_back(number_at_[i]);
  std::sort(out.begin(), out.end());
  return out;
}

std::vector<BumpPlanner::Case> BumpPlanner::cases(const BumpStart& start, PortSet left) const {
  std::vector<Case> out;
  const auto add = [&](PortSet set, int bin, double weight) {
    for (Case& c : out)
      if (c.left == set) {
        c.bins.push_back({bin, weight});
        return;
      }
    out.push_back({set, {{bin, weight}}});
  };
  PortSet sure_at_start = 0;
  if (start.known)
    for (const Windows& w : windows_)
      if (w.sure.covers(*start.known)) sure_at_start |= ports({w.cylinder});
  for (int b = 0; b < kBins; ++b)
    if (start.weight[size_t(b)] > 0)
      add(left & ~(start.known ? sure_at_start : bins_.sure[size_t(b)]), b, start.weight[size_t(b)]);
  return out;
}

std::vector<int> BumpPlanner::first_presses(const BumpStart& start) const {
  std::vector<int> longer, other;
  for (int h = 0; h < law_.presses(); ++h) {
    const double press_s = table_->presses_s[size_t(h)];
    if (press_s > start.gainless_s + kSamePress_s) longer.push_back(h);
    if (std::abs(press_s - start.gainless_s) > kSamePress_s) other.push_back(h);
  }
  return !longer.empty() ? longer : !other.empty() ? other : std::vector<int>{0};
}

double BumpPlanner::expected(BumpSolver& solver, const std::vector<Case>& all,
                             const std::vector<int>& first) const {
  // One press for every bin of the start: the hand does not know the bin.
  std::vector<double> sum(size_t(law_.presses()), 0);
  for (const Case& c : all) {
    if (c.left == 0) continue;
    std::array<double, kBins> value;
    for (int b = 0; b < kBins; ++b) value[size_t(b)] = solver.bumps(b, c.left);
    for (int h : first)
      for (const auto& [bin, weight] : c.bins) {
        double q = 1;
        law_.rests(bin, h, [&](int rest, double chance) { q += chance * value[size_t(rest)]; });
        sum[size_t(h)] += weight * q;
      }
  }
  double best = kNever;
  for (int h : first) best = std::min(best, sum[size_t(h)]);
  return best;
}

BumpPlan BumpPlanner::plan(const BumpStart& start, const std::vector<int>& left_numbers) {
  BumpPlan plan;
  const PortSet left = ports(left_numbers);
  PortSet reachable = 0;
  for (const PortSet s : bins_.sure) reachable |= s;
  plan.no_plan = numbers(left & ~reachable);
  if (!plan.no_plan.empty()) return plan;

  const std::vector<Case> all = cases(start, left);
  if (start.known && !all.empty()) plan.done_at_start = numbers(left & ~all.front().left);
  const size_t presses = size_t(law_.presses()), cars = table_->cars.size();
  std::vector<double> sum(presses, 0), finish(presses, 0);
  std::vector<double> of_car(presses * cars, 0);
  bool anything = false;
  for (const Case& c : all) {
    if (c.left == 0) {
      for (const auto& [bin, weight] : c.bins)
        for (double& f : finish) f += weight;
      continue;
    }
    anything = true;
    std::array<double, kBins> value;
    for (int b = 0; b < kBins; ++b) value[size_t(b)] = solver_.bumps(b, c.left);
    for (const auto& [bin, weight] : c.bins) {
      const int phase = law_.phase_of(bin);
      for (size_t h = 0; h < presses; ++h) {
        double q = 1, ends = 0;
        law_.rests(bin, int(h), [&](int rest, double chance) {
          q += chance * value[size_t(rest)];
          if ((c.left & ~bins_.sure[size_t(rest)]) == 0) ends += chance;
        });
        sum[h] += weight * q;
        finish[h] += weight * ends;
        for (size_t car = 0; car < cars; ++car) {
          const int16_t* moved = table_->trials(phase, int(h), int(car));
          double on = 0;
          for (int t = 0; t < table_->trials_per_car; ++t)
            on += value[size_t(((bin + moved[t]) % kBins + kBins) % kBins)];
          of_car[h * cars + car] += weight * (1 + on / table_->trials_per_car);
        }
      }
    }
  }
  const std::vector<int> first = first_presses(start);
  size_t best = size_t(first.front());
  for (size_t h = 0; h < presses; ++h) {
    PressScore score{table_->presses_s[h], sum[h], 0, std::min(1.0, finish[h])};
    for (size_t car = 0; car < cars; ++car)
      if (weights_[car] > 0) score.worst_car_bumps = std::max(score.worst_car_bumps, of_car[h * cars + car]);
    plan.presses.push_back(score);
  }
  for (const int h : first)
    if (sum[size_t(h)] < sum[best]) best = size_t(h);
  if (!anything) {
    plan.presses.clear();
    plan.finish_first = 1;
    return plan;
  }
  if (!std::isfinite(sum[best])) {
    plan = {};
    plan.may_never_end = true;
    return plan;
  }
  size_t lo = best, hi = best;
  const double limit = sum[best] * (1 + kNearlyAsGood);
  const auto may_press = [&](size_t h) {
    return std::find(first.begin(), first.end(), int(h)) != first.end() && sum[h] <= limit;
  };
  while (lo > 0 && may_press(lo - 1)) --lo;
  while (hi + 1 < presses && may_press(hi + 1)) ++hi;
  // Where several are equally good, one that may be missed to both sides is named, not the shortest.
  const auto off_middle = [&](size_t h) { return h + h > lo + hi ? h + h - lo - hi : lo + hi - h - h; };
  const double as_good = sum[best] * (1 + kEquallyGood);
  for (size_t h = lo; h <= hi; ++h)
    if (sum[h] <= as_good && off_middle(h) < off_middle(best)) best = h;
  plan.press_s = table_->presses_s[best];
  plan.press_min_s = table_->presses_s[lo];
  plan.press_max_s = table_->presses_s[hi];
  plan.expected_bumps = sum[best];
  plan.finish_first = plan.presses[best].finish_first;
  plan.relative_error = solver_.relative_error();
  plan.habits = habits(start, left_numbers);
  return plan;
}

double BumpPlanner::bumps_at(int bin, const std::vector<int>& left) {
  return solver_.bumps(bin, ports(left));
}

double BumpPlanner::press_at(int bin, const std::vector<int>& left) {
  const int h = solver_.best_press(bin, ports(left));
  return h < 0 ? 0 : table_->presses_s[size_t(h)];
}

}  // namespace shutlane
