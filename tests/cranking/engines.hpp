#pragma once
// Engines for the cranking tests: built in code, so that only sim is linked. Invented values.
#include <gtest/gtest.h>

#include <variant>
#include <vector>

#include "sim/cranking/model.hpp"

namespace shutlane::testing {

struct Shape {
  std::vector<int> order;
  std::vector<double> intervals;  // empty: even
  double bore_mm = 84, stroke_mm = 89.6, rod_mm = 141, compression = 10.2;
  double intake_opens = 12, intake_closes = 48, exhaust_opens = 50, exhaust_closes = 10;
  double offset_mm = 0;
};

inline EngineSpec spec_of(const Shape& s) {
  EngineSpec e;
  e.name = "test engine";
  e.cylinder = {s.bore_mm, s.stroke_mm, s.rod_mm, s.offset_mm, s.compression};
  e.layout.firing_order = s.order;
  e.layout.firing_intervals_deg = s.intervals;
  BankSpec bank;
  bank.name = "row";
  for (int i = 1; i <= int(s.order.size()); ++i) bank.cylinders.push_back(i);
  e.layout.banks = {bank};
  ValveSpec intake;
  intake.kind = ValveKind::intake;
  intake.opens_deg = s.intake_opens;
  intake.closes_deg = s.intake_closes;
  intake.peak_lift_mm = 9.7;
  intake.lift_law = LiftLaw::polynomial_4567;
  ValveSpec exhaust = intake;
  exhaust.kind = ValveKind::exhaust;
  exhaust.opens_deg = s.exhaust_opens;
  exhaust.closes_deg = s.exhaust_closes;
  e.valves = {intake, exhaust};
  e.tolerance.timing_deg = 3;
  e.tolerance.seat_deg = 0.0;
  return e;
}

inline Engine engine_of(const EngineSpec& spec) {
  auto built = build_engine(spec);
  if (auto* mistakes = std::get_if<std::vector<Mistake>>(&built)) {
    for (const Mistake& m : *mistakes) ADD_FAILURE() << m.key << ": " << m.wrong << "; " << m.expected;
    return {};
  }
  return std::get<Engine>(built);
}

inline CrankingModel model_of(const EngineSpec& spec, Plugs plugs = Plugs::in) {
  return std::get<CrankingModel>(cranking_model(engine_of(spec), plugs));
}

inline Shape inline_six() { return {{1, 5, 3, 6, 2, 4}, {}}; }
inline Shape inline_four() { return {{1, 3, 4, 2}, {}}; }
inline Shape even(int n) {
  Shape s;
  for (int i = 1; i <= n; ++i) s.order.push_back(i);
  return s;
}

}  // namespace shutlane::testing
