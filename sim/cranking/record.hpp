#pragma once
// One bump written down from the press to the rest, on the reference path: for a replay and its curves.
#include <vector>

#include "sim/cranking/reference.hpp"

namespace shutlane {

/// The crank at an instant. Where a torque jumps (the starter takes hold or lets go, the crank stops, a valve
/// opens) two samples bear the same time: before and after.
struct BumpSample {
  double time_s = 0;       ///< since the starter's circuit was closed
  double turned_deg = 0;   ///< since then, not wrapped; less than 0: behind the start
  double speed_rad_s = 0;  ///< less than 0: rolls back
  /// On the crank, positive forward: J dw/dt is their sum. While the crank stands, friction holds the others.
  double gas_nm = 0, starter_nm = 0, friction_nm = 0;
  std::vector<double> pressure_pa;  ///< absolute, one a cylinder, in the model's order
};

struct BumpRecord {
  double from_deg = 0;                      ///< cycle angle, as asked
  double press_s = 0;                       ///< the circuit is closed from 0 to here
  double drive_from_s = 0, drive_to_s = 0;  ///< the starter drives; the same when it does not take hold
  double rests_s = 0;                       ///< the last movement
  double rolled_back_deg = 0;               ///< the most that the crank went back from a furthest point, >= 0
  std::vector<BumpSample> samples;          ///< rising in time, at least two
  double ends_s() const { return samples.back().time_s; }
  double advance_deg() const { return samples.back().turned_deg; }
};

struct RecordOptions {
  double longest_step_deg = 1;      ///< between samples while the crank turns; 0.1..2
  double longest_gap_s = 0.01;      ///< between samples while it stands
  double after_s = 0.15;            ///< goes on for this long after the rest: the pressures leak away
  double longest_s = 20;            ///< gives up; a crank on a dead balance can creep for very long
  std::function<bool()> give_up{};  ///< asked again and again; true: the record ends there and is of no use
};

/// The nominal bump: no spread. Pure; a few milliseconds to a tenth of a second.
BumpRecord record_bump(const CrankingModel& model, double from_deg, double press_s,
                       const RecordOptions& options = {});

/// Between the samples, linear; before the first and after the last, these.
BumpSample sample_at(const BumpRecord& record, double time_s);

}  // namespace shutlane
