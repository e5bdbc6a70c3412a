#pragma once
// What the job needs of an engine, reckoned once: where each port is shut, and what each look would rule out.
#include <vector>

#include "sim/belief/locate.hpp"
#include "sim/plan/wrench.hpp"
#include "sim/shut/windows.hpp"

namespace shutlane {

/// How the crank is turned. Sets how well a turn is known, and what to beware of.
enum class TurnBy { wrench, bar, road_wheel, starter };

struct JobRules {
  double margin_deg = kDefaultMargin_deg;      ///< 0..360
  double accuracy_deg = kDefaultAccuracy_deg;  ///< 0..360: how near an aimed turn ends
  double eye_mm = kDefaultEye_mm;              ///< 0..3
  TurnBy turn_by = TurnBy::wrench;
  friend bool operator==(const JobRules&, const JobRules&) = default;
};

/// How near a turn made this way ends, the way itself taken at its worst: plugs in, so that a crank let go of
/// rolls back by up to half a firing interval. The starter's rest angle is not known at all: 360.
double usual_accuracy_deg(TurnBy turn_by, size_t cylinders);

/// An engine without a starter that can be bumped (a hybrid) is turned by wrench, whatever was asked for.
JobRules possible_rules(const Engine& engine, JobRules rules);

struct PortArcs {
  Windows windows;
  ArcSet if_seen_shut, if_seen_open;  ///< where the crank can stand after such a look
};

struct JobModel {
  Engine engine;
  JobRules rules;               ///< as possible with this engine
  std::vector<PortArcs> ports;  ///< in number order, as engine.cylinders
  std::vector<Windows> windows;

  size_t index_of(int cylinder) const;  ///< ports.size() when the engine has no such cylinder
};

JobModel make_job_model(const Engine& engine, const JobRules& rules);

}  // namespace shutlane
