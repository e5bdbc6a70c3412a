#include "sim/witness/belief.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace shutlane {

namespace {

constexpr double kMisread = 0.01;  ///< chance that a crank mark is read wrong by any angle at all
/// Another cylinder's lobe taken for this one, as often as another port; and a lobe that points away taken
/// for one at the valve, or the other way round. Assumed, no source.
constexpr double kWrongLobe = 0.007, kWrongWay = 0.0001;
constexpr size_t kMoved = 1;  ///< index of the cause `moved`

double bin_deg(size_t bin) { return static_cast<double>(bin) * kBeliefStep_deg; }

/// Chances over the bins that the arcs cover; a bin stands for half a step to both sides.
std::vector<double> shares(const ArcSet& arcs) {
  std::vector<double> share(kBeliefBins, 0.0);
  for (size_t bin = 0; bin < kBeliefBins; ++bin) {
    const ArcSet cell({{bin_deg(bin) - kBeliefStep_deg / 2, kBeliefStep_deg}});
    share[bin] = cell.intersected(arcs).total_deg() / kBeliefStep_deg;
  }
  return share;
}

void scale_to_one(std::vector<double>& values) {
  const double sum = std::accumulate(values.begin(), values.end(), 0.0);
  if (sum > 0)
    for (double& v : values) v /= sum;
  else
    std::fill(values.begin(), values.end(), 1.0 / static_cast<double>(values.size()));
}

}  // namespace

Belief::Belief(std::shared_ptr<const LookModel> model, std::vector<double> angles)
    : model_(std::move(model)) {
  scale_to_one(angles);
  for (const Cause& cause : model_->causes())
    for (const double share : angles)
      mass_.push_back(cause.prior *
                      (cause.kind == CauseKind::moved ? 1.0 / static_cast<double>(kBeliefBins) : share));
}

Belief Belief::uniform(std::shared_ptr<const LookModel> model) {
  return {std::move(model), std::vector<double>(kBeliefBins, 1.0)};
}

Belief Belief::over(std::shared_ptr<const LookModel> model, const ArcSet& arcs) {
  return {std::move(model), shares(arcs)};
}

Belief Belief::resting(std::shared_ptr<const LookModel> model, std::span<const double> chances) {
  std::vector<double> kept(kBeliefBins, 0.0);
  for (size_t bin = 0; bin < std::min(kBeliefBins, chances.size()); ++bin)
    kept[bin] = std::max(0.0, chances[bin]);
  return {std::move(model), std::move(kept)};
}

Belief Belief::somebody_moved(double chance) const {
  Belief next = *this;
  const double kept = 1 - std::clamp(chance, 0.0, 1.0);
  for (size_t cause = 0; cause < model_->causes().size(); ++cause) {
    const auto masses = next.row(cause);
    const double sum = std::accumulate(masses.begin(), masses.end(), 0.0);
    for (double& m : masses) m = kept * m + (1 - kept) * sum / static_cast<double>(kBeliefBins);
  }
  return next;
}

Belief Belief::paused(double chance) const {
  Belief next = *this;
  const double leak = std::clamp(chance, 0.0, 1.0);
  double all = 0;
  for (double& m : next.mass_) {
    all += m;
    m *= 1 - leak;
  }
  for (double& m : next.row(kMoved)) m += leak * all / static_cast<double>(kBeliefBins);
  return next;
}

Belief Belief::settled() const {
  Belief next = *this;
  const auto none = next.row(0), moved = next.row(kMoved);
  for (size_t bin = 0; bin < kBeliefBins; ++bin) {
    none[bin] += moved[bin];
    moved[bin] = 0;
  }
  return next;
}

template <typename ChanceOfAnswer>
Belief::Seen Belief::weighed(ChanceOfAnswer chance_of_answer) const {
  Belief next = paused(model_->priors().moved_each);
  double sum = 0;
  for (size_t cause = 0; cause < model_->causes().size(); ++cause)
    for (size_t bin = 0; bin < kBeliefBins; ++bin)
      sum += next.mass_[cause * kBeliefBins + bin] *= chance_of_answer(cause, bin);
  if (!(sum > 1e-250)) return {somebody_moved(1.0), 0.0};  // impossible under every cause: start over
  for (double& m : next.mass_) m /= sum;
  return {std::move(next), sum};
}

Belief::Seen Belief::looked(int cylinder, bool shut) const {
  const size_t port = model_->index_of(cylinder);
  if (port == model_->cylinders().size()) return {*this, 1.0};
  return weighed([&](size_t cause, size_t bin) {
    const double chance = model_->answered_shut(cause, port)[bin];
    return shut ? chance : 1 - chance;
  });
}

Belief::Seen Belief::looked_again(int cylinder, bool shut) const {
  const size_t port = model_->index_of(cylinder);
  if (port == model_->cylinders().size()) return {*this, 1.0};
  return weighed([&](size_t cause, size_t bin) {
    if (cause != kMoved) return 1.0;
    const double chance = model_->answered_shut(cause, port)[bin];
    return shut ? chance : 1 - chance;
  });
}

Belief::Seen Belief::marked(double at_deg, double plus_minus_deg) const {
  const double sure_deg = std::max(plus_minus_deg, kBeliefStep_deg);
  // Of the reading, a density: right, a trapezoid as wide as three times sure_deg; wrong, even over the turn.
  const double wrong = kMisread * std::min(1.0, 3 * sure_deg / kTurn_deg);
  return weighed([&](size_t, size_t bin) {
    const double off_deg = std::fabs(std::remainder(bin_deg(bin) - at_deg, kTurn_deg));
    return (1 - kMisread) * std::clamp(2 - off_deg / sure_deg, 0.0, 1.0) + wrong;
  });
}

Belief::Seen Belief::placed(const ArcSet& arcs, double chance_wrong) const {
  const std::vector<double> share = shares(arcs);
  return weighed([&](size_t, size_t bin) { return chance_wrong + (1 - 2 * chance_wrong) * share[bin]; });
}

Belief::Seen Belief::lobe_seen(const Engine& engine, int cylinder, double past_valve_deg,
                               double plus_minus_deg) const {
  const std::vector<double> sure =
      shares(lobe_seen_at(engine, cylinder, ValveKind::intake, past_valve_deg, plus_minus_deg));
  const std::vector<double> perhaps =
      shares(lobe_seen_at(engine, cylinder, ValveKind::intake, past_valve_deg, 2 * plus_minus_deg));
  const double wrong = model_->cylinders().size() > 1 ? kWrongLobe : kWrongWay;
  return weighed([&](size_t, size_t bin) { return std::max(wrong, 0.9 * sure[bin] + 0.1 * perhaps[bin]); });
}

Belief Belief::bumped(const RestChances& rest) const {
  Belief next = *this;
  std::fill(next.mass_.begin(), next.mass_.end(), 0.0);
  const size_t causes = model_->causes().size();
  for (size_t start = 0; start < kBeliefBins; ++start) {
    const std::span<const double> chances = rest(bin_deg(start));
    const size_t known = std::min(chances.size(), kBeliefBins);
    const double sum =
        std::accumulate(chances.begin(), chances.begin() + static_cast<std::ptrdiff_t>(known), 0.0);
    for (size_t cause = 0; cause < causes; ++cause) {
      const double from = row(cause)[start];
      if (from == 0) continue;
      const auto to = next.row(cause);
      if (!(sum > 0))
        for (double& m : to) m += from / static_cast<double>(kBeliefBins);
      else
        for (size_t bin = 0; bin < known; ++bin) to[bin] += from * chances[bin] / sum;
    }
  }
  return next;
}

std::vector<double> Belief::angles() const {
  std::vector<double> sum(kBeliefBins, 0.0);
  for (size_t i = 0; i < mass_.size(); ++i) sum[i % kBeliefBins] += mass_[i];
  return sum;
}

std::vector<double> Belief::cause_chances() const {
  std::vector<double> sum(model_->causes().size(), 0.0);
  for (size_t i = 0; i < mass_.size(); ++i) sum[i / kBeliefBins] += mass_[i];
  return sum;
}

double Belief::chance_in(const ArcSet& arcs) const {
  const std::vector<double> share = shares(arcs), angle = angles();
  return std::inner_product(share.begin(), share.end(), angle.begin(), 0.0);
}

double Belief::chance_shut(int cylinder) const {
  const size_t port = model_->index_of(cylinder);
  double chance = 0;
  for (size_t cause = 0; port < model_->cylinders().size() && cause < model_->causes().size(); ++cause) {
    const auto masses = row(cause), shut = model_->really_shut(cause, port);
    chance += std::inner_product(masses.begin(), masses.end(), shut.begin(), 0.0);
  }
  return chance;
}

double Belief::chance_open(int cylinder) const {
  const size_t port = model_->index_of(cylinder);
  if (port == model_->cylinders().size()) return 1;
  double chance = 0;  // summed on its own: one minus the other would lose the small chances that matter
  for (size_t cause = 0; cause < model_->causes().size(); ++cause) {
    const auto masses = row(cause), shut = model_->really_shut(cause, port);
    for (size_t bin = 0; bin < kBeliefBins; ++bin) chance += masses[bin] * (1 - shut[bin]);
  }
  return chance;
}

double Belief::chance_harmed(int cylinder) const {
  const size_t port = model_->index_of(cylinder);
  if (port == model_->cylinders().size()) return 1;
  double chance = 0;
  for (size_t cause = 0; cause < model_->causes().size(); ++cause) {
    const auto masses = row(cause), harmless = model_->really_harmless(cause, port);
    for (size_t bin = 0; bin < kBeliefBins; ++bin) chance += masses[bin] * (1 - harmless[bin]);
  }
  return chance;
}

double Belief::chance_seen_shut(int cylinder) const {
  const size_t port = model_->index_of(cylinder);
  double chance = 0;
  for (size_t cause = 0; port < model_->cylinders().size() && cause < model_->causes().size(); ++cause) {
    const auto masses = row(cause), shut = model_->answered_shut(cause, port);
    chance += std::inner_product(masses.begin(), masses.end(), shut.begin(), 0.0);
  }
  return chance;
}

Belief::AfterLook Belief::open_after_look(int doubtful, int look, std::optional<bool> again) const {
  const size_t port = model_->index_of(doubtful), into = model_->index_of(look);
  if (std::max(port, into) >= model_->cylinders().size()) return {};
  double called = 0, open = 0, both = 0, all = 0;
  for (size_t cause = 0; cause < model_->causes().size(); ++cause) {
    const auto masses = row(cause), shut = model_->really_shut(cause, port),
               answer = model_->answered_shut(cause, into);
    const bool repeats = again && cause != kMoved;
    for (size_t bin = 0; bin < kBeliefBins; ++bin) {
      const double m = masses[bin], m_open = m * (1 - shut[bin]);
      const double shut_again = repeats ? (*again ? 1.0 : 0.0) : answer[bin];
      all += m;
      called += m * shut_again;
      open += m_open;
      both += m_open * shut_again;
    }
  }
  AfterLook after;
  after.called_shut = called / all;
  after.open_if_shut = called > 0 ? both / called : 0;
  after.open_if_open = all - called > 0 ? (open - both) / (all - called) : 0;
  return after;
}

double Belief::bits() const {
  double sum = 0;
  for (const double p : angles())
    if (p > 0) sum -= p * std::log2(p);
  return sum;
}

ArcSet Belief::likely(double share) const {
  const std::vector<double> angle = angles();
  std::vector<size_t> order(kBeliefBins);
  std::iota(order.begin(), order.end(), size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](size_t a, size_t b) { return angle[a] > angle[b]; });
  std::vector<Arc> cells;
  double held = 0;
  for (size_t i = 0; i < kBeliefBins && held < share; ++i) {
    held += angle[order[i]];
    cells.push_back({wrap_deg(bin_deg(order[i]) - kBeliefStep_deg / 2), kBeliefStep_deg});
  }
  return ArcSet(std::move(cells));
}

}  // namespace shutlane
