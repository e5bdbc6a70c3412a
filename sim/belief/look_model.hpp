#pragma once
// How likely a look is answered "shut", by port, crank angle and hidden cause.
#include "sim/belief/causes.hpp"
#include "sim/belief/eye.hpp"

namespace shutlane {

inline constexpr size_t kBeliefBins = 1440;
inline constexpr double kBeliefStep_deg = kCycle_deg / kBeliefBins;  ///< bin i stands for the angle i * step

/// Made once for an engine; tables over the local angle stand for lift curve, tolerances and eye together.
class LookModel {
 public:
  explicit LookModel(const Engine& engine, const Eye& eye = {}, const CausePriors& priors = {});

  const std::vector<Cause>& causes() const { return causes_; }
  const std::vector<int>& cylinders() const { return numbers_; }  ///< in number order
  size_t index_of(int cylinder) const;  ///< into cylinders(); cylinders().size() when there is none
  const Eye& eye() const { return eye_; }
  const CausePriors& priors() const { return priors_; }

  /// Chance of "shut" at a look into this very port.
  double called_shut(const Cause& cause, size_t port, double crank_deg) const;
  /// The same with the chance that the look went into any other port.
  double answered_shut(const Cause& cause, size_t port, double crank_deg) const;
  /// Chance that the port is really shut, the tolerances spread evenly.
  double really_shut(const Cause& cause, size_t port, double crank_deg) const;

 private:
  using Table = std::vector<double>;  ///< kBeliefBins values over the local angle
  double local_deg(const Cause& cause, size_t port, double crank_deg) const;
  std::vector<int> numbers_;
  std::vector<size_t> bank_of_, table_of_;
  std::vector<double> firing_tdc_deg_;
  std::vector<Table> called_, shut_;
  std::vector<Cause> causes_;
  Eye eye_;
  CausePriors priors_;
};

}  // namespace shutlane
