#include "sim/mechanism/engine.hpp"

#include <algorithm>

#include "sim/cycle/angle.hpp"
#include "sim/mechanism/layout.hpp"
#include "sim/mechanism/valve_profile.hpp"

namespace shutlane {

LiftProfile valve_profile(const ValveSpec& valve) {
  const bool intake = valve.kind == ValveKind::intake;
  if (valve.lift_law == LiftLaw::table)
    return LiftProfile::from_table(valve.lift_table, 360 + valve.peak_at_deg);
  // Stated before gas-exchange TDC (360) and after the BDC that follows (540); exhaust: around 180 and 360.
  const double opens_deg = (intake ? 360 : 180) - valve.opens_deg;
  const double closes_deg = (intake ? 540 : 360) + valve.closes_deg;
  // Of all the laws 4-5-6-7 lies lowest at the foot; where it is not the widest, unknown_law_deg makes up for
  // it.
  return LiftProfile::from_law(valve.lift_law.value_or(LiftLaw::polynomial_4567), opens_deg, closes_deg,
                               valve.at_lift_mm.value_or(kUnknownAtLift_mm), valve.peak_lift_mm,
                               valve.clearance_mm);
}

namespace {

/// How much further out than by 4-5-6-7 a seat event may lie when the law is unknown. Nothing without valve
/// clearance and with events stated low; but clearance hides the foot, and a harmonic flank is then the wider
/// one.
double unknown_law_deg(const ValveSpec& valve) {
  if (valve.lift_law) return 0;
  const double assumed_deg = valve_profile(valve).seat_span_deg();
  double widest_deg = assumed_deg;
  for (const LiftLaw law : {LiftLaw::polynomial_345, LiftLaw::cycloidal, LiftLaw::harmonic}) {
    ValveSpec other = valve;
    other.lift_law = law;
    widest_deg = std::max(widest_deg, valve_profile(other).seat_span_deg());
  }
  return (widest_deg - assumed_deg) / 2;
}

}  // namespace

ValveTrain valve_train(const ValveSpec& valve, const ToleranceSpec& tolerance) {
  const bool at_seat = valve.lift_law == LiftLaw::table || valve.at_lift_mm == 0.0;
  return {valve.kind,
          valve.per_cylinder,
          valve_profile(valve),
          valve.phase_range_deg[0],
          valve.phase_range_deg[1],
          tolerance.timing_deg,
          std::max(unknown_law_deg(valve), tolerance.seat_deg.value_or(at_seat ? 0.0 : kAssumedSeat_deg))};
}

double Cylinder::local_deg(double crank_deg) const {
  const double local = forward_deg(firing_tdc_deg, crank_deg);
  return local > kCycle_deg - kSame_deg ? 0.0 : local;
}

const Cylinder* Engine::find(int number) const {
  const auto at = std::lower_bound(cylinders.begin(), cylinders.end(), number,
                                   [](const Cylinder& c, int n) { return c.number < n; });
  return at != cylinders.end() && at->number == number ? &*at : nullptr;
}

std::variant<Engine, std::vector<Mistake>> build_engine(EngineSpec spec) {
  if (auto mistakes = mistakes_in(spec); !mistakes.empty()) return mistakes;
  Engine engine;
  const auto tdc_deg = firing_tdc_deg(spec.layout);
  for (const ValveSpec& valve : spec.valves) engine.trains.push_back(valve_train(valve, spec.tolerance));

  const double turning = spec.layout.rotation == Rotation::clockwise ? 1 : -1;
  for (size_t b = 0; b < spec.layout.banks.size(); ++b) {
    const BankSpec& bank = spec.layout.banks[b];
    Cylinder cylinder;
    cylinder.bank = b;
    cylinder.tilt_deg = bank.tilt_deg;
    // The pin goes down on the side to which it turns: right of the bore when clockwise.
    cylinder.crank = {spec.cylinder.bore_mm, spec.cylinder.stroke_mm / 2, spec.cylinder.rod_mm,
                      turning * bore_offset_mm(spec, bank), spec.cylinder.compression_ratio};
    for (size_t i = 0; i < spec.valves.size(); ++i) {
      const auto& only = spec.valves[i].banks;
      if (!only.empty() && std::find(only.begin(), only.end(), bank.name) == only.end()) continue;
      (spec.valves[i].kind == ValveKind::intake ? cylinder.intake : cylinder.exhaust).push_back(i);
    }
    for (size_t place = 0; place < bank.cylinders.size(); ++place) {
      cylinder.number = bank.cylinders[place];
      cylinder.from_pulley = place;
      cylinder.firing_tdc_deg = tdc_deg.at(cylinder.number);
      cylinder.crank_pin_deg = crank_pin_for_deg(spec, cylinder.number, cylinder.firing_tdc_deg);
      engine.cylinders.push_back(cylinder);
    }
  }
  std::sort(engine.cylinders.begin(), engine.cylinders.end(),
            [](const Cylinder& a, const Cylinder& b) { return a.number < b.number; });
  for (const int number : spec.layout.firing_order)
    engine.firing.push_back(static_cast<size_t>(engine.find(number) - engine.cylinders.data()));
  engine.spec = std::move(spec);
  return engine;
}

std::vector<double> lifts_mm(const Engine& engine, const Cylinder& cylinder, ValveKind kind,
                             double crank_deg) {
  std::vector<double> lifts;
  for (const size_t i : kind == ValveKind::intake ? cylinder.intake : cylinder.exhaust) {
    const ValveTrain& train = engine.trains[i];
    lifts.insert(lifts.end(), static_cast<size_t>(train.per_cylinder),
                 train.profile.lift_mm(cylinder.local_deg(crank_deg)));
  }
  return lifts;
}

}  // namespace shutlane
