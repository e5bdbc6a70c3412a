#include "engines/keys.hpp"

#include <fmt/format.h>

#include <utility>

namespace shutlane {
namespace {

constexpr std::string_view kCrank = "crank degrees";
constexpr std::nullopt_t none = std::nullopt;

/// No spelling distance leads from one to the other.
constexpr std::pair<std::string_view, std::string_view> kOldNames[] = {
    {"turns", "rotation"}, {"throws_deg", "crank_pins_deg"}, {"lash_mm", "clearance_mm"}};

constexpr KeyInfo kKeys[] = {
    {"", "format", Holds::integer, "", NumberRange{1, 1}, "", "format = 1, the only one so far"},
    {"", "name", Holds::text, "", none, "", "a text of 1 to 200 characters"},
    {"", "source", Holds::text, "", none, "", "a text of 1 to 1000 characters, where the numbers come from"},
    {"", "needs", Holds::text, "", none, "any version", "a program version such as \"0.1\""},
    {"", "cylinder", Holds::table, "", none, "", "a table [cylinder]"},
    {"", "layout", Holds::table, "", none, "", "a table [layout]"},
    {"", "valves", Holds::tables, "", none, "", "tables [[valves]], with double brackets"},
    {"", "tolerance", Holds::table, "", none, "the defaults of its keys", "a table [tolerance]"},
    {"", "cranking", Holds::table, "", none, "the defaults of its keys", "a table [cranking]"},

    {"cylinder", "bore_mm", Holds::number, "mm", ranges::bore_mm, "", ""},
    {"cylinder", "stroke_mm", Holds::number, "mm", ranges::stroke_mm, "", ""},
    {"cylinder", "rod_mm", Holds::number, "mm", ranges::rod_mm, "", ""},
    {"cylinder", "bore_offset_mm", Holds::number, "mm", ranges::bore_offset_mm, "0", ""},
    {"cylinder", "compression_ratio", Holds::number, "", ranges::compression_ratio, "", ""},

    {"layout", "firing_order", Holds::integers, "", ranges::cylinder_number, "", ""},
    {"layout", "firing_intervals_deg", Holds::numbers, kCrank, ranges::firing_interval_deg, "even", ""},
    {"layout", "rotation", Holds::text, "", none, "clockwise", "\"clockwise\" or \"anticlockwise\""},
    {"layout", "bank", Holds::tables, "", none, "", "tables [[layout.bank]], with double brackets"},
    {"layout", "crank_pins_deg", Holds::table, "", none, "from the firing order",
     "a table [layout.crank_pins_deg]"},

    {"layout.bank", "name", Holds::text, "", none, "", "a text of 1 to 60 characters"},
    {"layout.bank", "tilt_deg", Holds::number, "degrees", ranges::tilt_deg, "", ""},
    {"layout.bank", "cylinders", Holds::integers, "", ranges::cylinder_number, "", ""},
    {"layout.bank", "bore_offset_mm", Holds::number, "mm", ranges::bore_offset_mm, "that of [cylinder]", ""},

    {"layout.crank_pins_deg", kCylinderKey, Holds::number, kCrank, ranges::crank_pin_deg,
     "from the firing order", ""},

    {"valves", "kind", Holds::text, "", none, "", "\"intake\" or \"exhaust\""},
    {"valves", "per_cylinder", Holds::integer, "", ranges::per_cylinder, "", ""},
    {"valves", "opens_btdc_deg", Holds::number, kCrank, ranges::event_deg, "", "", Applies::intake_events},
    {"valves", "closes_abdc_deg", Holds::number, kCrank, ranges::event_deg, "", "", Applies::intake_events},
    {"valves", "opens_bbdc_deg", Holds::number, kCrank, ranges::event_deg, "", "", Applies::exhaust_events},
    {"valves", "closes_atdc_deg", Holds::number, kCrank, ranges::event_deg, "", "", Applies::exhaust_events},
    {"valves", "at_lift_mm", Holds::number_or_unknown, "mm", ranges::at_lift_mm, "", "", Applies::law},
    {"valves", "peak_lift_mm", Holds::number, "mm", ranges::peak_lift_mm, "", "", Applies::law},
    {"valves", "lift_law", Holds::text, "", none, "",
     "\"polynomial-345\", \"polynomial-4567\", \"cycloidal\", \"harmonic\", \"table\" or \"unknown\""},
    {"valves", "clearance_mm", Holds::number, "mm", ranges::clearance_mm, "0", "", Applies::law},
    {"valves", "phase_range_deg", Holds::numbers, kCrank, ranges::phase_deg, "[0, 0]",
     "[first, second], two numbers of crank degrees EARLIER than stated, -120 to 0 and 0 to 120"},
    {"valves", "banks", Holds::texts, "", none, "all", "a list of bank names"},
    {"valves", "lift_table", Holds::rows, "", none, "",
     "rows [crank degrees from peak lift, lift in mm], two numbers each", Applies::table},
    {"valves", "peak_at_deg", Holds::number, kCrank, ranges::peak_at_deg, "", "", Applies::table},

    {"tolerance", "timing_deg", Holds::number, kCrank, ranges::timing_deg, "5", ""},
    {"tolerance", "seat_deg", Holds::number, kCrank, ranges::seat_deg, "0 at the seat or by a table, else 10",
     ""},

    {"cranking", "starter", Holds::text, "", none, "normal", "\"normal\" or \"none\""},
    {"cranking", "starter_torque_nm", Holds::number, "N m", NumberRange{5, 5000}, "scaled from the engine",
     ""},
    {"cranking", "starter_torque_spread", Holds::number, "", NumberRange{0, 0.5}, "0.1", ""},
    {"cranking", "starter_speed_rpm", Holds::number, "rpm", NumberRange{50, 1000}, "250", ""},
    {"cranking", "battery_strength", Holds::number, "", NumberRange{0.3, 1.2}, "1", ""},
    {"cranking", "engage_delay_s", Holds::number, "s", NumberRange{0, 0.5}, "0.04", ""},
    {"cranking", "engage_delay_spread_s", Holds::number, "s", NumberRange{0, 0.2}, "0.008", ""},
    {"cranking", "release_delay_s", Holds::number, "s", NumberRange{0, 0.5}, "0.02", ""},
    {"cranking", "press_spread", Holds::number, "", NumberRange{0, 0.5}, "0.12", ""},
    {"cranking", "inertia_kgm2", Holds::number, "kg m2", NumberRange{0.001, 50}, "scaled from the engine",
     ""},
    {"cranking", "inertia_spread", Holds::number, "", NumberRange{0, 0.5}, "0.1", ""},
    {"cranking", "friction_bar", Holds::number, "bar", NumberRange{0.05, 10}, "0.97", ""},
    {"cranking", "friction_spread", Holds::number, "", NumberRange{0, 0.8}, "0.25", ""},
    {"cranking", "friction_bar_per_krpm", Holds::number, "bar", NumberRange{0, 20}, "0.48", ""},
    {"cranking", "breakaway_ratio", Holds::number, "", NumberRange{1, 3}, "1.2", ""},
    {"cranking", "polytropic", Holds::number, "", NumberRange{1, 1.45}, "1.3", ""},
    {"cranking", "polytropic_spread", Holds::number, "", NumberRange{0, 0.1}, "0.03", ""},
    {"cranking", "leak_down_percent", Holds::number, "", NumberRange{0, 90}, "10", ""},
    {"cranking", "leak_spread", Holds::number, "", NumberRange{0, 1.5}, "0.6", ""},
    {"cranking", "ambient_bar", Holds::number, "bar", NumberRange{0.5, 1.2}, "1", ""},
};

std::string noun(Holds holds, bool entry) {
  const bool list = holds == Holds::integers || holds == Holds::numbers;
  const bool whole = holds == Holds::integers || holds == Holds::integer;
  if (list && !entry) return whole ? "a list of whole numbers" : "a list of numbers";
  return whole ? "a whole number" : "a number";
}

}  // namespace

std::span<const KeyInfo> known_keys() { return kKeys; }

std::string_view name_now(std::string_view old) {
  for (const auto& [was, now] : kOldNames)
    if (was == old) return now;
  return {};
}

const KeyInfo* find_key(std::string_view table, std::string_view key) {
  for (const KeyInfo& info : kKeys)
    if (info.table == table && info.key == key) return &info;
  return nullptr;
}

std::string expected_of(const KeyInfo& info, bool entry) {
  if (info.holds == Holds::texts && entry) return "a bank's name";
  if (!info.what.empty()) return std::string(info.what);
  std::string text = noun(info.holds, entry);
  if (!info.unit.empty()) text += fmt::format(" of {}", info.unit);
  if (info.range) text += fmt::format(", {} to {}", info.range->low, info.range->high);
  if (info.holds == Holds::number_or_unknown) text += ", or \"unknown\"";
  return text;
}

}  // namespace shutlane
