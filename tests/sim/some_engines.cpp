#include "tests/sim/some_engines.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

namespace shutlane::test {

Engine built(const EngineSpec& spec) {
  auto made = build_engine(spec);
  if (auto* engine = std::get_if<Engine>(&made)) return std::move(*engine);
  std::string text = "not an engine:";
  for (const Mistake& m : std::get<std::vector<Mistake>>(made))
    text += "\n  " + m.key + ": " + m.wrong + "; " + m.expected;
  throw std::runtime_error(text);
}

EngineSpec in_line(const std::vector<int>& order) {
  EngineSpec spec;
  spec.name = "in line";
  spec.cylinder = {
      .bore_mm = 84, .stroke_mm = 89.6, .rod_mm = 141, .bore_offset_mm = 0, .compression_ratio = 10.2};
  spec.layout.firing_order = order;
  std::vector<int> numbers = order;
  std::sort(numbers.begin(), numbers.end());
  spec.layout.banks = {{.name = "row", .tilt_deg = 0, .cylinders = numbers, .bore_offset_mm = {}}};
  ValveSpec intake;
  intake.opens_deg = 12;
  intake.closes_deg = 48;
  intake.peak_lift_mm = 9.7;
  intake.lift_law = LiftLaw::polynomial_4567;
  ValveSpec exhaust = intake;
  exhaust.kind = ValveKind::exhaust;
  exhaust.opens_deg = 50;
  exhaust.closes_deg = 10;
  exhaust.peak_lift_mm = 9.5;
  spec.valves = {intake, exhaust};
  spec.tolerance = {.timing_deg = 3, .seat_deg = 0.0};
  return spec;
}

EngineSpec inline_six() {
  EngineSpec spec = in_line({1, 5, 3, 6, 2, 4});
  spec.layout.firing_intervals_deg.assign(6, 120);
  spec.layout.crank_pins_deg = {{1, 0}, {2, 240}, {3, 120}, {4, 120}, {5, 240}, {6, 0}};
  return spec;
}

EngineSpec vee(const std::vector<int>& order, double angle_deg) {
  EngineSpec spec = in_line(order);
  const std::vector<int> numbers = spec.layout.banks[0].cylinders;
  const auto half = numbers.begin() + static_cast<std::ptrdiff_t>(numbers.size() / 2);
  spec.layout.banks = {
      {.name = "left",
       .tilt_deg = -angle_deg / 2,
       .cylinders = {numbers.begin(), half},
       .bore_offset_mm = {}},
      {.name = "right", .tilt_deg = angle_deg / 2, .cylinders = {half, numbers.end()}, .bore_offset_mm = {}}};
  return spec;
}

EngineSpec one_cylinder(const ValveSpec& valve) {
  EngineSpec spec = in_line({1});
  spec.valves[0] = valve;
  return spec;
}

ValveSpec random_valve(Dice& dice, ValveKind kind) {
  ValveSpec v;
  v.kind = kind;
  v.per_cylinder = dice.whole(1, 3);
  v.lift_law = dice.pick<std::optional<LiftLaw>>({LiftLaw::polynomial_345, LiftLaw::polynomial_4567,
                                                  LiftLaw::cycloidal, LiftLaw::harmonic, std::nullopt});
  v.at_lift_mm = dice.pick<std::optional<double>>({0.0, 0.0, 0.15, 0.5, 1.0, 1.27, std::nullopt});
  const bool at_seat = v.at_lift_mm == 0.0;
  v.opens_deg =
      kind == ValveKind::intake ? dice.between(-20, at_seat ? 45 : 20) : dice.between(20, at_seat ? 80 : 50);
  v.closes_deg =
      kind == ValveKind::intake ? dice.between(-10, at_seat ? 85 : 45) : dice.between(-10, at_seat ? 45 : 15);
  v.peak_lift_mm = dice.between(5, 13);
  v.clearance_mm = dice.chance(0.5) ? 0 : dice.between(0, 0.5);
  return v;
}

ValveSpec random_table(Dice& dice) {
  ValveSpec v;
  v.kind = ValveKind::intake;
  v.per_cylinder = dice.whole(1, 2);
  v.lift_law = LiftLaw::table;
  v.peak_at_deg = dice.between(90, 125);
  const double peak_mm = dice.between(5, 12);
  auto flank = [&](double side) {  // from the foot to the peak, lifts not falling, angles spaced unevenly
    std::vector<LiftRow> rows;
    const int inner = dice.whole(1, 12);
    const double reach_deg = dice.between(90, 150);
    std::vector<double> from, lift;
    for (int i = 0; i < inner; ++i) {
      from.push_back(dice.between(0.02, 0.98) * reach_deg);
      lift.push_back(dice.chance(0.15) ? 0 : dice.between(0, peak_mm));
    }
    std::sort(from.begin(), from.end(), std::greater<>());
    std::sort(lift.begin(), lift.end());
    rows.push_back({side * reach_deg, 0});
    for (size_t i = 0; i < from.size(); ++i)
      if (rows.empty() || std::abs(std::abs(rows.back().from_peak_deg) - from[i]) > 0.5)
        rows.push_back({side * from[i], lift[i]});
    return rows;
  };
  v.lift_table = flank(-1);
  v.lift_table.push_back({0, peak_mm});
  auto falling = flank(1);
  v.lift_table.insert(v.lift_table.end(), falling.rbegin(), falling.rend());
  if (v.lift_table.size() < 5) return random_table(dice);
  return v;
}

namespace {

void random_layout(Dice& dice, int n, LayoutSpec& layout) {
  std::vector<int> numbers(static_cast<size_t>(n));
  std::iota(numbers.begin(), numbers.end(), 1);
  if (dice.chance(0.2))  // gaps in the numbering
    for (int& number : numbers) number = 3 * number - 2;
  layout.firing_order = numbers;
  dice.shuffle(layout.firing_order);
  if (dice.chance(0.5)) {
    double left_deg = 720;
    for (int i = 0; i + 1 < n; ++i) {
      const double even_deg = left_deg / (n - i);
      const double d = dice.chance(0.1) ? 0 : dice.between(0.3, 1.6) * even_deg;
      layout.firing_intervals_deg.push_back(d);
      left_deg -= d;
    }
    layout.firing_intervals_deg.push_back(left_deg);
  }
  layout.rotation = dice.chance(0.2) ? Rotation::anticlockwise : Rotation::clockwise;
  const int banks = std::min(n, dice.whole(1, 4));
  layout.banks.clear();
  for (int b = 0; b < banks; ++b)
    layout.banks.push_back({.name = "bank " + std::to_string(b),
                            .tilt_deg = dice.between(-90, 90),
                            .cylinders = {},
                            .bore_offset_mm = {}});
  for (size_t i = 0; i < numbers.size(); ++i)
    layout.banks[i % static_cast<size_t>(banks)].cylinders.push_back(numbers[i]);
}

ValveSpec random_intake(Dice& dice, const RandomEngine& wanted) {
  ValveSpec v = dice.chance(0.2) ? random_table(dice) : random_valve(dice, ValveKind::intake);
  if (wanted.phasers && dice.chance(0.3)) v.phase_range_deg = {-dice.between(0, 20), dice.between(0, 60)};
  return v;
}

}  // namespace

EngineSpec random_engine(Dice& dice, const RandomEngine& wanted) {
  EngineSpec spec = in_line({1});
  spec.cylinder.bore_offset_mm = dice.chance(0.3) ? dice.between(-20, 20) : 0;
  random_layout(dice, dice.whole(1, wanted.cylinders_most), spec.layout);
  spec.valves.clear();
  const bool own_trains = dice.chance(0.4);
  for (const BankSpec& bank : spec.layout.banks) {
    const bool staggered = dice.chance(0.4);
    for (int lobe = 0; lobe < (staggered ? 2 : 1); ++lobe) {
      ValveSpec v = random_intake(dice, wanted);
      if (own_trains) v.banks = {bank.name};
      spec.valves.push_back(v);
    }
    if (!own_trains) break;
  }
  spec.valves.push_back(random_valve(dice, ValveKind::exhaust));
  spec.tolerance.timing_deg = dice.chance(0.2) ? 0 : dice.between(0, 12);
  if (dice.chance(0.3)) spec.tolerance.seat_deg = dice.between(0, 20);
  return spec;
}

}  // namespace shutlane::test
