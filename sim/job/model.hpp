#pragma once
// What the job needs of an engine, reckoned once: where each port is shut, and what each look would rule out.
#include <vector>

#include "sim/plan/turning.hpp"
#include "sim/plan/wrench.hpp"
#include "sim/shut/windows.hpp"
#include "sim/witness/here.hpp"

namespace shutlane {

struct JobRules {
  double margin_deg = kDefaultMargin_deg;      ///< 0..360
  double accuracy_deg = kDefaultAccuracy_deg;  ///< 0..360: how near an aimed turn ends
  double eye_mm = kDefaultEye_mm;              ///< 0..3
  TurnBy turn_by = TurnBy::wrench;
  /// Above this chance of being open a port is not blasted although two witnesses call it shut, 0..1; 1: the
  /// witnesses alone decide. The chances rest on assumed rates of slips (sim/witness/causes.hpp, eye.hpp), so
  /// it is a measure of doubt, not of risk; whole jobs with slips set the default
  /// (tests/job/whole_jobs_test).
  double most_open = kMostOpen;
  double most_harmed = kMostHarmed;  ///< the same of being open by more than kHarm_mm, 0..1
  /// Cam lobes may be seen through the oil filler; they are asked for where ports are few, until two can't
  /// be.
  bool lobes_visible = true;
  bool wrench_too = false;  ///< turn_by starter: a wrench is at hand as well, to finish with
  friend bool operator==(const JobRules&, const JobRules&) = default;
};

/// An engine without a starter that can be bumped (a hybrid) is turned by wrench, whatever was asked for.
JobRules possible_rules(const Engine& engine, JobRules rules);

/// How near its mark a crank is stopped by hand, crank degrees. Common practice, no source.
inline constexpr double kMarkReads_deg = 5;

struct JobModel : WitnessModel {
  JobRules rules;  ///< as possible with this engine
  std::vector<Windows> windows;
  std::vector<int> walk;  ///< all cylinders as they stand, bank by bank from the pulley end
  /// For each port: where looks into all the others, answered as the events stated would have it, show it to
  /// be surely shut.
  std::vector<ArcSet> workable;
  /// With the crank's mark in line, and a turn later again, every port is surely shut once, with room to
  /// spare.
  bool mark_suffices = false;
  /// How far a crank let go of at the mark may roll and every port still be surely shut at one of its two
  /// places: half a firing interval with spark plugs in, or nullopt where that is too far.
  std::optional<double> mark_rolled_deg;
};

JobModel make_job_model(const Engine& engine, const JobRules& rules);

}  // namespace shutlane
