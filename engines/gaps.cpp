// A file with some wrong values must still have the rest checked, without mistakes that only echo the wrong
// ones.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "engines/reading.hpp"

namespace shutlane {
namespace {

void fill_cylinder(CylinderSpec& cylinder, const Findings& findings) {
  if (findings.touched("cylinder.bore_mm")) cylinder.bore_mm = 80;
  if (findings.touched("cylinder.stroke_mm")) cylinder.stroke_mm = ranges::stroke_mm.low;
  if (findings.touched("cylinder.bore_offset_mm")) cylinder.bore_offset_mm = 0;
  if (findings.touched("cylinder.rod_mm")) cylinder.rod_mm = ranges::rod_mm.high;
  if (findings.touched("cylinder.compression_ratio")) cylinder.compression_ratio = 10;
}

/// The cylinders of one side, order or banks, stand in for those that the other side failed to give.
void fill_layout(LayoutSpec& layout, const Findings& findings) {
  if (findings.touched("layout.firing_order")) {
    std::set<int> all{1};
    for (const BankSpec& bank : layout.banks) all.insert(bank.cylinders.begin(), bank.cylinders.end());
    layout.firing_order.assign(all.begin(), all.end());
  }
  if (findings.touched("layout.firing_intervals_deg")) layout.firing_intervals_deg.clear();
  if (layout.banks.empty()) layout.banks.emplace_back();
  std::set<int> left(layout.firing_order.begin(), layout.firing_order.end());
  for (const BankSpec& bank : layout.banks)
    for (const int number : bank.cylinders) left.erase(number);
  for (size_t i = 0; i < layout.banks.size(); ++i) {
    BankSpec& bank = layout.banks[i];
    const std::string key = fmt::format("layout.bank[{}]", i);
    if (findings.touched(key + ".cylinders")) {
      bank.cylinders.assign(left.begin(), left.end());
      left.clear();
    }
    if (findings.touched(key + ".name")) bank.name = fmt::format("\n{}", i);  // no file can hold this name
  }
}

void fill_valve(ValveSpec& valve, const std::string& key, const Findings& findings) {
  const auto gap = [&](const char* name) { return findings.touched(key + name); };
  if (gap(".per_cylinder")) valve.per_cylinder = 1;
  if (gap(".phase_range_deg")) valve.phase_range_deg = {0, 0};
  if (gap(".banks")) valve.banks.clear();
  if (gap(".lift_table")) valve.lift_table.clear();
  // The missing event follows the other one, 60 degrees open: that neither crosses nor fills the cycle.
  const bool intake = valve.kind == ValveKind::intake;
  const bool no_kind = gap(".kind");
  const bool opens = no_kind || gap(intake ? ".opens_btdc_deg" : ".opens_bbdc_deg");
  const bool closes = no_kind || gap(intake ? ".closes_abdc_deg" : ".closes_atdc_deg");
  if (closes) valve.closes_deg = opens ? 40 : -120 - valve.opens_deg;
  if (opens) valve.opens_deg = -120 - valve.closes_deg;
  if (gap(".at_lift_mm")) valve.at_lift_mm = 0;
  if (gap(".peak_lift_mm")) valve.peak_lift_mm = ranges::peak_lift_mm.high;
  if (gap(".clearance_mm")) valve.clearance_mm = 0;
}

bool in_valves(std::string_view key, std::string_view name) {
  return key.starts_with("valves[") && key.ends_with(name);
}

}  // namespace

void fill_gaps(Reading& reading) {
  auto& [spec, findings] = reading;
  fill_cylinder(spec.cylinder, findings);
  fill_layout(spec.layout, findings);
  for (size_t i = 0; i < spec.valves.size(); ++i)
    fill_valve(spec.valves[i], fmt::format("valves[{}]", i), findings);
  if (findings.touched("tolerance.timing_deg")) spec.tolerance.timing_deg = 0;
}

bool is_own(const Mistake& mistake, const Findings& findings) {
  const std::string& key = mistake.key;
  const bool some_bank = findings.touched("layout.bank");
  if (key == "valves") {  // a bank without valves: depends on the kind and the banks of every entry
    if (some_bank || findings.flawed("valves")) return false;
    for (size_t i = 0; i < kTableCount; ++i) {
      const std::string entry = fmt::format("valves[{}]", i);
      if (findings.flawed(entry) || findings.touched_any({entry + ".kind", entry + ".banks"})) return false;
    }
    return true;
  }
  if (in_valves(key, ".banks") && some_bank) return false;
  if (findings.touched(key)) return false;
  const bool some_order = findings.touched("layout.firing_order");
  if (key.starts_with("layout.firing_intervals_deg")) return !some_order;
  if (key.starts_with("layout.firing_order")) return !some_bank || !mistake.wrong.starts_with("no bank");
  if (key.starts_with("layout.crank_pins_deg"))
    return !some_bank && !some_order &&
           !findings.touched_any({"layout.firing_intervals_deg", "layout.rotation", "cylinder.stroke_mm",
                                  "cylinder.rod_mm", "cylinder.bore_offset_mm"});
  return true;
}

}  // namespace shutlane
