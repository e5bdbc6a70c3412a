#include "sim/job/workable.hpp"

namespace shutlane {

SureBins workable_bins(const JobModel& model, const RestTable& table) {
  const SureBins sure = sure_bins(model.engine, model.windows, table);
  SureBins workable = sure;
  for (int place = 0; place < sure.ports; ++place) {
    const size_t own = model.engine.firing[size_t(place)];
    const PortSet bit = PortSet(1) << place;
    bool any = false;
    std::array<bool, kBins> here{};
    for (int bin = 0; bin < kBins; ++bin) {
      if (!(sure.sure[size_t(bin)] & bit)) continue;
      ArcSet where = ArcSet::all();
      for (size_t other = 0; other < model.ports.size(); ++other) {
        if (other == own) continue;
        const PortSets& port = model.ports[other];
        where = where.intersected(port.nominal.contains(bin + 0.5) ? port.if_shut : port.if_open);
      }
      here[size_t(bin)] = model.ports[own].sure.covers(where);
      any = any || here[size_t(bin)];
    }
    if (!any) continue;
    for (int bin = 0; bin < kBins; ++bin)
      if (!here[size_t(bin)]) workable.sure[size_t(bin)] &= ~bit;
  }
  workable.period = repeats_after(workable, table);
  return workable;
}

}  // namespace shutlane
