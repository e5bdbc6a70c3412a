#pragma once
// The [cranking] section of an engine file: what the starter, the friction and the rings do when a crank is
// bumped.
//
// Every key is optional; engines/README.md lists them with unit, range, default and meaning. "Scaled"
// defaults follow from the engine (see model.hpp). A spread is one standard deviation, of the logarithm where
// it is a fraction, and says how little is known, not how good the car is.
#include <optional>

namespace shutlane {

enum class StarterKind { normal, none };

/// nullopt: scaled from the engine. Defaults are those of the members.
/// Sources: friction_bar is the constant of Barnes-Moss 1975 and friction_bar_per_krpm the speed term of
/// Millington and Hartles, both as given by Heywood 1988 ch. 13 (from memory; neither is fitted at cranking
/// speed, hence the wide spread). polytropic: 1.3 +- 0.05 for motored spark-ignition engines (from memory).
/// Delays, press and breakaway: common practice, no source.
struct CrankingSpec {
  StarterKind starter = StarterKind::normal;
  std::optional<double> starter_torque_nm;
  double starter_torque_spread = 0.10;
  double starter_speed_rpm = 250;
  double battery_strength = 1;
  double engage_delay_s = 0.040;
  double engage_delay_spread_s = 0.008;
  double release_delay_s = 0.020;
  double press_spread = 0.12;
  std::optional<double> inertia_kgm2;
  double inertia_spread = 0.10;
  double friction_bar = 0.97;
  double friction_spread = 0.25;
  double friction_bar_per_krpm = 0.48;
  double breakaway_ratio = 1.2;
  double polytropic = 1.3;
  double polytropic_spread = 0.03;
  double leak_down_percent = 10;
  double leak_spread = 0.6;
  double ambient_bar = 1.0;
  friend bool operator==(const CrankingSpec&, const CrankingSpec&) = default;
};

/// Name and range of every number, so that a reader and a writer need no second list.
struct CrankingKey {
  const char* key;
  double least, most;
  double CrankingSpec::*value;  ///< exactly one of the two is set
  std::optional<double> CrankingSpec::*scaled_value;
};
inline constexpr CrankingKey kCrankingKeys[] = {
    {"starter_torque_nm", 5, 5000, nullptr, &CrankingSpec::starter_torque_nm},
    {"starter_torque_spread", 0, 0.5, &CrankingSpec::starter_torque_spread, nullptr},
    {"starter_speed_rpm", 50, 1000, &CrankingSpec::starter_speed_rpm, nullptr},
    {"battery_strength", 0.3, 1.2, &CrankingSpec::battery_strength, nullptr},
    {"engage_delay_s", 0, 0.5, &CrankingSpec::engage_delay_s, nullptr},
    {"engage_delay_spread_s", 0, 0.2, &CrankingSpec::engage_delay_spread_s, nullptr},
    {"release_delay_s", 0, 0.5, &CrankingSpec::release_delay_s, nullptr},
    {"press_spread", 0, 0.5, &CrankingSpec::press_spread, nullptr},
    {"inertia_kgm2", 0.001, 50, nullptr, &CrankingSpec::inertia_kgm2},
    {"inertia_spread", 0, 0.5, &CrankingSpec::inertia_spread, nullptr},
    {"friction_bar", 0.05, 10, &CrankingSpec::friction_bar, nullptr},
    {"friction_spread", 0, 0.8, &CrankingSpec::friction_spread, nullptr},
    {"friction_bar_per_krpm", 0, 20, &CrankingSpec::friction_bar_per_krpm, nullptr},
    {"breakaway_ratio", 1, 3, &CrankingSpec::breakaway_ratio, nullptr},
    {"polytropic", 1, 1.45, &CrankingSpec::polytropic, nullptr},
    {"polytropic_spread", 0, 0.1, &CrankingSpec::polytropic_spread, nullptr},
    {"leak_down_percent", 0, 90, &CrankingSpec::leak_down_percent, nullptr},
    {"leak_spread", 0, 1.5, &CrankingSpec::leak_spread, nullptr},
    {"ambient_bar", 0.5, 1.2, &CrankingSpec::ambient_bar, nullptr},
};

}  // namespace shutlane
