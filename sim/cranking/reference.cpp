#include "sim/cranking/reference.hpp"

#include <algorithm>
#include <cmath>

namespace shutlane {
namespace {
constexpr size_t kAngle = 0, kSpeed = 1, kPressure = 2;
constexpr double kLongestStep_s = 1e-3;  // for each degree of the longest step
constexpr int kBisections = 60;          // of a time at rest, in closed form

/// Halvings of a step that place an event well within the tolerance.
int halvings(double tolerance) { return 14 + int(std::ceil(-std::log2(tolerance))); }
}  // namespace

ReferenceCrank::ReferenceCrank(CrankingModel model, double at_deg, ReferenceOptions options)
    : model_(std::move(model)), options_(std::move(options)) {
  y_.assign(kPressure + model_.cylinders.size(), model_.ambient_pa);
  sealed_.resize(model_.cylinders.size());
  y_[kAngle] = at_deg * kRadPerDeg;
  y_[kSpeed] = 0;
  for (size_t k = 0; k < sealed_.size(); ++k) sealed_[k] = sealed_at(k, y_[kAngle]);
  at_rest_ = true;
}

bool ReferenceCrank::sealed_at(size_t k, double angle_rad) const {
  const SealedCylinder& c = model_.cylinders[k];
  return c.sealed_at(c.local_deg(angle_rad * kDegPerRad));
}

void ReferenceCrank::put(const CrankState& s) {
  time_s_ = s.time_s;
  y_[kAngle] = s.angle_deg * kRadPerDeg;
  y_[kSpeed] = s.speed_rad_s;
  for (size_t k = 0; k < sealed_.size(); ++k) {
    sealed_[k] = sealed_at(k, y_[kAngle]);
    y_[kPressure + k] = sealed_[k] ? s.pressure_pa[k] : model_.ambient_pa;
  }
  at_rest_ = false;
  direction_ = s.speed_rad_s > 0 ? 1 : s.speed_rad_s < 0 ? -1 : 0;
  if (direction_ == 0) stand_or_move();
}

double ReferenceCrank::gas_nm(const std::vector<double>& y) const {
  double t = 0;
  for (size_t k = 0; k < sealed_.size(); ++k) {
    if (!sealed_[k]) continue;
    const SealedCylinder& c = model_.cylinders[k];
    t += (y[kPressure + k] - model_.ambient_pa) * c.volume_per_rad_m3(c.local_deg(y[kAngle] * kDegPerRad));
  }
  return t;
}

double ReferenceCrank::gas_nm() const { return gas_nm(y_); }

double ReferenceCrank::starter_nm(double speed) const {
  // The regime is held through a step and changed at the event, so that every step is smooth.
  if (!driven_ || overrun_) return 0;
  return model_.starter_torque_nm * (model_.battery_strength - speed / model_.starter_speed_rad_s);
}

std::vector<double> ReferenceCrank::slope(const std::vector<double>& y) const {
  std::vector<double> d(y.size(), 0.0);
  const double w = y[kSpeed];
  double torque = starter_nm(w) - direction_ * model_.friction_nm - model_.friction_nms * w;
  for (size_t k = 0; k < sealed_.size(); ++k) {
    if (!sealed_[k]) continue;
    const SealedCylinder& c = model_.cylinders[k];
    const double local = c.local_deg(y[kAngle] * kDegPerRad);
    const double p = y[kPressure + k], v = c.volume_m3(local), dv = c.volume_per_rad_m3(local);
    torque += (p - model_.ambient_pa) * dv;
    d[kPressure + k] = -model_.polytropic * p * dv * w / v -
                       leak_pa_s(p, v, model_.conductance_m3_s(), model_.polytropic, model_.ambient_pa);
  }
  d[kAngle] = w;
  d[kSpeed] = torque / model_.inertia_kgm2;
  return d;
}

// Dormand and Prince, J. Comp. Appl. Math. 6 (1980) 19-26: the 5(4) pair.
double ReferenceCrank::step(const std::vector<double>& from, double h, std::vector<double>& to) const {
  static constexpr double a[7][6] = {
      {},
      {1.0 / 5},
      {3.0 / 40, 9.0 / 40},
      {44.0 / 45, -56.0 / 15, 32.0 / 9},
      {19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729},
      {9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656},
      {35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84},
  };
  static constexpr double e[7] = {71.0 / 57600,      0,          -71.0 / 16695, 71.0 / 1920,
                                  -17253.0 / 339200, 22.0 / 525, -1.0 / 40};
  std::vector<double> k[7];
  to = from;
  for (int s = 0; s < 7; ++s) {
    for (size_t i = 0; i < from.size(); ++i) {
      double sum = 0;
      for (int j = 0; j < s; ++j) sum += a[s][j] * k[j][i];
      to[i] = from[i] + h * sum;
    }
    k[s] = slope(to);
  }
  double worst = 0;
  for (size_t i = 0; i < from.size(); ++i) {
    double err = 0;
    for (int s = 0; s < 7; ++s) err += e[s] * k[s][i];
    const double scale = i == kAngle ? 1.0 : i == kSpeed ? 10.0 : std::abs(from[i]) + model_.ambient_pa;
    worst = std::max(worst, std::abs(h * err) / (scale * options_.tolerance));
  }
  return worst;
}

bool ReferenceCrank::event_at(const std::vector<double>& y) const {
  if (direction_ * y[kSpeed] < 0) return true;
  if (driven_ && overrun_ != (y[kSpeed] > model_.battery_strength * model_.starter_speed_rad_s)) return true;
  for (size_t k = 0; k < sealed_.size(); ++k)
    if (bool(sealed_[k]) != sealed_at(k, y[kAngle])) return true;
  return false;
}

void ReferenceCrank::settle_events() {
  for (size_t k = 0; k < sealed_.size(); ++k) {
    if (bool(sealed_[k]) == sealed_at(k, y_[kAngle])) continue;
    sealed_[k] = !sealed_[k];
    y_[kPressure + k] = model_.ambient_pa;  // a valve opens, or shuts on ambient air
  }
  overrun_ = y_[kSpeed] > model_.battery_strength * model_.starter_speed_rad_s;
  if (direction_ * y_[kSpeed] < 0) stand_or_move();
}

void ReferenceCrank::stand_or_move() {
  y_[kSpeed] = 0;
  direction_ = 0;
  const double torque = gas_nm() + starter_nm(0);
  if (std::abs(torque) > model_.breakaway_nm) direction_ = torque > 0 ? 1 : -1;
}

// At rest only the leaks act, each in closed form, so that the instant at which one side wins can be
// bracketed.
void ReferenceCrank::stand_until(double until_s) {
  const auto torque_after = [&](double t, double* apart) {
    double sum = starter_nm(0), total = 0;
    for (size_t k = 0; k < sealed_.size(); ++k) {
      if (!sealed_[k]) continue;
      const SealedCylinder& c = model_.cylinders[k];
      const double local = c.local_deg(y_[kAngle] * kDegPerRad);
      const double p = leaked_pa(y_[kPressure + k], c.volume_m3(local), model_.conductance_m3_s(),
                                 model_.polytropic, model_.ambient_pa, t);
      const double part = (p - model_.ambient_pa) * c.volume_per_rad_m3(local);
      sum += part;
      total += std::abs(part);
    }
    if (apart) *apart = total;
    return sum;
  };
  const auto leave_at = [&](double t) {
    for (size_t k = 0; k < sealed_.size(); ++k) {
      if (!sealed_[k]) continue;
      const SealedCylinder& c = model_.cylinders[k];
      const double v = c.volume_m3(c.local_deg(y_[kAngle] * kDegPerRad));
      y_[kPressure + k] =
          leaked_pa(y_[kPressure + k], v, model_.conductance_m3_s(), model_.polytropic, model_.ambient_pa, t);
    }
    time_s_ += t;
    stand_or_move();
  };
  double t = 0, dt = 1e-3, apart = 0;
  while (true) {
    torque_after(t, &apart);
    if (!driven_ &&
        apart <= model_.breakaway_nm) {  // whatever leaks first, static friction holds what is left
      at_rest_ = true;
      return;
    }
    if (t >= until_s - time_s_) return leave_at(std::max(0.0, until_s - time_s_));
    const double next = std::min(t + dt, until_s - time_s_);
    if (std::abs(torque_after(next, nullptr)) > model_.breakaway_nm) {
      double lo = t, hi = next;
      for (int i = 0; i < kBisections; ++i) {
        const double mid = (lo + hi) / 2;
        (std::abs(torque_after(mid, nullptr)) > model_.breakaway_nm ? hi : lo) = mid;
      }
      return leave_at(hi);
    }
    t = next;
    dt *= 1.05;
  }
}

void ReferenceCrank::run(double time_s, bool driven) {
  const double until = time_s_ + time_s;
  driven_ = driven;
  if (driven) at_rest_ = false;
  overrun_ = y_[kSpeed] > model_.battery_strength * model_.starter_speed_rad_s;
  if (direction_ == 0 && !at_rest_) stand_or_move();
  std::vector<double> next;
  while (!at_rest_ && time_s_ < until) {
    if (options_.give_up && options_.give_up()) {
      at_rest_ = true;
      break;
    }
    if (direction_ == 0) {
      stand_until(until);
      if (options_.watch) options_.watch(state());
      continue;
    }
    double h = std::min({step_s_, kLongestStep_s * options_.longest_step_deg, until - time_s_,
                         options_.longest_step_deg * kRadPerDeg / std::max(0.1, std::abs(y_[kSpeed]))});
    const double error = step(y_, h, next);
    const double grow = std::clamp(0.9 * std::pow(std::max(error, 1e-10), -0.2), 0.2, 4.0);
    if (error > 1) {
      step_s_ = h * grow;
      continue;
    }
    if (event_at(next)) {
      double lo = 0, hi = h;
      for (int i = halvings(options_.tolerance); i > 0; --i) {
        const double mid = (lo + hi) / 2;
        step(y_, mid, next);
        (event_at(next) ? hi : lo) = mid;
      }
      h = hi;
      step(y_, h, next);
    } else {
      step_s_ = std::max(h * grow, 1e-9);
    }
    y_ = next;
    time_s_ = time_s_ + h >= until - 1e-15 ? until : time_s_ + h;
    if (options_.watch && options_.watch_events && event_at(y_)) options_.watch(state());
    settle_events();
    if (options_.watch) options_.watch(state());
  }
  if (at_rest_ && time_s_ < until && std::isfinite(until)) time_s_ = until;
}

void ReferenceCrank::run_to_rest() {
  const double give_up = time_s_ + options_.longest_s;
  driven_ = false;
  if (direction_ == 0) {
    at_rest_ = false;
    stand_or_move();
  }
  while (!at_rest_ && time_s_ < give_up) {
    const double before = time_s_;
    run(1.0, false);
    if (at_rest_) time_s_ = std::min(time_s_, before + 1.0);
  }
}

void ReferenceCrank::turn_by_wrench(double to_deg, double speed_rad_s) {
  const CrankingModel own = model_;
  // A hand that holds its speed whatever the compression: no end of inertia, no friction.
  model_.inertia_kgm2 = 1e12;
  model_.friction_nm = model_.friction_nms = model_.breakaway_nm = 0;
  driven_ = overrun_ = at_rest_ = false;
  direction_ = 1;
  y_[kSpeed] = speed_rad_s;
  const double turn_rad = to_deg * kRadPerDeg - y_[kAngle];
  if (turn_rad > 0) run(turn_rad / speed_rad_s, false);
  model_ = own;
  at_rest_ = false;
  stand_or_move();
}

CrankState ReferenceCrank::state() const {
  CrankState s{time_s_,  y_[kAngle] * kDegPerRad, y_[kSpeed], {y_.begin() + kPressure, y_.end()},
               gas_nm(), starter_nm(y_[kSpeed]),  0,          direction_};
  if (direction_ != 0) s.friction_nm = model_.friction_nm + model_.friction_nms * std::abs(y_[kSpeed]);
  return s;
}

BumpResult bump(const CrankingModel& model, double from_deg, double press_s,
                const ReferenceOptions& options) {
  BumpResult result;
  ReferenceOptions own = options;
  double last_move_s = 0;
  own.watch = [&](const CrankState& s) {
    result.furthest_deg = std::max(result.furthest_deg, s.angle_deg - from_deg);
    result.peak_speed_rad_s = std::max(result.peak_speed_rad_s, s.speed_rad_s);
    if (s.speed_rad_s != 0) last_move_s = s.time_s;
    if (options.watch) options.watch(s);
  };
  ReferenceCrank crank(model, from_deg, own);
  const double drive_s = press_s + model.release_delay_s - model.engage_delay_s;
  if (drive_s > 0) {
    crank.run(drive_s, true);
    crank.run_to_rest();
  }
  result.advance_deg = crank.state().angle_deg - from_deg;
  result.time_s = last_move_s + model.engage_delay_s;
  return result;
}

bool on_knife_edge(const CrankingModel& model, double from_deg, double press_s, double nudge,
                   double jump_deg) {
  CrankingDraw less, more;
  less.friction = 1 - nudge;
  more.friction = 1 + nudge;
  const double a = bump(model.with(less), from_deg, press_s).advance_deg;
  const double b = bump(model.with(more), from_deg, press_s).advance_deg;
  return std::abs(a - b) > jump_deg;
}

double rest_after_wrench_deg(const CrankingModel& model, double let_go_deg, double turn_deg,
                             double speed_rad_s) {
  ReferenceCrank crank(model, let_go_deg - turn_deg);
  crank.turn_by_wrench(let_go_deg, speed_rad_s);
  crank.run_to_rest();
  return crank.state().angle_deg;
}

double wrench_accuracy_deg(const CrankingModel& model, double step_deg, double speed_rad_s) {
  const double period = model.period_deg();
  const int n = std::max(1, int(std::ceil(period / step_deg)));
  double worst = 0;
  for (int i = 0; i < n; ++i) {
    const double at = period * i / n;
    worst = std::max(worst, std::abs(rest_after_wrench_deg(model, at, 360, speed_rad_s) - at));
  }
  return worst;
}

}  // namespace shutlane
