#include "sim/witness/disagreement.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

namespace shutlane {

namespace {

// Before anything is told; all assumed, no source.
constexpr double kDataWrong = 0.002, kMisreadMark = 0.01, kMisreadLobe = 0.007, kOtherTurn = 0.004;
constexpr double kNever = 1e-9;  ///< of a mark or a lobe taken to be right

using Chances = std::vector<double>;

double sum_of(const Chances& chances) { return std::accumulate(chances.begin(), chances.end(), 0.0); }

/// One thing told that counts: a look is made again in place of the one before.
struct Said {
  Told told;
  bool after_pause = false;
  const LookedInto* look() const { return std::get_if<LookedInto>(&told); }
  const MarkRead* mark() const { return std::get_if<MarkRead>(&told); }
  const LobeSeen* lobe() const { return std::get_if<LobeSeen>(&told); }
};

bool says_something(const Told& told) {
  if (const auto* look = std::get_if<LookedInto>(&told)) return tells(*look);
  if (const auto* lobe = std::get_if<LobeSeen>(&told))
    return lobe->points == Lobe::away || lobe->points == Lobe::at_valve;
  return std::holds_alternative<MarkRead>(told);
}

std::vector<Said> said_of(std::span<const Told> told) {
  std::vector<Said> said;
  bool paused = false;
  for (const Told& t : told) {
    if (std::holds_alternative<Pause>(t)) paused = true;
    if (const auto* look = std::get_if<LookedInto>(&t))
      std::erase_if(said, [&](const Said& s) { return s.look() && s.look()->cylinder == look->cylinder; });
    if (!says_something(t)) continue;
    said.push_back({t, paused});
    paused = false;
  }
  return said;
}

class Explainer {
 public:
  Explainer(const WitnessModel& model, const std::vector<Said>& said, std::span<const double> before)
      : model_(model), said_(said), before_(kBeliefBins, 1.0 / kBeliefBins) {
    const double sum = std::accumulate(before.begin(), before.end(), 0.0);
    if (before.size() == kBeliefBins && sum > 0)
      for (size_t i = 0; i < kBeliefBins; ++i) before_[i] = before[i] / sum;
    for (const Said& s : said_) plain_.push_back(answer(s, none()));
  }

  const Cause& none() const { return model_.looks->causes()[0]; }

  /// Chance of one answer at every angle.
  Chances answer(const Said& s, const Cause& cause, bool other_port = false) const {
    const LookModel& looks = *model_.looks;
    Chances chances(kBeliefBins, 1.0);
    if (const LobeSeen* lobe = s.lobe()) {
      const ArcSet arcs = lobe_arcs(model_.engine, *lobe);
      for (size_t bin = 0; bin < kBeliefBins; ++bin) chances[bin] = arcs.contains(bin_deg(bin)) ? 1 : kNever;
      return chances;
    }
    if (const MarkRead* mark = s.mark()) {
      const double sure_deg = std::max(mark->plus_minus_deg, kBeliefStep_deg);
      for (size_t bin = 0; bin < kBeliefBins; ++bin) {
        const double off_deg = std::fabs(std::remainder(bin_deg(bin) - mark->at_deg, kTurn_deg));
        chances[bin] = std::max(kNever, std::clamp(2 - off_deg / sure_deg, 0.0, 1.0));
      }
      return chances;
    }
    const size_t port = looks.index_of(s.look()->cylinder), ports = looks.cylinders().size();
    if (port == ports) return chances;
    for (size_t bin = 0; bin < kBeliefBins; ++bin) {
      double shut = 0;
      if (!other_port || ports < 2) {
        shut = looks.called_shut(cause, port, bin_deg(bin));
      } else {
        for (size_t k = 0; k < ports; ++k)
          if (k != port) shut += looks.called_shut(cause, k, bin_deg(bin)) / static_cast<double>(ports - 1);
      }
      chances[bin] = s.look()->saw == Saw::shut ? shut : 1 - shut;
    }
    return chances;
  }

  double likelihood(const Cause& cause) const {
    Chances all = before_;
    for (const Said& s : said_) multiply(all, answer(s, cause));
    return sum_of(all);
  }
  /// With the answer `wrong` replaced: by that of a look into another port, or by one that tells nothing.
  double with_wrong_port(size_t wrong) const {
    return without(wrong, before_, answer(said_[wrong], none(), true));
  }
  double with_nothing_from(size_t wrong) const { return without(wrong, before_, Chances(kBeliefBins, 1.0)); }
  /// Had the turn that led here been a full turn off, or any other.
  double with_another_turn() const {
    Chances from(kBeliefBins);
    for (size_t bin = 0; bin < kBeliefBins; ++bin)
      from[bin] = before_[(bin + kBeliefBins / 2) % kBeliefBins] / 2 + 0.5 / kBeliefBins;
    for (const Chances& plain : plain_) multiply(from, plain);
    return sum_of(from);
  }
  double moved_after(size_t count) const {
    Chances first = before_, then(kBeliefBins, 1.0 / kBeliefBins);
    for (size_t i = 0; i < said_.size(); ++i) multiply(i < count ? first : then, plain_[i]);
    return sum_of(first) * sum_of(then);
  }
  /// The look that the others expect least: the port to look into again; 0 when there is no look.
  int least_expected() const {
    int cylinder = 0;
    double least = 2;
    for (size_t i = 0; i < said_.size(); ++i) {
      if (!said_[i].look()) continue;
      const Chances flat(kBeliefBins, 1.0);
      const double chance = without(i, flat, plain_[i]) / without(i, flat, flat);
      if (chance >= least) continue;
      least = chance;
      cylinder = said_[i].look()->cylinder;
    }
    return cylinder;
  }

 private:
  static double bin_deg(size_t bin) { return static_cast<double>(bin) * kBeliefStep_deg; }
  static void multiply(Chances& into, const Chances& by) {
    for (size_t i = 0; i < kBeliefBins; ++i) into[i] *= by[i];
  }
  double without(size_t wrong, Chances all, const Chances& in_its_place) const {
    for (size_t i = 0; i < said_.size(); ++i) multiply(all, i == wrong ? in_its_place : plain_[i]);
    return sum_of(all);
  }
  const WitnessModel& model_;
  const std::vector<Said>& said_;
  Chances before_;
  std::vector<Chances> plain_;  ///< of each, with nothing at fault
};

/// Adds a variant's chance to its suspicion and remembers the likeliest variant.
class Tally {
 public:
  explicit Tally(Suspicion what) { suspect_.what = what; }
  void add(double chance, int cylinder, size_t bank, size_t after) {
    told_ = true;
    suspect_.chance += chance;
    if (chance <= best_) return;
    best_ = chance;
    suspect_.cylinder = cylinder;
    suspect_.bank = bank;
    suspect_.after = after;
  }
  bool told() const { return told_; }
  const Suspect& suspect() const { return suspect_; }

 private:
  Suspect suspect_;
  double best_ = 0;
  bool told_ = false;
};

}  // namespace

std::vector<Suspect> suspects(const WitnessModel& model, std::span<const Told> told,
                              std::span<const double> before, bool by_turn) {
  const std::vector<Said> said = said_of(told);
  const Explainer explain(model, said, before);
  const LookModel& looks = *model.looks;
  Tally missed(Suspicion::missed_look), port(Suspicion::wrong_port), moved(Suspicion::moved),
      mark(Suspicion::mark), lobe(Suspicion::lobe), turn(Suspicion::turn), phaser(Suspicion::phaser),
      crumb(Suspicion::crumb), chain(Suspicion::chain), data(Suspicion::engine_data);
  for (const Cause& cause : looks.causes()) {
    if (cause.kind == CauseKind::moved) continue;
    const double chance = cause.prior * explain.likelihood(cause);
    if (cause.kind == CauseKind::none) missed.add(chance, explain.least_expected(), 0, 0);
    if (cause.kind == CauseKind::phaser) phaser.add(chance, 0, cause.bank, 0);
    if (cause.kind == CauseKind::chain) chain.add(chance, 0, cause.bank, 0);
    // It shows as a port seen open; one that nobody looked into contradicts nothing.
    const bool seen_open = std::any_of(said.begin(), said.end(), [&](const Said& s) {
      return s.look() && s.look()->cylinder == cause.cylinder && s.look()->saw == Saw::open;
    });
    if (cause.kind == CauseKind::crumb && seen_open) crumb.add(chance, cause.cylinder, 0, 0);
  }
  size_t count = 0;
  double any_answer = 1;  // chance of what was said, were it said at random
  for (size_t i = 0; i < said.size(); ++i) {
    if (const LookedInto* look = said[i].look()) {
      ++count;
      any_answer /= 2;
      port.add(looks.eye().wrong_port * explain.with_wrong_port(i), look->cylinder, 0, 0);
    }
    // Wrong, a reading is even over the turn; right, a trapezoid as wide as three times its plus-minus.
    if (const MarkRead* read = said[i].mark()) {
      const double any_mark = std::min(1.0, 3 * read->plus_minus_deg / kTurn_deg);
      any_answer *= any_mark;
      mark.add(kMisreadMark * any_mark * explain.with_nothing_from(i), 0, 0, 0);
    }
    if (const LobeSeen* seen = said[i].lobe())
      lobe.add(kMisreadLobe * explain.with_nothing_from(i), seen->cylinder, 0, 0);
  }
  if (by_turn) turn.add(kOtherTurn * explain.with_another_turn(), 0, 0, 0);
  // Before the first look the crank may have been moved since the angle was last known; then at any time.
  for (size_t i = 0; i < said.size(); ++i) {
    const CausePriors& priors = looks.priors();
    const double prior = i == 0 ? priors.moved : said[i].after_pause ? priors.moved_pause : priors.moved_each;
    moved.add(prior * explain.moved_after(i), 0, 0, i);
  }
  data.add(kDataWrong * any_answer, 0, 0, 0);

  std::vector<Suspect> all;
  double sum = 0;
  for (const Tally* tally : {&missed, &port, &moved, &mark, &lobe, &turn, &phaser, &crumb, &chain, &data}) {
    if (!tally->told()) continue;
    const bool of_a_look = tally == &missed || tally == &port;
    if (of_a_look && count == 0) continue;
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
