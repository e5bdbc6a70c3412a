#include "sim/cycle/arc_set.hpp"

#include <algorithm>

namespace shutlane {

ArcSet::ArcSet(std::vector<Arc> arcs) {
  // Negative lengths mean nothing; points and slivers may still join two arcs, so they go last.
  std::erase_if(arcs, [](const Arc& a) { return !(a.length_deg >= 0); });
  for (Arc& a : arcs) {
    if (a.length_deg >= kCycle_deg - kSame_deg) {
      arcs_ = {{0, kCycle_deg}};
      return;
    }
    a.from_deg = wrap_deg(a.from_deg);
  }
  std::sort(arcs.begin(), arcs.end(), [](const Arc& a, const Arc& b) { return a.from_deg < b.from_deg; });

  std::vector<Arc> merged;
  merged.reserve(arcs.size());
  auto join = [](Arc& into, double to_deg) {
    into.length_deg = std::max(into.length_deg, to_deg - into.from_deg);
  };
  for (const Arc& a : arcs) {
    if (!merged.empty() && a.from_deg <= merged.back().to_deg() + kSame_deg)
      join(merged.back(), a.to_deg());
    else
      merged.push_back(a);
  }
  // The last arc may run over 720 into the first ones.
  size_t first = 0;
  while (merged.size() - first > 1 &&
         merged[first].from_deg + kCycle_deg <= merged.back().to_deg() + kSame_deg) {
    join(merged.back(), merged[first].to_deg() + kCycle_deg);
    ++first;
  }
  merged.erase(merged.begin(), merged.begin() + static_cast<std::ptrdiff_t>(first));
  if (merged.size() == 1 && merged[0].length_deg >= kCycle_deg - kSame_deg) merged = {{0, kCycle_deg}};
  std::erase_if(merged, [](const Arc& a) { return a.length_deg < kSame_deg; });
  arcs_ = std::move(merged);
}

double ArcSet::total_deg() const {
  double sum = 0;
  for (const Arc& a : arcs_) sum += a.length_deg;
  return sum;
}

Arc ArcSet::arc_at(double a_deg) const {
  for (const Arc& a : arcs_)
    if (a.length_deg == kCycle_deg || forward_or_same_deg(a.from_deg, a_deg) <= a.length_deg + kSame_deg)
      return a;
  return {};
}

bool ArcSet::contains(double a_deg) const { return arc_at(a_deg).length_deg > 0; }

bool ArcSet::covers(const Arc& arc) const {
  for (const Arc& a : arcs_)
    if (a.length_deg == kCycle_deg ||
        forward_or_same_deg(a.from_deg, arc.from_deg) + arc.length_deg <= a.length_deg + kSame_deg)
      return true;
  return false;
}

bool ArcSet::covers(const ArcSet& set) const {
  return std::all_of(set.arcs_.begin(), set.arcs_.end(), [&](const Arc& a) { return covers(a); });
}

ArcSet ArcSet::united(const ArcSet& other) const {
  std::vector<Arc> both = arcs_;
  both.insert(both.end(), other.arcs_.begin(), other.arcs_.end());
  return ArcSet(std::move(both));
}

ArcSet ArcSet::intersected(const ArcSet& other) const {
  if (full()) return other;
  if (other.full()) return *this;
  std::vector<Arc> both;
  for (const Arc& a : arcs_)
    for (const Arc& b : other.arcs_)
      for (const double turn_deg : {-kCycle_deg, 0.0, kCycle_deg}) {
        const double from_deg = std::max(a.from_deg, b.from_deg + turn_deg);
        const double to_deg = std::min(a.to_deg(), b.to_deg() + turn_deg);
        if (to_deg - from_deg >= kSame_deg) both.push_back({from_deg, to_deg - from_deg});
      }
  return ArcSet(std::move(both));
}

ArcSet ArcSet::complement() const {
  if (arcs_.empty()) return all();
  if (full()) return {};
  std::vector<Arc> gaps;
  gaps.reserve(arcs_.size());
  for (size_t i = 0; i < arcs_.size(); ++i) {
    const double next_deg = i + 1 < arcs_.size() ? arcs_[i + 1].from_deg : arcs_[0].from_deg + kCycle_deg;
    gaps.push_back({arcs_[i].to_deg(), next_deg - arcs_[i].to_deg()});
  }
  return ArcSet(std::move(gaps));
}

Arc ArcSet::hull() const {
  if (empty()) return {};
  if (full()) return arcs_.front();
  Arc widest;
  const ArcSet gaps = complement();
  for (const Arc& gap : gaps.arcs())
    if (gap.length_deg > widest.length_deg) widest = gap;
  return {wrap_deg(widest.to_deg()), kCycle_deg - widest.length_deg};
}

ArcSet ArcSet::shrunk(double by_deg) const {
  if (full()) return *this;
  std::vector<Arc> inner;
  inner.reserve(arcs_.size());
  for (const Arc& a : arcs_)
    if (a.length_deg - 2 * by_deg >= kSame_deg)
      inner.push_back({a.from_deg + by_deg, a.length_deg - 2 * by_deg});
  return ArcSet(std::move(inner));
}

ArcSet ArcSet::grown(double by_deg) const {
  std::vector<Arc> outer;
  outer.reserve(arcs_.size());
  for (const Arc& a : arcs_) outer.push_back({a.from_deg - by_deg, a.length_deg + 2 * by_deg});
  return ArcSet(std::move(outer));
}

ArcSet ArcSet::shifted(double by_deg) const {
  if (full()) return *this;
  std::vector<Arc> turned = arcs_;
  for (Arc& a : turned) a.from_deg += by_deg;
  return ArcSet(std::move(turned));
}

}  // namespace shutlane
