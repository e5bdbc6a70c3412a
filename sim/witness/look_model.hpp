#pragma once
// How likely a look is answered "shut", by port, crank angle and hidden cause.
#include <mutex>
#include <span>

#include "sim/witness/causes.hpp"
#include "sim/witness/eye.hpp"

namespace shutlane {

/// A valve further off its seat than this lets abrasive past in earnest; less lets dust past at most. Common
/// practice, no source.
inline constexpr double kHarm_mm = 0.3;

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
  /// Over all bins, by index into causes() and cylinders(): the chance of "shut" with the chance that the
  /// look went into any other port; and the chance that the port is really shut, the tolerances spread
  /// evenly; and the chance that no valve of it stands more than kHarm_mm off its seat.
  std::span<const double> answered_shut(size_t cause, size_t port) const {
    std::call_once(laid_out_, [this] { lay_out(); });
    return row(answered_, cause, port);
  }
  std::span<const double> really_shut(size_t cause, size_t port) const {
    std::call_once(laid_out_, [this] { lay_out(); });
    return row(really_, cause, port);
  }
  std::span<const double> really_harmless(size_t cause, size_t port) const {
    std::call_once(laid_out_, [this] { lay_out(); });
    return row(harmless_all_, cause, port);
  }

 private:
  using Table = std::vector<double>;  ///< kBeliefBins values over the local angle
  std::span<const double> row(const Table& table, size_t cause, size_t port) const {
    return {table.data() + (cause * numbers_.size() + port) * kBeliefBins, kBeliefBins};
  }
  void lay_out() const;
  double local_deg(const Cause& cause, size_t port, double crank_deg) const;
  std::vector<int> numbers_;
  std::vector<size_t> bank_of_, table_of_;
  std::vector<double> firing_tdc_deg_;
  std::vector<Table> called_, shut_, harmless_;  ///< by kind of port, right port and no crumb
  /// Cause by cause, port by port; laid out when first asked for, since an engine that is only looked at, or
  /// changed with every frame, never needs them and they take longer than a frame.
  mutable Table answered_, really_, harmless_all_;
  mutable std::once_flag laid_out_;
  std::vector<Cause> causes_;
  Eye eye_;
  CausePriors priors_;
};

}  // namespace shutlane
