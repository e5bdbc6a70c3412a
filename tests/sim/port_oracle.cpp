#include "tests/sim/port_oracle.hpp"

#include <algorithm>
#include <cmath>

namespace shutlane::test {

namespace {

/// Firing TDC from the order and intervals, counted in words: walk the order from cylinder 1.
double firing_tdc(const LayoutSpec& layout, int cylinder) {
  const auto& order = layout.firing_order;
  size_t at = 0;
  while (order[at] != 1) ++at;
  double sum = 0;
  while (order[at % order.size()] != cylinder) {
    const size_t i = at % order.size();
    sum += layout.firing_intervals_deg.empty() ? 720.0 / static_cast<double>(order.size())
                                               : layout.firing_intervals_deg[i];
    ++at;
  }
  return sum;
}

}  // namespace

PortOracle::PortOracle(const Engine& engine, int cylinder) {
  const EngineSpec& spec = engine.spec;
  tdc_deg_ = firing_tdc(spec.layout, cylinder);
  std::string bank;
  for (const BankSpec& b : spec.layout.banks)
    if (std::find(b.cylinders.begin(), b.cylinders.end(), cylinder) != b.cylinders.end()) bank = b.name;
  for (const ValveSpec& v : spec.valves) {
    if (v.kind != ValveKind::intake) continue;
    if (!v.banks.empty() && std::find(v.banks.begin(), v.banks.end(), bank) == v.banks.end()) continue;
    const bool seat_known = v.at_lift_mm == 0.0 || !v.lift_table.empty();
    double seat_deg = spec.tolerance.seat_deg.value_or(seat_known ? 0 : 10);
    // An unknown law may be any of them: what is not stated is taken at its worst.
    if (!v.lift_law)
      for (const LiftLaw law : {LiftLaw::polynomial_345, LiftLaw::cycloidal, LiftLaw::harmonic}) {
        ValveSpec other = v;
        other.lift_law = law;
        seat_deg = std::max(seat_deg, ValveOracle(v).opens_deg() - ValveOracle(other).opens_deg());
      }
    entries_.push_back({ValveOracle(v), v.per_cylinder, v.phase_range_deg[0], v.phase_range_deg[1],
                        spec.tolerance.timing_deg, seat_deg});
  }
}

bool PortOracle::shut(double crank_deg) const {
  return std::none_of(entries_.begin(), entries_.end(),
                      [&](const Entry& e) { return e.valve.lift_mm(local(crank_deg)) > 0; });
}

std::vector<double> PortOracle::lifts_mm(double crank_deg) const {
  std::vector<double> lifts;
  for (const Entry& e : entries_)
    for (int i = 0; i < e.per_cylinder; ++i) lifts.push_back(e.valve.lift_mm(local(crank_deg)));
  return lifts;
}

std::vector<Moved> PortOracle::sampled(Dice& dice) const {
  auto within = [&](double low, double high) {
    return dice.chance(0.3) ? low : dice.chance(0.4) ? high : dice.between(low, high);
  };
  std::vector<Moved> all;
  for (const Entry& e : entries_) {
    const double earlier = within(e.first_deg, e.last_deg);
    all.push_back({within(-e.timing_deg, e.timing_deg) - within(0, e.seat_deg) - earlier,
                   within(-e.timing_deg, e.timing_deg) + within(0, e.seat_deg) - earlier});
  }
  return all;
}

double PortOracle::lift_mm(double crank_deg, const std::vector<Moved>& moved) const {
  double most = 0;
  for (size_t i = 0; i < entries_.size(); ++i)
    most = std::max(most,
                    entries_[i].valve.lift_mm(local(crank_deg), moved[i].opening_deg, moved[i].closing_deg));
  return most;
}

bool PortOracle::may_be_lifted(double crank_deg) const {
  for (const Entry& e : entries_)
    for (int step = 0; step <= 20; ++step) {  // far smaller steps than any opening is long
      const double earlier = e.first_deg + (e.last_deg - e.first_deg) * step / 20;
      const double out = e.timing_deg + e.seat_deg;
      if (e.valve.lift_mm(local(crank_deg), -out - earlier, out - earlier) > 0) return true;
    }
  return false;
}

bool PortOracle::never_lifted_between(double from_deg, double to_deg) const {
  for (const Entry& e : entries_) {
    const double out = e.timing_deg + e.seat_deg;
    for (int turn = -3; turn <= 3; ++turn) {
      const double opens = tdc_deg_ + e.valve.opens_deg() - out - e.last_deg + 720 * turn;
      const double closes = tdc_deg_ + e.valve.closes_deg() + out - e.first_deg + 720 * turn;
      if (opens < to_deg && closes > from_deg) return false;
    }
  }
  return true;
}

double PortOracle::least_lift_mm(double crank_deg) const {
  double most = 0;
  for (const Entry& e : entries_) {
    double least = 1e9;
    // Shifting the whole curve: its least lift over a stretch lies at an end of the stretch, the curve being
    // one hump. Outside the hump the lift is 0 in any case.
    for (const double earlier : {e.first_deg, e.last_deg})
      for (const double opening : {-e.timing_deg, e.timing_deg})
        for (const double closing : {-e.timing_deg, e.timing_deg})
          least = std::min(least, e.valve.lift_mm(local(crank_deg), opening - earlier, closing - earlier));
    most = std::max(most, least);
  }
  return most;
}

std::vector<double> PortOracle::breakpoints_deg(double eye_mm) const {
  std::vector<double> all;
  for (const Entry& e : entries_) {
    for (const double out : {0.0, e.timing_deg + e.seat_deg, -e.timing_deg})
      for (const double earlier : {0.0, e.first_deg, e.last_deg}) {
        all.push_back(tdc_deg_ + e.valve.opens_deg() - out - earlier);
        all.push_back(tdc_deg_ + e.valve.closes_deg() + out - earlier);
      }
    if (!std::isfinite(e.valve.rise_deg(eye_mm))) continue;
    for (const double earlier : {e.first_deg, e.last_deg}) {
      all.push_back(tdc_deg_ + e.valve.opens_deg() + e.timing_deg + e.valve.rise_deg(eye_mm) - earlier);
      all.push_back(tdc_deg_ + e.valve.closes_deg() - e.timing_deg - e.valve.fall_deg(eye_mm) - earlier);
    }
  }
  for (double& a : all) {
    a = std::fmod(a, 720);
    if (a < 0) a += 720;
  }
  return all;
}

}  // namespace shutlane::test
