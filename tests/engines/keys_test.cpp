// The key table against what is told (README.md) and what is checked (sim/mechanism).
#include "engines/keys.hpp"

#include <cmath>
#include <fstream>
#include <limits>
#include <sstream>

#include "tests/engines/sample.hpp"

namespace shutlane::test {
namespace {

std::string readme() {
  std::ifstream in(SHUTLANE_ENGINES_FOLDER "/README.md");
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

std::string short_form(double x) {
  std::ostringstream out;
  out << x;
  return out.str();
}

std::string heading_of(const KeyInfo& info) {
  if (info.table.empty()) return "### Top of the file\n";
  const bool many = info.table == "valves" || info.table == "layout.bank";
  const std::string name(info.table);
  return "### " + (many ? "[[" + name + "]]" : "[" + name + "]") + "\n";
}

/// The cells of the key's row in its table of README.md; empty when there is none.
std::vector<std::string> row_of(const std::string& page, const KeyInfo& info) {
  const size_t section = page.find(heading_of(info));
  if (section == std::string::npos) return {};
  const std::string part = page.substr(section, page.find("\n### ", section + 4) - section);
  const std::string below = info.table.empty() ? "" : std::string(info.table) + ".";
  const std::string key(info.key);
  for (const std::string& shown : {"`" + key + "`", "`[" + below + key + "]`", "`[[" + below + key + "]]`"}) {
    const size_t at = part.find("\n| " + shown + " |");
    if (at == std::string::npos) continue;
    std::istringstream line(part.substr(at + 3, part.find('\n', at + 1) - at - 3));
    std::vector<std::string> cells;
    for (std::string cell; std::getline(line, cell, '|');) {
      const size_t first = cell.find_first_not_of(' ');
      cells.push_back(
          first == std::string::npos ? "" : cell.substr(first, cell.find_last_not_of(' ') - first + 1));
    }
    return cells;
  }
  return {};
}

TEST(Keys, ReadmeListsEachWithUnitRangeAndDefault) {
  const std::string page = readme();
  ASSERT_FALSE(page.empty());
  for (const KeyInfo& info : known_keys()) {
    SCOPED_TRACE(std::string(info.table) + "." + std::string(info.key));
    const auto cells = row_of(page, info);
    ASSERT_EQ(cells.size(), 5u);
    if (info.holds != Holds::rows) {
      EXPECT_EQ(cells[1], info.unit);
    }
    if (info.range) {
      EXPECT_EQ(cells[2], short_form(info.range->low) + " to " + short_form(info.range->high));
    } else {
      EXPECT_NE(cells[2], "");
    }
    EXPECT_EQ(cells[3], info.required() ? "required" : std::string(info.fallback));
    EXPECT_NE(cells[4], "");
  }
}

TEST(Keys, ReadmeShowsMessagesThatTheReaderGives) {
  const std::string page = readme();
  for (const std::string& line :
       {lines_of(with_line(6, "stroke_mm = nan")),
        lines_of(with_line(8, "compression_ratio = 10\nrood_mm = 3")), lines_of(with_line(27, ""))}) {
    const std::string message = line.substr(line.find(": ") + 2);
    EXPECT_NE(page.find(message), std::string::npos) << message;
  }
}

EngineSpec sample_spec() { return std::get<Engine>(read_engine(kSample)).spec; }

bool set_cranking(CrankingSpec& spec, std::string_view name, double x) {
  for (const CrankingKey& key : kCrankingKeys) {
    if (key.key != name) continue;
    if (key.value)
      spec.*key.value = x;
    else
      spec.*key.scaled_value = x;
    return true;
  }
  return false;
}

/// Sets the number of a key in a spec; false where the key holds none.
bool set_number(EngineSpec& spec, const KeyInfo& info, double x) {
  const std::string key = (info.table.empty() ? "" : std::string(info.table) + ".") + std::string(info.key);
  ValveSpec& intake = spec.valves[0];
  ValveSpec& exhaust = spec.valves[1];
  if (key == "cylinder.bore_mm")
    spec.cylinder.bore_mm = x;
  else if (key == "cylinder.stroke_mm")
    spec.cylinder.stroke_mm = x;
  else if (key == "cylinder.rod_mm")
    spec.cylinder.rod_mm = x;
  else if (key == "cylinder.bore_offset_mm")
    spec.cylinder.bore_offset_mm = x;
  else if (key == "cylinder.compression_ratio")
    spec.cylinder.compression_ratio = x;
  else if (key == "layout.firing_intervals_deg")
    spec.layout.firing_intervals_deg[1] = x;
  else if (key == "layout.bank.tilt_deg")
    spec.layout.banks[0].tilt_deg = x;
  else if (key == "layout.bank.bore_offset_mm")
    spec.layout.banks[0].bore_offset_mm = x;
  else if (key == "layout.crank_pins_deg.NUMBER")
    spec.layout.crank_pins_deg[2] = x;
  else if (key == "valves.per_cylinder")
    intake.per_cylinder = static_cast<int>(std::lround(x));
  else if (key == "valves.opens_btdc_deg")
    intake.opens_deg = x;
  else if (key == "valves.closes_abdc_deg")
    intake.closes_deg = x;
  else if (key == "valves.opens_bbdc_deg") {
    exhaust.lift_law.reset();
    exhaust.opens_deg = x;
  } else if (key == "valves.closes_atdc_deg") {
    exhaust.lift_law.reset();
    exhaust.closes_deg = x;
  } else if (key == "valves.at_lift_mm")
    intake.at_lift_mm = x;
  else if (key == "valves.peak_lift_mm")
    intake.peak_lift_mm = x;
  else if (key == "valves.clearance_mm")
    intake.clearance_mm = x;
  else if (key == "valves.phase_range_deg")
    intake.phase_range_deg[x < 0 ? 0 : 1] = x;
  else if (key == "valves.peak_at_deg")
    exhaust.peak_at_deg = x;
  else if (key == "tolerance.timing_deg")
    spec.tolerance.timing_deg = x;
  else if (key == "tolerance.seat_deg")
    spec.tolerance.seat_deg = x;
  else if (info.table == "cranking")
    return set_cranking(spec.cranking, info.key, x);
  else
    return false;
  return true;
}

/// Whether the checks of sim call this very value out of range.
bool out_of_range(const KeyInfo& info, double x) {
  EngineSpec spec = sample_spec();
  spec.valves[1].peak_lift_mm = 9;
  set_number(spec, info, x);
  const std::string name = info.key == kCylinderKey ? "crank_pins_deg.2" : std::string(info.key);
  for (const Mistake& mistake : mistakes_in(spec))
    if (mistake.key.ends_with(name) && mistake.wrong.ends_with("is out of range")) return true;
  return false;
}

// The reader checks ranges from the key table, where it knows the line of every entry; sim checks them for
// any spec. The two must be one.
TEST(Keys, RangesAreThoseThatSimChecks) {
  int checked = 0;
  for (const KeyInfo& info : known_keys()) {
    EngineSpec probe = sample_spec();
    if (!info.range || !set_number(probe, info, 1)) continue;
    SCOPED_TRACE(std::string(info.table) + "." + std::string(info.key));
    const double past = info.holds == Holds::integer ? 1.0 : 1e-3;
    EXPECT_FALSE(out_of_range(info, info.range->low));
    EXPECT_FALSE(out_of_range(info, info.range->high));
    EXPECT_TRUE(out_of_range(info, info.range->low - past));
    EXPECT_TRUE(out_of_range(info, info.range->high + past));
    if (info.holds != Holds::integer) {
      EXPECT_TRUE(out_of_range(info, std::numeric_limits<double>::quiet_NaN()));
    }
    ++checked;
  }
  EXPECT_EQ(checked, 40);  // all but format, the cylinder numbers and the rows of a lift table
}

// The defaults that the page and the messages tell are those of a spec that states nothing.
TEST(Keys, CrankingDefaultsAreThoseOfTheSpec) {
  const CrankingSpec usual;
  for (const CrankingKey& row : kCrankingKeys) {
    const KeyInfo* info = find_key("cranking", row.key);
    ASSERT_NE(info, nullptr) << row.key;
    EXPECT_EQ(info->fallback, row.value ? short_form(usual.*row.value) : "scaled from the engine") << row.key;
    EXPECT_NE(row.value == nullptr, row.scaled_value == nullptr) << row.key;
  }
}

}  // namespace
}  // namespace shutlane::test
