// The spec as an engine file. Optional keys that hold their defaults are left out.
#include <fmt/format.h>

#include <cmath>

#include "engines/reader.hpp"

namespace shutlane {
namespace {

/// A TOML basic string. Its text is UTF-8.
std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\')
      out += fmt::format("\\{}", c);
    else if (byte < 0x20 || byte == 0x7F)
      out += fmt::format("\\u{:04X}", byte);
    else
      out += c;
  }
  return out + '"';
}

/// Shortest digits that read back as the same double, always with the look of a float.
std::string number(double x) {
  if (std::isnan(x)) return "nan";
  if (std::isinf(x)) return x > 0 ? "inf" : "-inf";
  std::string text = fmt::format("{}", x);
  return text.find_first_of(".e") == std::string::npos ? text + ".0" : text;
}

template <typename List, typename Write>
std::string list_of(const List& list, Write write) {
  std::string text;
  for (const auto& item : list) text += (text.empty() ? "" : ", ") + write(item);
  return "[" + text + "]";
}

std::string whole(int x) { return fmt::format("{}", x); }

std::string_view word(LiftLaw law) {
  switch (law) {
    case LiftLaw::polynomial_345:
      return "polynomial-345";
    case LiftLaw::polynomial_4567:
      return "polynomial-4567";
    case LiftLaw::cycloidal:
      return "cycloidal";
    case LiftLaw::harmonic:
      return "harmonic";
    case LiftLaw::table:
      return "table";
  }
  return "unknown";
}

class Writer {
 public:
  std::string write(const EngineSpec& spec) {
    line("format", "1");
    line("name", quoted(spec.name));
    line("source", quoted(spec.source));
    if (!spec.needs.empty()) line("needs", quoted(spec.needs));
    cylinder(spec.cylinder);
    layout(spec.layout);
    for (const ValveSpec& each : spec.valves) valve(each);
    tolerance(spec.tolerance);
    cranking(spec.cranking);
    return std::move(text_);
  }

 private:
  void line(std::string_view key, std::string_view value) { text_ += fmt::format("{} = {}\n", key, value); }
  void header(std::string_view words) { text_ += fmt::format("\n{}\n", words); }

  void cylinder(const CylinderSpec& cylinder) {
    header("[cylinder]");
    line("bore_mm", number(cylinder.bore_mm));
    line("stroke_mm", number(cylinder.stroke_mm));
    line("rod_mm", number(cylinder.rod_mm));
    if (cylinder.bore_offset_mm != 0) line("bore_offset_mm", number(cylinder.bore_offset_mm));
    line("compression_ratio", number(cylinder.compression_ratio));
  }

  void layout(const LayoutSpec& layout) {
    header("[layout]");
    line("firing_order", list_of(layout.firing_order, whole));
    if (!layout.firing_intervals_deg.empty())
      line("firing_intervals_deg", list_of(layout.firing_intervals_deg, number));
    if (layout.rotation == Rotation::anticlockwise) line("rotation", quoted("anticlockwise"));
    for (const BankSpec& bank : layout.banks) {
      header("[[layout.bank]]");
      line("name", quoted(bank.name));
      line("tilt_deg", number(bank.tilt_deg));
      line("cylinders", list_of(bank.cylinders, whole));
      if (bank.bore_offset_mm) line("bore_offset_mm", number(*bank.bore_offset_mm));
    }
    if (layout.crank_pins_deg.empty()) return;
    header("[layout.crank_pins_deg]");
    for (const auto& [cylinder, crank_pin_deg] : layout.crank_pins_deg)
      line(whole(cylinder), number(crank_pin_deg));
  }

  void valve(const ValveSpec& valve) {
    const bool intake = valve.kind == ValveKind::intake;
    header("[[valves]]");
    line("kind", quoted(intake ? "intake" : "exhaust"));
    line("per_cylinder", whole(valve.per_cylinder));
    if (valve.lift_law == LiftLaw::table) {
      line("lift_law", quoted("table"));
      line("peak_at_deg", number(valve.peak_at_deg));
      text_ += "lift_table = [\n";
      for (const LiftRow& row : valve.lift_table)
        text_ += fmt::format("  [{}, {}],\n", number(row.from_peak_deg), number(row.lift_mm));
      text_ += "]\n";
    } else {
      line(intake ? "opens_btdc_deg" : "opens_bbdc_deg", number(valve.opens_deg));
      line(intake ? "closes_abdc_deg" : "closes_atdc_deg", number(valve.closes_deg));
      line("at_lift_mm", valve.at_lift_mm ? number(*valve.at_lift_mm) : quoted("unknown"));
      line("peak_lift_mm", number(valve.peak_lift_mm));
      line("lift_law", quoted(valve.lift_law ? word(*valve.lift_law) : "unknown"));
      if (valve.clearance_mm != 0) line("clearance_mm", number(valve.clearance_mm));
    }
    if (valve.phase_range_deg != std::array<double, 2>{0, 0})
      line("phase_range_deg", list_of(valve.phase_range_deg, number));
    if (!valve.banks.empty()) line("banks", list_of(valve.banks, quoted));
  }

  void tolerance(const ToleranceSpec& tolerance) {
    header("[tolerance]");
    line("timing_deg", number(tolerance.timing_deg));
    if (tolerance.seat_deg) line("seat_deg", number(*tolerance.seat_deg));
  }

  void cranking(const CrankingSpec& cranking) {
    const CrankingSpec usual;
    if (cranking == usual) return;
    header("[cranking]");
    if (cranking.starter == StarterKind::none) line("starter", quoted("none"));
    for (const CrankingKey& key : kCrankingKeys) {
      if (key.value && cranking.*key.value != usual.*key.value) line(key.key, number(cranking.*key.value));
      if (key.scaled_value && cranking.*key.scaled_value)
        line(key.key, number(*(cranking.*key.scaled_value)));
    }
  }

  std::string text_;
};

}  // namespace

std::string write_engine(const EngineSpec& spec) { return Writer().write(spec); }

}  // namespace shutlane
