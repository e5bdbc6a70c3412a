#include "sim/cranking/fast_tables.hpp"

#include <algorithm>
#include <cmath>

#include "sim/cycle/angle.hpp"

namespace shutlane {
namespace {

struct Slot {
  const SealedCylinder* cylinder;
  double reference_m3;
  double offset_deg;  // local angle at node 0 when the slots shift
};

/// Integral of (Vref/V)^n dV, by Gauss-Legendre with three points: far below float accuracy over a step.
double unit_work_m3(const Slot& s, double n, double from_deg, double to_deg) {
  static constexpr double at[3] = {-0.7745966692414834, 0, 0.7745966692414834};
  static constexpr double weight[3] = {5.0 / 9, 8.0 / 9, 5.0 / 9};
  const double half = (to_deg - from_deg) / 2, mid = (from_deg + to_deg) / 2;
  double sum = 0;
  for (int i = 0; i < 3; ++i) {
    const double a = mid + half * at[i];
    sum +=
        weight[i] * std::pow(s.reference_m3 / s.cylinder->volume_m3(a), n) * s.cylinder->volume_per_rad_m3(a);
  }
  return sum * half * kRadPerDeg;
}

}  // namespace

FastTables fast_tables(const CrankingModel& model, double step_deg) {
  const double period = model.period_deg();
  FastTables t;
  t.shifts = period < kCycle_deg;
  t.nodes = std::max(2, int(std::lround(period / step_deg)));
  t.step_deg = period / t.nodes;
  t.origin_deg = model.cylinders.front().firing_tdc_deg;
  std::vector<Slot> slots;
  const auto add = [&](const SealedCylinder& c, double offset) {
    slots.push_back({&c, c.crank.clearance_cm3() * 1e-6, offset});
  };
  if (t.shifts) {
    const SealedCylinder& c = model.cylinders.front();
    for (int j = int(std::floor(c.sealed_from_deg / period)); j * period < c.sealed_to_deg; ++j)
      add(c, j * period);
  } else {
    for (const SealedCylinder& c : model.cylinders) add(c, 0);
  }
  t.slots = int(slots.size());
  t.cells.resize(size_t(t.nodes) * slots.size());
  t.air.assign(size_t(t.nodes), 0);
  t.brake.assign(size_t(t.nodes), 0);
  t.calm_edge.resize(size_t(t.nodes + 1) * slots.size());
  const double n = model.polytropic;
  for (const Slot& s : slots) {
    const auto k_at = [&](double local) {
      return float(std::pow(s.cylinder->volume_m3(local) / s.reference_m3, n));
    };
    t.before.push_back(k_at(s.cylinder->sealed_from_deg));
    t.after.push_back(k_at(s.cylinder->sealed_to_deg));
  }
  for (int i = 0; i <= t.nodes; ++i) {
    double air = 0, brake = 0;
    for (size_t j = 0; j < slots.size(); ++j) {
      const Slot& s = slots[j];
      const double turned = i * t.step_deg;
      const double middle = turned + t.step_deg / 2;
      const double local = t.shifts ? middle + s.offset_deg : s.cylinder->local_deg(t.origin_deg + middle);
      const auto k_at = [&](double a) {
        const double inside = std::clamp(a, s.cylinder->sealed_from_deg, s.cylinder->sealed_to_deg);
        return float(std::pow(s.cylinder->volume_m3(inside) / s.reference_m3, n));
      };
      t.calm_edge[size_t(i) * slots.size() + j] = k_at(local - t.step_deg / 2);
      if (i == t.nodes) continue;
      FastTables::Cell& cell = t.cells[size_t(i) * slots.size() + j];
      cell.opened =
          local < (s.cylinder->sealed_from_deg + s.cylinder->sealed_to_deg) / 2 ? t.before[j] : t.after[j];
      cell.calm = k_at(local);
      const double from = std::max(local - t.step_deg / 2, s.cylinder->sealed_from_deg);
      const double to = std::min(local + t.step_deg / 2, s.cylinder->sealed_to_deg);
      if (to - from < 1e-9) continue;
      if (model.plug_hole_m3_s > 0) {
        const double slope = s.cylinder->volume_per_rad_m3((from + to) / 2);
        brake += model.ambient_pa * slope * slope / model.conductance_m3_s() * (to - from) / t.step_deg;
        continue;
      }
      const double volume = s.cylinder->volume_m3((from + to) / 2);
      cell.work = float(model.ambient_pa * unit_work_m3(s, n, from, to));
      cell.gap = float(n * std::pow(s.reference_m3 / volume, n) / (2 * volume));
      air -= model.ambient_pa * (s.cylinder->volume_m3(to) - s.cylinder->volume_m3(from));
    }
    if (i == t.nodes) continue;
    t.air[size_t(i)] = float(air);
    t.brake[size_t(i)] = float(brake);
  }
  return t;
}

}  // namespace shutlane
