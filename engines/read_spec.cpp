// From text to spec: the top of the file and the small tables.
#include <fmt/format.h>

#include <array>
#include <optional>

#include "engines/guard.hpp"
#include "engines/reading.hpp"
#include "engines/syntax_words.hpp"
#include "engines/words.hpp"

namespace shutlane {
namespace {

using Version = std::array<int, 3>;

/// "0.3" or "1.2.10"; nothing else.
std::optional<Version> version_of(std::string_view text) {
  Version version{0, 0, 0};
  size_t part = 0, digits = 0;
  for (const char c : text) {
    if (c == '.' && digits > 0 && part < 2) {
      ++part;
      digits = 0;
    } else if (c >= '0' && c <= '9' && digits < 6) {
      version[part] = version[part] * 10 + (c - '0');
      ++digits;
    } else {
      return std::nullopt;
    }
  }
  return digits > 0 ? std::optional(version) : std::nullopt;
}

void read_needs(Section& top, std::string& needs) {
  if (!top.read("needs", needs, kTextLength)) return;
  const std::optional<Version> version = version_of(needs);
  if (!version)
    top.flaw("needs", "is " + shown_value(*top.raw().get("needs")));
  else if (*version > *version_of(SHUTLANE_VERSION))
    top.flaw("needs", "is " + needs + ", newer than this program",
             "shutlane " + needs + " or later, this is " SHUTLANE_VERSION);
}

void read_cylinder(Section& cylinder, CylinderSpec& spec) {
  cylinder.read("bore_mm", spec.bore_mm);
  cylinder.read("stroke_mm", spec.stroke_mm);
  cylinder.read("rod_mm", spec.rod_mm);
  cylinder.read("bore_offset_mm", spec.bore_offset_mm);
  cylinder.read("compression_ratio", spec.compression_ratio);
  cylinder.note_unknown_keys();
}

void read_tolerance(Section& tolerance, ToleranceSpec& spec) {
  tolerance.read("timing_deg", spec.timing_deg);
  if (double seat_deg = 0; tolerance.read("seat_deg", seat_deg)) spec.seat_deg = seat_deg;
  tolerance.note_unknown_keys();
}

void read_cranking(Section& cranking, CrankingSpec& spec) {
  if (std::string starter = "normal"; cranking.read("starter", starter, kTextLength)) {
    if (starter == "none")
      spec.starter = StarterKind::none;
    else if (starter != "normal")
      cranking.flaw("starter", "is " + shown_value(*cranking.raw().get("starter")));
  }
  for (const CrankingKey& key : kCrankingKeys) {
    double value = 0;
    if (!cranking.read(key.key, value)) continue;
    if (key.value)
      spec.*key.value = value;
    else
      spec.*key.scaled_value = value;
  }
  cranking.note_unknown_keys();
}

/// The table of a key as a section, when there is one.
std::optional<Section> inside(Section& top, const char* key) {
  const toml::table* table = top.table(key);
  return table ? std::optional<Section>(std::in_place, *table, key, key, top.findings()) : std::nullopt;
}

void read_top(Section& top, EngineSpec& spec) {
  int format = 0;
  top.read("format", format);
  top.read("name", spec.name, kTextLength);
  top.read("source", spec.source, kSourceLength);
  read_needs(top, spec.needs);
  if (auto cylinder = inside(top, "cylinder")) read_cylinder(*cylinder, spec.cylinder);
  if (auto layout = inside(top, "layout")) read_layout(*layout, spec.layout);
  const auto valves = top.tables("valves");
  for (size_t i = 0; i < valves.size(); ++i) {
    spec.valves.emplace_back();
    if (!valves[i]) continue;
    Section valve(*valves[i], fmt::format("valves[{}]", i), "valves", top.findings());
    spec.valves.back() = read_valve(valve);
  }
  if (auto tolerance = inside(top, "tolerance")) read_tolerance(*tolerance, spec.tolerance);
  if (auto cranking = inside(top, "cranking")) read_cranking(*cranking, spec.cranking);
  top.note_unknown_keys();
}

}  // namespace

Reading read_spec(std::string_view text) {
  Reading reading;
  if (const auto mistake = unfit(text)) {
    reading.findings.flaw(mistake->mistake.key, mistake->line, mistake->mistake.wrong,
                          mistake->mistake.expected);
    return reading;
  }
  try {
    const toml::table root = toml::parse(text);
    Section top(root, "", "", reading.findings);
    read_top(top, reading.spec);
  } catch (const toml::parse_error& error) {
    const SyntaxWords said = syntax_words(error.description());
    reading.findings.flaw("syntax", std::max(1, static_cast<int>(error.source().begin.line)), said.wrong,
                          said.expected);
  }
  return reading;
}

}  // namespace shutlane
