#include "sim/job/doubt.hpp"

#include <algorithm>
#include <cmath>

namespace shutlane {
namespace {

/// "Can't see" and "just touching" say nothing of shut or open.
bool tells(const LookedInto& look) { return look.saw == Saw::shut || look.saw == Saw::open; }

/// Half a turn too many or too few, or another turn than the advised one; assumed, no source.
constexpr double kMiscounted = 0.002;

constexpr double kLobeRead_deg = 45;  ///< cam degrees: away, at the valve and the two sides are told apart

bool is_look_into(const ToldHere& told, int cylinder) {
  const auto* look = std::get_if<LookedInto>(&told);
  return look != nullptr && look->cylinder == cylinder;
}

double log_of(double chance) { return std::log(std::max(chance, 1e-300)); }

}  // namespace

ArcSet lobe_arcs(const Engine& engine, const LobeSeen& lobe) {
  if (lobe.points == Lobe::unclear || lobe.points == Lobe::hidden) return ArcSet::all();
  return lobe_seen_at(engine, lobe.cylinder, ValveKind::intake, lobe.points == Lobe::away ? 180 : 0,
                      kLobeRead_deg);
}

Doubt::Doubt(const JobModel& model) { arrive(Belief::uniform(model.looks)); }

void Doubt::arrive(Belief belief) {
  arrived_ = now_ = std::make_shared<const Belief>(belief.settled());
  told_.clear();
}

Belief Doubt::weighed(const JobModel& model, const Belief& belief, size_t index) const {
  const ToldHere& told = told_[index];
  if (std::holds_alternative<Pause>(told)) return belief.paused(belief.model().priors().moved_pause);
  if (const auto* mark = std::get_if<MarkRead>(&told)) {
    for (size_t i = 0; i < index; ++i)
      if (const auto* before = std::get_if<MarkRead>(&told_[i]); before && *before == *mark) return belief;
    return belief.marked(mark->at_deg, mark->plus_minus_deg).belief;
  }
  if (const auto* lobe = std::get_if<LobeSeen>(&told)) {
    for (size_t i = 0; i < index; ++i)
      if (const auto* before = std::get_if<LobeSeen>(&told_[i]); before && *before == *lobe) return belief;
    if (lobe->points == Lobe::unclear || lobe->points == Lobe::hidden) return belief;
    return belief.lobe_seen(model.engine, lobe->cylinder, lobe->points == Lobe::away ? 180 : 0, kLobeRead_deg)
        .belief;
  }
  const LookedInto& look = std::get<LookedInto>(told);
  if (!tells(look)) return belief;
  const bool shut = look.saw == Saw::shut;
  for (size_t i = index; i-- > 0;)
    if (const auto* before = std::get_if<LookedInto>(&told_[i]);
        before && before->cylinder == look.cylinder && tells(*before))
      return (before->saw == look.saw ? belief.looked_again(look.cylinder, shut)
                                      : belief.looked(look.cylinder, shut))
          .belief;
  return belief.looked(look.cylinder, shut).belief;
}

void Doubt::tell(const JobModel& model, const ToldHere& told) {
  if (!now_) return;
  // Another answer right after one into the same port corrects a slip of the finger.
  const auto* look = std::get_if<LookedInto>(&told);
  const auto* last = told_.empty() ? nullptr : std::get_if<LookedInto>(&told_.back());
  if (look && last && look->cylinder == last->cylinder && look->saw != last->saw) {
    told_.back() = told;
    return weigh_again(model);
  }
  told_.push_back(told);
  now_ = std::make_shared<const Belief>(weighed(model, *now_, told_.size() - 1));
}

void Doubt::weigh_again(const JobModel& model) {
  now_ = arrived_;
  for (size_t i = 0; now_ && i < told_.size(); ++i)
    now_ = std::make_shared<const Belief>(weighed(model, *now_, i));
}

void Doubt::take_back_look(const JobModel& model, int cylinder) {
  std::erase_if(told_, [&](const ToldHere& told) { return is_look_into(told, cylinder); });
  weigh_again(model);
}

void Doubt::take_back_looks(const JobModel& model) {
  std::erase_if(told_, [](const ToldHere& told) { return std::holds_alternative<LookedInto>(told); });
  weigh_again(model);
}

void Doubt::turned(double min_deg, double max_deg) {
  if (now_)
    arrive(now_->turned({(min_deg + max_deg) / 2, (max_deg - min_deg) / 2, 0, 0, kMiscounted, kMiscounted}));
}

void Doubt::lost() {
  if (now_) arrive(now_->somebody_moved(1));
}

double Doubt::chance_open(int cylinder) const { return now_ ? now_->chance_open(cylinder) : 1; }

std::optional<bool> Doubt::answer_here(int cylinder) const {
  for (size_t i = told_.size(); i-- > 0;)
    if (is_look_into(told_[i], cylinder) && tells(std::get<LookedInto>(told_[i])))
      return std::get<LookedInto>(told_[i]).saw == Saw::shut;
  return {};
}

bool Doubt::looked_since_pause(int cylinder) const {
  for (size_t i = told_.size(); i-- > 0 && !std::holds_alternative<Pause>(told_[i]);)
    if (is_look_into(told_[i], cylinder)) return true;
  return false;
}

bool Doubt::lobe_told(int cylinder) const {
  return std::any_of(told_.begin(), told_.end(), [&](const ToldHere& told) {
    const auto* lobe = std::get_if<LobeSeen>(&told);
    return lobe != nullptr && lobe->cylinder == cylinder;
  });
}

bool Doubt::lobe_unclear() const {
  return std::any_of(told_.begin(), told_.end(), [](const ToldHere& told) {
    const auto* lobe = std::get_if<LobeSeen>(&told);
    return lobe != nullptr && lobe->points == Lobe::unclear;
  });
}

std::optional<int> one_more_look(const Doubt& doubt, const std::vector<int>& can_look, int doubtful) {
  if (doubt.belief() == nullptr) return {};
  constexpr double kLeast = 0.05;  // of the logarithm: less is not worth the walk round the engine
  // Its expected value is the same whatever one looks at; its expected logarithm is not.
  double least = log_of(doubt.chance_open(doubtful)) - kLeast;
  std::optional<int> found;
  for (const int port : can_look) {
    if (doubt.looked_since_pause(port)) continue;
    const Belief::AfterLook after = doubt.belief()->open_after_look(doubtful, port, doubt.answer_here(port));
    const double expected =
        after.called_shut * log_of(after.open_if_shut) + (1 - after.called_shut) * log_of(after.open_if_open);
    if (expected >= least) continue;
    least = expected;
    found = port;
  }
  return found;
}

}  // namespace shutlane
