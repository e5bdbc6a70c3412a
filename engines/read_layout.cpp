// [layout], its banks and its crank pins.
#include <fmt/format.h>

#include "engines/reading.hpp"

namespace shutlane {
namespace {

BankSpec read_bank(Section& bank) {
  BankSpec spec;
  bank.read("name", spec.name, kNameLength);
  bank.read("tilt_deg", spec.tilt_deg);
  bank.read("cylinders", spec.cylinders);
  if (double offset_mm = 0; bank.read("bore_offset_mm", offset_mm)) spec.bore_offset_mm = offset_mm;
  bank.note_unknown_keys();
  return spec;
}

void read_crank_pins(Section& pins, LayoutSpec& spec) {
  std::map<int, double> found;
  for (const auto& [key, node] : pins.raw()) {
    const int number = cylinder_of(key.str());
    if (number == 0) continue;  // noted among the unknown keys
    if (double crank_pin_deg = 0; pins.read(key.str(), crank_pin_deg)) found[number] = crank_pin_deg;
  }
  if (pins.raw().empty())
    pins.findings().flaw("layout.crank_pins_deg", pins.line(), "is empty",
                         "the crank pin of every cylinder, or no table: they follow from firing_order");
  spec.crank_pins_deg = std::move(found);
}

}  // namespace

void read_layout(Section& layout, LayoutSpec& spec) {
  layout.read("firing_order", spec.firing_order);
  layout.read("firing_intervals_deg", spec.firing_intervals_deg);
  if (std::string rotation; layout.read("rotation", rotation, kTextLength)) {
    if (rotation == "anticlockwise")
      spec.rotation = Rotation::anticlockwise;
    else if (rotation != "clockwise")
      layout.flaw("rotation", "is " + shown_value(*layout.raw().get("rotation")));
  }
  const auto banks = layout.tables("bank");
  for (size_t i = 0; i < banks.size(); ++i) {
    spec.banks.emplace_back();
    if (!banks[i]) continue;
    Section bank(*banks[i], fmt::format("layout.bank[{}]", i), "layout.bank", layout.findings());
    spec.banks.back() = read_bank(bank);
  }
  if (const toml::table* table = layout.table("crank_pins_deg")) {
    Section pins(*table, "layout.crank_pins_deg", "layout.crank_pins_deg", layout.findings());
    read_crank_pins(pins, spec);
    pins.note_unknown_keys();
  }
  layout.note_unknown_keys();
}

}  // namespace shutlane
