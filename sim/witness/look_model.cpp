#include "sim/witness/look_model.hpp"

#include <algorithm>
#include <map>

namespace shutlane {

namespace {

/// Straight between the bins of a table over the cycle.
double between(const std::vector<double>& table, double at_deg) {
  const double place = wrap_deg(at_deg) / kBeliefStep_deg;
  const size_t low = static_cast<size_t>(place) % kBeliefBins;
  const double part = place - static_cast<double>(static_cast<size_t>(place));
  return table[low] * (1 - part) + table[(low + 1) % kBeliefBins] * part;
}

}  // namespace

LookModel::LookModel(const Engine& engine, const Eye& eye, const CausePriors& priors)
    : causes_(causes_of(engine, priors)), eye_(eye), priors_(priors) {
  std::map<std::vector<size_t>, size_t> known;
  for (const Cylinder& c : engine.cylinders) {
    numbers_.push_back(c.number);
    bank_of_.push_back(c.bank);
    firing_tdc_deg_.push_back(c.firing_tdc_deg);
    const auto [at, is_new] = known.try_emplace(c.intake, called_.size());
    table_of_.push_back(at->second);
    if (!is_new) continue;
    // The events may lie anywhere within their tolerance; all valves of the port moved alike stand for it.
    constexpr int kOffsets = 9;
    Table called(kBeliefBins, 0.0), shut(kBeliefBins, 0.0), harmless(kBeliefBins, 0.0);
    for (size_t bin = 0; bin < kBeliefBins; ++bin)
      for (int k = 0; k < kOffsets; ++k) {
        double lift_mm = 0;
        for (const size_t i : c.intake) {
          const ValveTrain& train = engine.trains[i];
          const double from_deg = train.phase_first_deg - train.timing_deg;
          const double to_deg = train.phase_last_deg + train.timing_deg;
          const double earlier_deg = from_deg + (to_deg - from_deg) * (k + 0.5) / kOffsets;
          const double local = static_cast<double>(bin) * kBeliefStep_deg;
          lift_mm = std::max(lift_mm, train.profile.lift_mm(local + earlier_deg));
        }
        called[bin] += chance_called_shut(eye, lift_mm) / kOffsets;
        shut[bin] += lift_mm > 0 ? 0.0 : 1.0 / kOffsets;
        harmless[bin] += lift_mm > kHarm_mm ? 0.0 : 1.0 / kOffsets;
      }
    called_.push_back(std::move(called));
    shut_.push_back(std::move(shut));
    harmless_.push_back(std::move(harmless));
  }
}

void LookModel::lay_out() const {
  const size_t ports = numbers_.size();
  answered_.resize(causes_.size() * ports * kBeliefBins);
  really_.resize(answered_.size());
  harmless_all_.resize(answered_.size());
  std::vector<double> called(ports);
  const double wrong = ports > 1 ? eye_.wrong_port : 0;
  for (size_t c = 0; c < causes_.size(); ++c)
    for (size_t bin = 0; bin < kBeliefBins; ++bin) {
      const double at_deg = static_cast<double>(bin) * kBeliefStep_deg;
      double sum = 0;
      for (size_t p = 0; p < ports; ++p) sum += called[p] = called_shut(causes_[c], p, at_deg);
      for (size_t p = 0; p < ports; ++p) {
        const size_t at = (c * ports + p) * kBeliefBins + bin;
        const double elsewhere = ports > 1 ? (sum - called[p]) / static_cast<double>(ports - 1) : 0;
        answered_[at] = (1 - wrong) * called[p] + wrong * elsewhere;
        const bool held_open = causes_[c].kind == CauseKind::crumb && causes_[c].cylinder == numbers_[p];
        const double local = local_deg(causes_[c], p, at_deg);
        really_[at] = held_open ? 0 : between(shut_[table_of_[p]], local);
        harmless_all_[at] =
            held_open && priors_.crumb_mm > kHarm_mm ? 0 : between(harmless_[table_of_[p]], local);
      }
    }
}

size_t LookModel::index_of(int cylinder) const {
  const auto at = std::find(numbers_.begin(), numbers_.end(), cylinder);
  return static_cast<size_t>(at - numbers_.begin());
}

double LookModel::local_deg(const Cause& cause, size_t port, double crank_deg) const {
  const bool shifted =
      (cause.kind == CauseKind::phaser || cause.kind == CauseKind::chain) && cause.bank == bank_of_[port];
  return crank_deg - firing_tdc_deg_[port] + (shifted ? cause.earlier_deg : 0);
}

double LookModel::called_shut(const Cause& cause, size_t port, double crank_deg) const {
  const double chance = between(called_[table_of_[port]], local_deg(cause, port, crank_deg));
  if (cause.kind == CauseKind::crumb && cause.cylinder == numbers_[port])
    return std::min(chance, chance_called_shut(eye_, priors_.crumb_mm));
  return chance;
}

}  // namespace shutlane
