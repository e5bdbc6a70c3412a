#pragma once
// A crank that nobody sees, for the tests of the job: its true angle, true valve events within the tolerances
// and an eye that misses small lifts. Shares nothing with the job's reckoning but the engine's lift curves.
#include <cmath>
#include <map>
#include <random>
#include <utility>

#include "sim/job/event.hpp"
#include "sim/mechanism/engine.hpp"

namespace shutlane {

class HiddenCrank {
 public:
  HiddenCrank(const Engine& engine, double eye_mm, std::mt19937_64& random)
      : engine_(engine), eye_mm_(eye_mm), random_(random), at_deg_(uniform(0, 720)) {
    for (const ValveTrain& train : engine.trains) {
      phase_deg_.push_back(uniform(train.phase_first_deg, train.phase_last_deg));
      for (const Cylinder& cylinder : engine.cylinders) {
        // The lift curve is taken earlier or later as a whole and widened: both events stay within their
        // tolerances.
        shift_deg_[{cylinder.number, &train}] = uniform(-train.timing_deg, train.timing_deg);
      }
    }
  }

  /// The greatest true lift of the cylinder's intake valves.
  double lift_mm(int number) const { return lift_mm(number, at_deg_); }
  double lift_mm(int number, double at_deg) const {
    const Cylinder& cylinder = *engine_.find(number);
    double most_mm = 0;
    for (const size_t i : cylinder.intake) {
      const ValveTrain& train = engine_.trains[i];
      const double earlier_deg = phase_deg_[i] + shift_deg_.at({number, &train});
      double local = std::fmod(at_deg - cylinder.firing_tdc_deg + earlier_deg, 720.0);
      if (local < 0) local += 720;
      most_mm = std::max(most_mm, train.profile.lift_mm(local));
    }
    return most_mm;
  }

  /// How far the nose of the cylinder's intake lobe points away from its valve, 0..180 cam degrees.
  double nose_deg(int number) const {
    const Cylinder& cylinder = *engine_.find(number);
    const ValveTrain& train = engine_.trains[cylinder.intake[0]];
    const double earlier_deg = phase_deg_[cylinder.intake[0]] + shift_deg_.at({number, &train});
    return std::fabs(std::remainder(
               at_deg_ - cylinder.firing_tdc_deg + earlier_deg - train.profile.peak_deg(), 720.0)) /
           2;
  }

  /// An honest look: certain above the eye's limit and on the seat, either answer between. Within 12 degrees
  /// of the seat it may be "just touching".
  Saw look(int number) {
    const double lift = lift_mm(number);
    if (uniform(0, 1) < 0.08) return Saw::hidden;
    if (lift > eye_mm_) return Saw::open;
    const bool near = lift > 0 || lift_mm(number, at_deg_ - 12) > 0 || lift_mm(number, at_deg_ + 12) > 0;
    if (near && uniform(0, 1) < 0.4) return Saw::touching;
    if (lift == 0) return Saw::shut;
    return uniform(0, 1) < 0.5 ? Saw::open : Saw::shut;
  }

  void turn(double min_deg, double max_deg) {
    at_deg_ = std::fmod(at_deg_ + uniform(min_deg, max_deg), 720.0);
  }
  void move_anywhere() { at_deg_ = uniform(0, 720); }
  void set(double at_deg) { at_deg_ = at_deg; }
  double at_deg() const { return at_deg_; }

  double uniform(double a, double b) {
    return a + (b - a) * std::uniform_real_distribution<double>(0, 1)(random_);
  }
  int pick(int n) { return static_cast<int>(uniform(0, n)) % n; }

 private:
  const Engine& engine_;
  double eye_mm_;
  std::mt19937_64& random_;
  double at_deg_;
  std::vector<double> phase_deg_;
  std::map<std::pair<int, const ValveTrain*>, double> shift_deg_;
};

}  // namespace shutlane
