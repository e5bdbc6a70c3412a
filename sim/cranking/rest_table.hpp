#pragma once
// Start angle x press -> where the crank comes to rest, in bins of one degree over the cycle. Worked out once
// for an engine; the plan reads nothing else of the physics.
#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "sim/cranking/fast.hpp"
#include "sim/cranking/spread.hpp"

namespace shutlane {

inline constexpr int kBins = 720;

/// 0.06 to 0.60 s in steps of 0.02 s. The first is "the shortest tap": shorter ones are let go before the
/// pinion drives. Holds the presses of the habits, 0.10 and 0.30 s.
std::vector<double> default_presses_s();

struct RestTableQuestion {
  std::vector<double> presses_s = default_presses_s();  ///< rising
  std::vector<CarSample> cars;                          ///< empty: car_samples
  int trials_per_car = 0;  ///< 0: chosen so that the table takes about a million bumps, 8..48
  uint64_t seed = 1;
  double step_deg = kFastStep_deg;
  int threads = 1;                            ///< the table does not depend on it
  std::function<bool(double done)> progress;  ///< 0..1, from any thread, one call at a time; false: give up
};

struct RestTable {
  std::vector<double> presses_s;
  std::vector<CarSample> cars;
  int trials_per_car = 0;
  double period_deg = kBins;  ///< the table repeats after this
  int phases = kBins;         ///< bins in a period
  /// Rest bin less start bin (not wrapped), [((phase * presses + press) * cars + car) * trials + trial]
  std::vector<int16_t> moved;

  int phase_of(int bin) const;
  const int16_t* trials(int phase, int press, int car) const {
    return &moved[((size_t(phase) * presses_s.size() + size_t(press)) * cars.size() + size_t(car)) *
                  size_t(trials_per_car)];
  }
  uint64_t hash() const;  ///< of everything in it
  friend bool operator==(const RestTable& a, const RestTable& b) { return a.hash() == b.hash(); }
};

/// nullopt when given up.
std::optional<RestTable> build_rest_table(const CrankingModel& model, const RestTableQuestion& question);

/// Names the table by all that it depends on, 16 hexadecimal digits: for a cache.
std::string rest_table_key(const CrankingModel& model, const RestTableQuestion& question);
/// For a cache on disk; from_bytes gives nothing when the bytes are not a whole table.
std::vector<unsigned char> to_bytes(const RestTable& table);
std::optional<RestTable> rest_table_from_bytes(const std::vector<unsigned char>& bytes);

}  // namespace shutlane
