#pragma once
// The accurate path: one crank integrated with an embedded Runge-Kutta pair and every event found by
// bisection. Slow (a few milliseconds a bump); what is shown for a single bump, and what the fast path is
// measured against.
#include <functional>
#include <vector>

#include "sim/cranking/model.hpp"

namespace shutlane {

/// A crank at an instant. The angle is not wrapped.
struct CrankState {
  double time_s = 0;
  double angle_deg = 0;
  double speed_rad_s = 0;
  std::vector<double> pressure_pa;                     ///< one a cylinder, in the model's order
  double gas_nm = 0, starter_nm = 0, friction_nm = 0;  ///< friction: magnitude while moving, 0 at rest
  int direction = 0;                                   ///< of motion; 0 while it stands
};

struct ReferenceOptions {
  double tolerance = 1e-10;     ///< local error a step, relative to 1 rad, 10 rad/s and the pressure
  double longest_step_deg = 2;  ///< so that no event is stepped over twice
  double longest_s = 600;       ///< gives up after this time
  std::function<void(const CrankState&)> watch;  ///< called after every step; may be empty
  std::function<bool()> give_up;  ///< asked before every step; may be empty. True: rests as it is
  bool watch_events = false;      ///< also called just before an event (a seat, a stop) changes the state
};

/// A crank that is integrated from state to state.
class ReferenceCrank {
 public:
  /// Stands at an angle, every cylinder leaked down to ambient.
  ReferenceCrank(CrankingModel model, double at_deg, ReferenceOptions options = {});

  /// Runs for a time, the starter's drive on or off throughout. Ends early when the crank stands for good.
  void run(double time_s, bool driven);
  /// Runs without the starter until the crank stands for good.
  void run_to_rest();
  /// Turned by hand at a steady speed to an angle (not behind the present one), then let go at rest.
  void turn_by_wrench(double to_deg, double speed_rad_s);
  /// Overrides the state, e.g. to let the crank swing. Pressures of open cylinders are taken as ambient.
  void put(const CrankState& state);

  bool at_rest() const { return at_rest_; }  ///< stands, and no leak can set it in motion again
  CrankState state() const;
  double gas_nm() const;
  const CrankingModel& model() const { return model_; }

 private:
  std::vector<double> slope(const std::vector<double>& y) const;
  /// One Runge-Kutta step; returns the error estimate over the tolerance.
  double step(const std::vector<double>& from, double h_s, std::vector<double>& to) const;
  bool event_at(const std::vector<double>& y) const;
  void settle_events();
  void stand_or_move();
  void stand_until(double until_s);
  double gas_nm(const std::vector<double>& y) const;
  double starter_nm(double speed) const;
  bool sealed_at(size_t k, double angle_rad) const;

  CrankingModel model_;
  ReferenceOptions options_;
  std::vector<double> y_;  // angle rad, speed rad/s, pressures Pa
  std::vector<char> sealed_;
  double time_s_ = 0, step_s_ = 1e-4;
  int direction_ = 0;  // of motion; 0 at rest
  bool driven_ = false, overrun_ = false, at_rest_ = false;
};

struct BumpResult {
  double advance_deg = 0;   ///< rest angle less start angle; may be negative
  double furthest_deg = 0;  ///< largest advance on the way
  double peak_speed_rad_s = 0;
  double time_s = 0;  ///< from the press to the last movement
};

/// One bump from rest on the reference path.
BumpResult bump(const CrankingModel& model, double from_deg, double press_s,
                const ReferenceOptions& options = {});

/// True when a nudge of friction by `nudge` (relative, both ways) moves the rest by more than `jump_deg`: the
/// bump lies on the knife-edge between two rest positions, where no solver's answer means anything.
bool on_knife_edge(const CrankingModel& model, double from_deg, double press_s, double nudge = 2e-3,
                   double jump_deg = 1.0);

/// Where a crank rests that a wrench turned through `turn_deg` to `let_go_deg` and let go; not wrapped, so
/// that rest_after_wrench - let_go_deg is the roll-back (negative) or roll-on (positive).
double rest_after_wrench_deg(const CrankingModel& model, double let_go_deg, double turn_deg = 360,
                             double speed_rad_s = 1.0);

/// How near an aimed angle a wrench's turn ends: the largest |roll-back| over let-go angles `step_deg` apart.
double wrench_accuracy_deg(const CrankingModel& model, double step_deg = 5, double speed_rad_s = 1.0);

}  // namespace shutlane
