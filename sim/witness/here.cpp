#include "sim/witness/here.hpp"

#include <algorithm>

namespace shutlane {
namespace {

/// Another turn than the told one, by a full turn; assumed, no source.
constexpr double kMiscounted = 0.002;

bool is_look_into(const Told& told, int cylinder) {
  const auto* look = std::get_if<LookedInto>(&told);
  return look != nullptr && look->cylinder == cylinder;
}

/// A glance at the line that sees what it expects: "in line" said of a line that is not. Assumed, no source.
constexpr double kChalkMisses = 0.02;

}  // namespace

Here::Here(const WitnessModel& model, bool with_belief)
    : arrived_without_(model.ports.size(), ArcSet::all()) {
  if (with_belief) arrive(Belief::uniform(model.looks));
}

void Here::arrive(Belief belief) { arrival_ = now_ = std::make_shared<const Belief>(belief.settled()); }

Belief Here::weighed(const WitnessModel& model, const Belief& belief, size_t index) const {
  const Told& told = told_[index];
  const auto told_before = [&](const auto& same) {
    return std::any_of(told_.begin(), told_.begin() + static_cast<std::ptrdiff_t>(index),
                       [&](const Told& t) { return t == Told(same); });
  };
  if (std::holds_alternative<ChalkInLine>(told)) return belief;  // weighs in the pauses before it
  if (std::holds_alternative<Pause>(told)) {
    double chance = belief.model().priors().moved_pause;
    const bool drawn = told_before(ChalkInLine{});
    const bool held = std::any_of(told_.begin() + static_cast<std::ptrdiff_t>(index), told_.end(),
                                  [](const Told& t) { return std::holds_alternative<ChalkInLine>(t); });
    if (drawn && held) chance *= kChalkMisses;
    return belief.paused(chance);
  }
  if (const auto* mark = std::get_if<MarkRead>(&told))
    return told_before(*mark) ? belief : belief.marked(mark->at_deg, mark->plus_minus_deg).belief;
  if (const auto* lobe = std::get_if<LobeSeen>(&told)) {
    if (told_before(*lobe) || lobe->points == Lobe::unclear || lobe->points == Lobe::hidden) return belief;
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

void Here::tell(const WitnessModel& model, const Told& told) {
  // Another answer right after one into the same port corrects a slip of the finger.
  const auto* look = std::get_if<LookedInto>(&told);
  const auto* last = told_.empty() ? nullptr : std::get_if<LookedInto>(&told_.back());
  if (look && last && look->cylinder == last->cylinder && look->saw != last->saw) {
    told_.back() = told;
    return weigh_again(model);
  }
  told_.push_back(told);
  if (std::holds_alternative<ChalkInLine>(told)) return weigh_again(model);
  if (now_) now_ = std::make_shared<const Belief>(weighed(model, *now_, told_.size() - 1));
}

void Here::weigh_again(const WitnessModel& model) {
  now_ = arrival_;
  for (size_t i = 0; now_ && i < told_.size(); ++i)
    now_ = std::make_shared<const Belief>(weighed(model, *now_, i));
}

void Here::forget_look(const WitnessModel& model, int cylinder) {
  std::erase_if(told_, [&](const Told& told) { return is_look_into(told, cylinder); });
  weigh_again(model);
}

void Here::forget_looks(const WitnessModel& model) {
  std::erase_if(told_, [](const Told& told) { return std::holds_alternative<LookedInto>(told); });
  weigh_again(model);
}

void Here::forget_marks(const WitnessModel& model) {
  std::erase_if(told_, [](const Told& told) { return std::holds_alternative<MarkRead>(told); });
  weigh_again(model);
}

void Here::forget_lobes(const WitnessModel& model) {
  std::erase_if(told_, [](const Told& told) { return std::holds_alternative<LobeSeen>(told); });
  weigh_again(model);
}

void Here::forget_arrival(const WitnessModel& model) {
  arrived_ = ArcSet::all();
  arrived_without_.assign(model.ports.size(), ArcSet::all());
  if (!arrival_) return;
  arrival_ = std::make_shared<const Belief>(Belief::uniform(model.looks).settled());
  weigh_again(model);
}

void Here::turned(const WitnessModel& model, double min_deg, double max_deg) {
  const ArcSet now = where(model);
  const auto carried = [&](const ArcSet& set) {
    if (now.empty() || set.empty()) return ArcSet::all();  // what contradicts itself tells nothing
    return set.shifted((min_deg + max_deg) / 2).grown((max_deg - min_deg) / 2);
  };
  std::vector<ArcSet> without;
  for (size_t i = 0; i < model.ports.size(); ++i) without.push_back(carried(where_without(model, i)));
  arrived_ = carried(now);
  arrived_without_ = std::move(without);
  told_.clear();
  if (now_)
    arrive(now_->turned({(min_deg + max_deg) / 2, (max_deg - min_deg) / 2, 0, 0, kMiscounted, kMiscounted}));
}

void Here::lost(const WitnessModel& model) {
  arrived_ = ArcSet::all();
  arrived_without_.assign(model.ports.size(), ArcSet::all());
  told_.clear();
  if (now_) arrive(now_->somebody_moved(1));
}

std::optional<Saw> Here::seen(int cylinder) const {
  for (size_t i = told_.size(); i-- > 0;)
    if (is_look_into(told_[i], cylinder)) return std::get<LookedInto>(told_[i]).saw;
  return {};
}

std::optional<bool> Here::answer(int cylinder) const {
  for (size_t i = told_.size(); i-- > 0;)
    if (is_look_into(told_[i], cylinder) && tells(std::get<LookedInto>(told_[i])))
      return std::get<LookedInto>(told_[i]).saw == Saw::shut;
  return {};
}

bool Here::looked_since_pause(int cylinder) const {
  for (size_t i = told_.size(); i-- > 0 && !std::holds_alternative<Pause>(told_[i]);)
    if (is_look_into(told_[i], cylinder)) return true;
  return false;
}

bool Here::lobe_told(int cylinder) const {
  return std::any_of(told_.begin(), told_.end(), [&](const Told& told) {
    const auto* lobe = std::get_if<LobeSeen>(&told);
    return lobe != nullptr && lobe->cylinder == cylinder;
  });
}

bool Here::lobe_unclear() const {
  return std::any_of(told_.begin(), told_.end(), [](const Told& told) {
    const auto* lobe = std::get_if<LobeSeen>(&told);
    return lobe != nullptr && lobe->points == Lobe::unclear;
  });
}

}  // namespace shutlane
