#include "sim/cranking/model.hpp"

#include <algorithm>
#include <cmath>

#include "sim/cycle/angle.hpp"
namespace shutlane {
namespace {

// Scaled defaults, estimates without a source, anchored at two points: 0.18 kg m2 for a small four with its
// driveline (read in print), 0.25 kg m2 for a 3.0 litre six.
constexpr double kInertiaBase_kgm2 = 0.04, kInertiaPerLitre_kgm2 = 0.07;
// A starter must carry the crank over a compression from a standing start.
constexpr double kStarterPerLitre_nm = 70, kStarterOverCompression = 1.3;

// A plug hole of 14 mm passes 0.65 A sqrt(2 dp / rho) = 9.1e-3 m3/s at 0.05 bar; the conductance with that
// flow.
constexpr double kPlugHole_m3_s = 0.18;

std::vector<SealedCylinder> sealed_cylinders(const Engine& engine) {
  std::vector<SealedCylinder> out;
  for (const Cylinder& c : engine.cylinders) {
    SealedCylinder s{c.firing_tdc_deg, c.crank, -kCycle_deg, kCycle_deg};
    for (size_t t : c.intake)
      s.sealed_from_deg =
          std::max(s.sealed_from_deg, wrap_deg(engine.trains[t].profile.seat_closes_deg()) - kCycle_deg);
    for (size_t t : c.exhaust)
      s.sealed_to_deg = std::min(s.sealed_to_deg, wrap_deg(engine.trains[t].profile.seat_opens_deg()));
    if (c.exhaust.empty()) s.sealed_to_deg = 130;  // a file without exhaust valves: 50 degrees before BDC
    out.push_back(s);
  }
  return out;
}

CrankingModel modelled(const Engine& engine, Plugs plugs) {
  const CrankingSpec& spec = engine.spec.cranking;
  CrankingModel m;
  m.cylinders = sealed_cylinders(engine);
  m.spreads = spec;
  m.polytropic = spec.polytropic;
  m.ambient_pa = spec.ambient_bar * kPaPerBar;
  double displacement_m3 = 0, compression_nm = 0;
  for (const SealedCylinder& c : m.cylinders) {
    displacement_m3 += c.crank.swept_cm3() * 1e-6;
    compression_nm = std::max(compression_nm, peak_compression_nm(c, m.polytropic, kPaPerBar));
  }
  const double litres = displacement_m3 * 1e3;
  m.starter_torque_nm = spec.starter_torque_nm.value_or(
      std::max(kStarterPerLitre_nm * litres, kStarterOverCompression * compression_nm));
  m.starter_speed_rad_s = spec.starter_speed_rpm * 2 * kPi / 60;
  m.battery_strength = spec.battery_strength;
  m.engage_delay_s = spec.engage_delay_s;
  m.release_delay_s = spec.release_delay_s;
  m.inertia_kgm2 = spec.inertia_kgm2.value_or(kInertiaBase_kgm2 + kInertiaPerLitre_kgm2 * litres);
  // Torque of a mean effective pressure over the four-stroke cycle: T = mep V / (4 pi) (Heywood 1988,
  // eq. 2.20).
  const double nm_per_bar = kPaPerBar * displacement_m3 / (4 * kPi);
  m.friction_nm = spec.friction_bar * nm_per_bar;
  m.friction_nms = spec.friction_bar_per_krpm * nm_per_bar / (1000 * 2 * kPi / 60);
  m.breakaway_nm = m.friction_nm * spec.breakaway_ratio;
  m.leak_m3_s = leak_conductance_m3_s(spec.leak_down_percent, m.ambient_pa);
  m.plug_hole_m3_s = plugs == Plugs::out ? kPlugHole_m3_s : 0;
  return m;
}

bool alike(const SealedCylinder& a, const SealedCylinder& b) {
  const auto same = [](double x, double y) { return std::abs(x - y) < 1e-9 * std::max(1.0, std::abs(x)); };
  return same(a.sealed_from_deg, b.sealed_from_deg) && same(a.sealed_to_deg, b.sealed_to_deg) &&
         same(a.crank.bore_mm, b.crank.bore_mm) && same(a.crank.crank_radius_mm, b.crank.crank_radius_mm) &&
         same(a.crank.rod_mm, b.crank.rod_mm) && same(a.crank.offset_mm, b.crank.offset_mm) &&
         same(a.crank.compression_ratio, b.crank.compression_ratio);
}

}  // namespace

double SealedCylinder::volume_per_rad_m3(double local_deg) const {
  const double area_m2 = kPi / 4 * crank.bore_mm * crank.bore_mm * 1e-6;
  return area_m2 * crank.at_local(local_deg).velocity_mm_per_rad * 1e-3;
}

double SealedCylinder::local_deg(double crank_deg) const {
  const double open_deg = kCycle_deg - (sealed_to_deg - sealed_from_deg);
  const double start = sealed_from_deg - open_deg / 2;  // the cut lies in the middle of the open stretch
  return start + wrap_deg(crank_deg - firing_tdc_deg - start);
}

CrankingModel CrankingModel::with(const CrankingDraw& draw) const {
  CrankingModel m = *this;
  m.starter_torque_nm *= draw.starter;
  m.friction_nm *= draw.friction;
  m.friction_nms *= draw.friction;
  m.breakaway_nm *= draw.friction;
  m.leak_m3_s *= draw.leak;
  m.inertia_kgm2 *= draw.inertia;
  m.engage_delay_s = std::max(0.0, m.engage_delay_s + draw.engage_s);
  m.polytropic += draw.polytropic;
  return m;
}

double CrankingModel::period_deg() const {
  if (cylinders.size() < 2) return kCycle_deg;
  const double interval = kCycle_deg / double(cylinders.size());
  std::vector<double> at;
  for (const SealedCylinder& c : cylinders) {
    if (!alike(c, cylinders.front())) return kCycle_deg;
    at.push_back(wrap_deg(c.firing_tdc_deg - cylinders.front().firing_tdc_deg + kSame_deg));
  }
  std::sort(at.begin(), at.end());
  for (size_t i = 0; i < at.size(); ++i)
    if (std::abs(at[i] - kSame_deg - interval * double(i)) > 1e-4) return kCycle_deg;
  return interval;
}

std::variant<CrankingModel, NoBump> cranking_model(const Engine& engine, Plugs plugs) {
  if (engine.spec.cranking.starter == StarterKind::none)
    return NoBump{
        "the engine file says starter = \"none\": this engine has no starter that can be bumped (hybrids); "
        "turn it by wrench"};
  return modelled(engine, plugs);
}

CrankingModel wrench_model(const Engine& engine, Plugs plugs) { return modelled(engine, plugs); }

double leak_conductance_m3_s(double leak_down_percent, double ambient_pa) {
  const double supply_bar = 7 + ambient_pa / kPaPerBar;
  const double behind_bar = supply_bar - 7 * leak_down_percent / 100;
  const double ratio = behind_bar / supply_bar, critical = 0.528282;
  const double bore_mm2 = kPi / 4 * 1.0 * 1.0;
  double flow_dm3_s = 0.1992122 * 0.65 * bore_mm2 * supply_bar;  // free air
  if (ratio > critical) {
    const double x = (ratio - critical) / (1 - critical);
    flow_dm3_s *= std::sqrt(std::max(0.0, 1 - x * x));
  }
  const double ambient_bar = ambient_pa / kPaPerBar;
  // free air at 1 bar: R T m' = 1 bar * flow
  return flow_dm3_s * 1e-3 * 2 * ambient_bar / (behind_bar * behind_bar - ambient_bar * ambient_bar);
}

double leak_pa_s(double p, double volume_m3, double conductance_m3_s, double polytropic, double pa) {
  return polytropic * conductance_m3_s * (p * p - pa * pa) / (2 * pa * volume_m3);
}

double leaked_pa(double p, double volume_m3, double conductance_m3_s, double polytropic, double pa,
                 double time_s) {
  const double u = (p - pa) / (p + pa) * std::exp(-polytropic * conductance_m3_s * time_s / volume_m3);
  return pa * (1 + u) / (1 - u);
}

double peak_compression_nm(const SealedCylinder& cylinder, double polytropic, double ambient_pa) {
  const double sealed_m3 = cylinder.volume_m3(cylinder.sealed_from_deg);
  double peak = 0;
  for (double a = cylinder.sealed_from_deg; a < 0; a += 0.5) {
    const double p = ambient_pa * std::pow(sealed_m3 / cylinder.volume_m3(a), polytropic);
    peak = std::max(peak, -(p - ambient_pa) * cylinder.volume_per_rad_m3(a));
  }
  return peak;
}

}  // namespace shutlane
