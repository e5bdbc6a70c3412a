#pragma once
// What the job needs of an engine, reckoned once: where each port is shut, and what each look would rule out.
#include <memory>
#include <vector>

#include "sim/belief/belief.hpp"
#include "sim/belief/locate.hpp"
#include "sim/plan/turning.hpp"
#include "sim/plan/wrench.hpp"
#include "sim/shut/windows.hpp"

namespace shutlane {

struct JobRules {
  double margin_deg = kDefaultMargin_deg;      ///< 0..360
  double accuracy_deg = kDefaultAccuracy_deg;  ///< 0..360: how near an aimed turn ends
  double eye_mm = kDefaultEye_mm;              ///< 0..3
  TurnBy turn_by = TurnBy::wrench;
  /// Above this chance of being open a port is not blasted although two witnesses call it shut, 0..1; 1: the
  /// witnesses alone decide. The chances rest on assumed rates of slips (sim/belief/causes.hpp, eye.hpp), so
  /// it is a measure of doubt, not of risk; whole jobs with slips set the default
  /// (tests/job/whole_jobs_test).
  double most_open = kMostOpen;
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

struct PortArcs {
  Windows windows;
  ArcSet if_seen_shut, if_seen_open;  ///< where the crank can stand after such a look
  ArcSet touching;                    ///< where the eye can't tell shut from open
};

struct JobModel {
  Engine engine;
  JobRules rules;               ///< as possible with this engine
  std::vector<PortArcs> ports;  ///< in number order, as engine.cylinders
  std::vector<Windows> windows;
  std::shared_ptr<const LookModel> looks;  ///< how likely a look misleads
  /// With the crank's mark in line, and a turn later again, every port is surely shut once, with room to
  /// spare.
  bool mark_suffices = false;

  size_t index_of(int cylinder) const;  ///< ports.size() when the engine has no such cylinder
};

JobModel make_job_model(const Engine& engine, const JobRules& rules);

}  // namespace shutlane
