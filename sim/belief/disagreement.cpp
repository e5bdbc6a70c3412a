#include "sim/belief/disagreement.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace shutlane {

namespace {

constexpr double kDataWrong = 0.002;  ///< before any look; assumed, no source
constexpr double kMisreadMark = 0.01;

using Chances = std::vector<double>;

class Explainer {
 public:
  Explainer(const LookModel& model, const std::vector<Observed>& observed, std::span<const double> before)
      : model_(model), observed_(observed), before_(kBeliefBins, 1.0 / kBeliefBins) {
    const double sum = std::accumulate(before.begin(), before.end(), 0.0);
    if (before.size() == kBeliefBins && sum > 0)
      for (size_t i = 0; i < kBeliefBins; ++i) before_[i] = before[i] / sum;
  }

  /// Chance of one answer at every angle.
  Chances answer(const Observed& o, const Cause& cause, bool other_port = false) const {
    Chances chances(kBeliefBins, 1.0);
    const size_t port = model_.index_of(o.cylinder);
    const size_t ports = model_.cylinders().size();
    for (size_t bin = 0; bin < kBeliefBins; ++bin) {
      const double at_deg = static_cast<double>(bin) * kBeliefStep_deg;
      if (o.cylinder == 0) {
        const double off_deg = std::fabs(std::remainder(at_deg - o.mark_deg, kTurn_deg));
        const double sure_deg = std::max(o.plus_minus_deg, kBeliefStep_deg);
        chances[bin] = std::max(kMisreadMark, std::clamp(2 - off_deg / sure_deg, 0.0, 1.0));
      } else if (port < ports) {
        double shut = 0;
        if (!other_port || ports < 2) {
          shut = model_.called_shut(cause, port, at_deg);
        } else {
          for (size_t k = 0; k < ports; ++k)
            if (k != port) shut += model_.called_shut(cause, k, at_deg) / static_cast<double>(ports - 1);
        }
        chances[bin] = o.shut ? shut : 1 - shut;
      }
    }
    return chances;
  }

  double likelihood(const Cause& cause) const {
    Chances all = before_;
    for (const Observed& o : observed_) multiply(all, answer(o, cause));
    return std::accumulate(all.begin(), all.end(), 0.0);
  }

  double with_wrong_port(size_t wrong) const {
    Chances all = before_;
    for (size_t i = 0; i < observed_.size(); ++i)
      multiply(all, answer(observed_[i], model_.causes()[0], i == wrong));
    return std::accumulate(all.begin(), all.end(), 0.0);
  }

  double moved_after(size_t count) const {
    Chances first = before_, then(kBeliefBins, 1.0 / kBeliefBins);
    for (size_t i = 0; i < observed_.size(); ++i)
      multiply(i < count ? first : then, answer(observed_[i], model_.causes()[0]));
    return std::accumulate(first.begin(), first.end(), 0.0) * std::accumulate(then.begin(), then.end(), 0.0);
  }

 private:
  static void multiply(Chances& into, const Chances& by) {
    for (size_t i = 0; i < kBeliefBins; ++i) into[i] *= by[i];
  }
  const LookModel& model_;
  const std::vector<Observed>& observed_;
  Chances before_;
};

/// Adds a variant's chance to its suspicion and remembers the likeliest variant.
class Tally {
 public:
  explicit Tally(Suspicion what) { suspect_.what = what; }
  void add(double chance, int cylinder, size_t bank, size_t after) {
    suspect_.chance += chance;
    if (chance <= best_) return;
    best_ = chance;
    suspect_.cylinder = cylinder;
    suspect_.bank = bank;
    suspect_.after = after;
  }
  const Suspect& suspect() const { return suspect_; }

 private:
  Suspect suspect_;
  double best_ = 0;
};

/// The look that the others expect least: the port to look into again.
int least_expected(const Explainer& explain, const LookModel& model, const std::vector<Observed>& observed) {
  int cylinder = 0;
  double least = 2;
  const Cause& none = model.causes()[0];
  for (size_t i = 0; i < observed.size(); ++i) {
    if (observed[i].cylinder == 0) continue;
    Chances others(kBeliefBins, 1.0);
    for (size_t j = 0; j < observed.size(); ++j)
      if (j != i) {
        const Chances answer = explain.answer(observed[j], none);
        for (size_t bin = 0; bin < kBeliefBins; ++bin) others[bin] *= answer[bin];
      }
    const Chances own = explain.answer(observed[i], none);
    const double sum = std::accumulate(others.begin(), others.end(), 0.0);
    const double chance = std::inner_product(others.begin(), others.end(), own.begin(), 0.0) / sum;
    if (chance < least) {
      least = chance;
      cylinder = observed[i].cylinder;
    }
  }
  return cylinder;
}

}  // namespace

std::vector<Suspect> suspects(const LookModel& model, const std::vector<Observed>& observed,
                              std::span<const double> before) {
  const Explainer explain(model, observed, before);
  Tally missed(Suspicion::missed_look), port(Suspicion::wrong_port), moved(Suspicion::moved),
      phaser(Suspicion::phaser), crumb(Suspicion::crumb), chain(Suspicion::chain),
      data(Suspicion::engine_data);
  for (const Cause& cause : model.causes()) {
    if (cause.kind == CauseKind::moved) continue;
    const double chance = cause.prior * explain.likelihood(cause);
    if (cause.kind == CauseKind::none) missed.add(chance, least_expected(explain, model, observed), 0, 0);
    if (cause.kind == CauseKind::phaser) phaser.add(chance, 0, cause.bank, 0);
    if (cause.kind == CauseKind::chain) chain.add(chance, 0, cause.bank, 0);
    // It shows as a port seen open; one that nobody looked into contradicts nothing.
    const bool seen_open = std::any_of(observed.begin(), observed.end(), [&](const Observed& o) {
      return o.cylinder == cause.cylinder && !o.shut;
    });
    if (cause.kind == CauseKind::crumb && seen_open) crumb.add(chance, cause.cylinder, 0, 0);
  }
  size_t looks = 0;
  for (size_t i = 0; i < observed.size(); ++i) {
    if (observed[i].cylinder == 0) continue;
    ++looks;
    port.add(model.eye().wrong_port * explain.with_wrong_port(i), observed[i].cylinder, 0, 0);
  }
  // Before the first look the crank may have been moved since the angle was last known; then at any time.
  for (size_t i = 0; i < observed.size(); ++i) {
    const CausePriors& priors = model.priors();
    const double prior = i == 0                    ? priors.moved
                         : observed[i].after_pause ? priors.moved_pause
                                                   : priors.moved_each;
    moved.add(prior * explain.moved_after(i), 0, 0, i);
  }
  data.add(kDataWrong * std::pow(0.5, static_cast<double>(looks)), 0, 0, 0);

  std::vector<Suspect> all;
  double sum = 0;
  for (const Tally* tally : {&missed, &port, &moved, &phaser, &crumb, &chain, &data}) {
    if (tally == &crumb && crumb.suspect().cylinder == 0) continue;
    all.push_back(tally->suspect());
    sum += all.back().chance;
  }
  if (sum > 0)
    for (Suspect& s : all) s.chance /= sum;
  std::stable_sort(all.begin(), all.end(),
                   [](const Suspect& a, const Suspect& b) { return a.chance > b.chance; });
  return all;
}

}  // namespace shutlane
