// The exact sets of a position: what each thing told leaves of the cycle.
#include "sim/witness/here.hpp"

namespace shutlane {
namespace {

/// How far from where the eye stops telling shut from open a valve may be called "a hair open", crank
/// degrees. Common practice, no source; wide, for it only says where to look next.
constexpr double kTouching_deg = 20;

/// Of each arc what lies near where the valve may be called so. An arc is dropped as a whole only for one in
/// which it really may: between two places of the crank's mark a matter of opinion must not choose.
ArcSet near_touching(const PortSets& port, const ArcSet& where) {
  const ArcSet near = port.touching.grown(kTouching_deg);
  if (!where.intersected(port.touching).empty()) return where.intersected(near);
  ArcSet left;
  for (const Arc& arc : where.arcs()) {
    const ArcSet fewer = ArcSet({arc}).intersected(near);
    left = left.united(fewer.empty() ? ArcSet({arc}) : fewer);
  }
  return left;
}

}  // namespace

size_t WitnessModel::index_of(int cylinder) const {
  size_t i = 0;
  while (i < ports.size() && ports[i].cylinder != cylinder) ++i;
  return i;
}

ArcSet Here::narrowed(const WitnessModel& model, ArcSet where, size_t left_out) const {
  for (const Told& told : told_) {
    if (const auto* mark = std::get_if<MarkRead>(&told)) where = where.intersected(mark_arcs(*mark));
    if (const auto* lobe = std::get_if<LobeSeen>(&told))
      where = where.intersected(lobe_arcs(model.engine, *lobe));
  }
  if (left_out > model.ports.size()) return where;
  for (size_t i = 0; i < model.ports.size(); ++i) {
    if (i == left_out) continue;
    const std::optional<Saw> saw = seen(model.ports[i].cylinder);
    if (saw == Saw::shut) where = where.intersected(model.ports[i].if_shut);
    if (saw == Saw::open) where = where.intersected(model.ports[i].if_open);
  }
  // "A hair open" is a matter of opinion: it says where the crank stands, but never that others misled.
  for (size_t i = 0; i < model.ports.size(); ++i)
    if (i != left_out && seen(model.ports[i].cylinder) == Saw::touching)
      where = near_touching(model.ports[i], where);
  return where;
}

ArcSet Here::where(const WitnessModel& model) const { return narrowed(model, arrived_, model.ports.size()); }

ArcSet Here::where_without(const WitnessModel& model, size_t port) const {
  const ArcSet others =
      narrowed(model, port < arrived_without_.size() ? arrived_without_[port] : ArcSet::all(), port);
  // "A hair open" may choose another place once the port's own looks are left out: then it is either.
  const ArcSet all = where(model);
  return others.covers(all) ? others : others.united(all);
}

ArcSet Here::where_before_looks(const WitnessModel& model) const {
  return narrowed(model, arrived_, model.ports.size() + 1);
}

}  // namespace shutlane
