// What is wrong with an engine as stated: ranges first, then what the numbers say together.
#include <algorithm>
#include <cmath>
#include <set>

#include "sim/cycle/angle.hpp"
#include "sim/mechanism/engine.hpp"
#include "sim/mechanism/layout.hpp"
#include "sim/mechanism/ranges.hpp"
#include "sim/mechanism/text.hpp"
#include "sim/mechanism/valve_profile.hpp"

namespace shutlane {

namespace {

class EngineCheck {
 public:
  explicit EngineCheck(const EngineSpec& spec) : spec_(spec) {}

  std::vector<Mistake> run() {
    cylinder();
    check_layout(spec_, mistakes_);
    for (size_t i = 0; i < spec_.valves.size(); ++i) valve(i);
    every_bank_has_valves();
    number("tolerance.timing_deg", spec_.tolerance.timing_deg, ranges::timing_deg);
    if (spec_.tolerance.seat_deg) number("tolerance.seat_deg", *spec_.tolerance.seat_deg, ranges::seat_deg);
    for (const CrankingKey& key : kCrankingKeys) {
      const std::optional<double> value =
          key.value ? spec_.cranking.*key.value : spec_.cranking.*key.scaled_value;
      if (value) number(std::string("cranking.") + key.key, *value, {key.least, key.most});
    }
    return std::move(mistakes_);
  }

 private:
  void add(std::string key, std::string wrong, std::string expected) {
    mistakes_.push_back({std::move(key), std::move(wrong), std::move(expected)});
  }

  bool number(const std::string& key, double x, NumberRange range) {
    if (range.holds(x)) return true;
    add(key, short_number(x) + " is out of range",
        short_number(range.low) + " to " + short_number(range.high));
    return false;
  }

  void cylinder() {
    const CylinderSpec& c = spec_.cylinder;
    number("cylinder.bore_mm", c.bore_mm, ranges::bore_mm);
    number("cylinder.compression_ratio", c.compression_ratio, ranges::compression_ratio);
    bool good = number("cylinder.stroke_mm", c.stroke_mm, ranges::stroke_mm);
    good &= number("cylinder.rod_mm", c.rod_mm, ranges::rod_mm);
    good &= number("cylinder.bore_offset_mm", c.bore_offset_mm, ranges::bore_offset_mm);
    if (!good) return;
    if (reach("cylinder.bore_offset_mm", c.bore_offset_mm))
      for (size_t i = 0; i < spec_.layout.banks.size(); ++i)
        if (const auto& own = spec_.layout.banks[i].bore_offset_mm; own) {
          const std::string key = "layout.bank[" + std::to_string(i) + "].bore_offset_mm";
          if (number(key, *own, ranges::bore_offset_mm)) reach(key, *own);
        }
  }

  /// The rod must span half the stroke and the offset, or the crank cannot turn.
  bool reach(const std::string& offset_key, double offset_mm) {
    const CylinderSpec& c = spec_.cylinder;
    const double need_mm = c.stroke_mm / 2 + std::fabs(offset_mm);
    if (c.rod_mm > need_mm) return true;
    add(offset_mm == 0 ? "cylinder.rod_mm" : offset_key,
        "a rod of " + short_number(c.rod_mm) + " mm is too short for the crank to turn",
        "a rod longer than half the stroke and the bore offset together, " + short_number(need_mm) + " mm");
    return false;
  }

  void valve(size_t i) {
    const ValveSpec& v = spec_.valves[i];
    const std::string key = "valves[" + std::to_string(i) + "]";
    number(key + ".per_cylinder", v.per_cylinder, ranges::per_cylinder);
    phase(key, v);
    std::set<std::string> named;
    for (const std::string& bank : v.banks) {
      const auto& banks = spec_.layout.banks;
      if (std::none_of(banks.begin(), banks.end(), [&](const BankSpec& b) { return b.name == bank; }))
        add(key + ".banks", "there is no bank '" + bank + "'", "names of [[layout.bank]] entries");
      else if (!named.insert(bank).second)
        add(key + ".banks", "bank '" + bank + "' is named twice", "each bank once");
    }
    if (v.lift_law == LiftLaw::table)
      table(key, v);
    else
      events(key, v);
  }

  void phase(const std::string& key, const ValveSpec& v) {
    const auto [first_deg, second_deg] = v.phase_range_deg;
    bool good = number(key + ".phase_range_deg", first_deg, ranges::phase_deg);
    good &= number(key + ".phase_range_deg", second_deg, ranges::phase_deg);
    if (!good) return;
    if (first_deg > 0 || second_deg < 0)
      add(key + ".phase_range_deg",
          "runs from " + short_number(first_deg) + " to " + short_number(second_deg) + " and leaves out 0",
          "the first value at most 0, the second at least 0: degrees EARLIER than stated");
    else if (second_deg - first_deg > kPhaseSpan_deg)
      add(key + ".phase_range_deg", "spans " + short_number(second_deg - first_deg) + " degrees",
          "at most 120");
  }

  void events(const std::string& key, const ValveSpec& v) {
    const bool intake = v.kind == ValveKind::intake;
    const std::string opens = key + (intake ? ".opens_btdc_deg" : ".opens_bbdc_deg");
    const std::string closes = key + (intake ? ".closes_abdc_deg" : ".closes_atdc_deg");
    bool good = number(opens, v.opens_deg, ranges::event_deg);
    good &= number(closes, v.closes_deg, ranges::event_deg);
    good &= number(key + ".peak_lift_mm", v.peak_lift_mm, ranges::peak_lift_mm);
    good &= number(key + ".clearance_mm", v.clearance_mm, ranges::clearance_mm);
    const double at_mm = v.at_lift_mm.value_or(kUnknownAtLift_mm);
    good &= number(key + ".at_lift_mm", at_mm, ranges::at_lift_mm);
    if (!good) return;
    if (at_mm >= v.peak_lift_mm) {
      add(key + ".at_lift_mm",
          short_number(at_mm) + " mm" + (v.at_lift_mm ? "" : " (taken for \"unknown\")") +
              " is not below the peak lift",
          "less than peak_lift_mm, " + short_number(v.peak_lift_mm));
      return;
    }
    const double span_deg = v.opens_deg + 180 + v.closes_deg;
    if (span_deg < kSame_deg) {
      add(closes,
          "the events cross: the valve would close " + short_number(-span_deg) + " degrees before it opens",
          "closing after opening, more than " + short_number(-180 - v.opens_deg));
      return;
    }
    const double seat_span_deg = valve_profile(v).seat_span_deg();
    if (!(seat_span_deg < kCycle_deg - kSame_deg))
      add(v.at_lift_mm == 0.0 ? closes : key + ".at_lift_mm",
          "the valve would be off its seat for " + short_number(seat_span_deg) + " degrees of the cycle",
          "events and a lift for which it opens for less than 720");
  }

  void table(const std::string& key, const ValveSpec& v) {
    number(key + ".peak_at_deg", v.peak_at_deg, ranges::peak_at_deg);
    const std::string rows_key = key + ".lift_table";
    const std::vector<LiftRow>& rows = v.lift_table;
    if (rows.size() < kTableRows) {
      add(rows_key, "has " + std::to_string(rows.size()) + " rows",
          "at least 5 rows [degrees from peak, lift in mm]");
      return;
    }
    auto row_key = [&](size_t i) { return rows_key + "[" + std::to_string(i) + "]"; };
    const size_t before = mistakes_.size();
    for (size_t i = 0; i < rows.size(); ++i) {
      number(row_key(i), rows[i].from_peak_deg, ranges::table_angle_deg);
      number(row_key(i), rows[i].lift_mm, {0, ranges::peak_lift_mm.high});
    }
    if (mistakes_.size() != before) return;
    size_t peak = rows.size();
    for (size_t i = 0; i < rows.size(); ++i) {
      if (rows[i].from_peak_deg == 0) peak = i;
      if (i > 0 && !(rows[i].from_peak_deg > rows[i - 1].from_peak_deg))
        add(row_key(i),
            "the angle " + short_number(rows[i].from_peak_deg) + " does not rise over " +
                short_number(rows[i - 1].from_peak_deg),
            "strictly rising angles");
    }
    if (rows.back().from_peak_deg - rows.front().from_peak_deg >= kCycle_deg)
      add(rows_key,
          "spans " + short_number(rows.back().from_peak_deg - rows.front().from_peak_deg) + " degrees",
          "less than 720");
    for (const size_t end : {size_t{0}, rows.size() - 1})
      if (rows[end].lift_mm != 0)
        add(row_key(end), "the lift at the end of the table is " + short_number(rows[end].lift_mm) + " mm",
            "0 in the first and the last row");
    if (peak == rows.size()) {
      add(rows_key, "has no row at 0.0", "a row at 0.0 degrees with the greatest lift");
      return;
    }
    if (rows[peak].lift_mm < ranges::peak_lift_mm.low)
      add(row_key(peak), "the lift at the peak is " + short_number(rows[peak].lift_mm) + " mm",
          "at least 0.05");
    for (size_t i = 1; i < rows.size(); ++i) {
      if (i <= peak && rows[i].lift_mm < rows[i - 1].lift_mm)
        add(row_key(i), "the lift falls before the peak", "a lift that does not fall up to the row at 0.0");
      if (i > peak && rows[i].lift_mm > rows[i - 1].lift_mm)
        add(row_key(i), "the lift rises after the peak", "a lift that does not rise after the row at 0.0");
    }
  }

  void every_bank_has_valves() {
    for (const ValveKind kind : {ValveKind::intake, ValveKind::exhaust})
      for (const BankSpec& bank : spec_.layout.banks) {
        const bool some = std::any_of(spec_.valves.begin(), spec_.valves.end(), [&](const ValveSpec& v) {
          return v.kind == kind &&
                 (v.banks.empty() || std::find(v.banks.begin(), v.banks.end(), bank.name) != v.banks.end());
        });
        if (!some)
          add("valves",
              std::string("bank '") + bank.name + "' has no " +
                  (kind == ValveKind::intake ? "intake" : "exhaust") + " valves",
              "a [[valves]] entry of that kind for every bank");
      }
  }

  const EngineSpec& spec_;
  std::vector<Mistake> mistakes_;
};

}  // namespace

std::vector<Mistake> mistakes_in(const EngineSpec& spec) { return EngineCheck(spec).run(); }

std::vector<Mistake> doubts_about(const Engine& engine) {
  std::vector<Mistake> doubts;
  for (size_t i = 0; i < engine.trains.size(); ++i) {
    const ValveTrain& train = engine.trains[i];
    const std::string key = "valves[" + std::to_string(i) + "]";
    const double open_deg = train.profile.seat_span_deg();
    const bool intake = train.kind == ValveKind::intake;
    if (open_deg < 220)
      doubts.push_back(
          {key,
           std::string(intake ? "the intake" : "the exhaust") + " is open for only " +
               short_number(open_deg) + " degrees at the seat",
           "usually 220 to 300: were events at a lift entered as seat events? Then state at_lift_mm"});
    if (open_deg > 340)
      doubts.push_back({key, "the valve is off its seat for " + short_number(open_deg) + " degrees",
                        "usually 220 to 300, long-duration cams up to 330"});
    const double peak_mm = train.profile.peak_lift_mm();
    if (peak_mm > 0.2 * engine.spec.cylinder.bore_mm)
      doubts.push_back({key, "a lift of " + short_number(peak_mm) + " mm is more than a fifth of the bore",
                        "usually a tenth to an eighth of the bore"});
  }
  // Common practice, no source: the cylinders that face each other share a pin there, and fire unevenly.
  const LayoutSpec& layout = engine.spec.layout;
  const size_t n = engine.cylinders.size();
  const bool flat =
      layout.banks.size() == 2 &&
      std::fabs(turn_difference_deg(layout.banks[0].tilt_deg, layout.banks[1].tilt_deg)) > 179.5;
  if (layout.firing_intervals_deg.empty() && layout.crank_pins_deg.empty() && layout.banks.size() == 2 &&
      !flat && (n == 2 || n == 4))
    doubts.push_back({"layout.firing_order",
                      "even firing, every " + short_number(kCycle_deg / static_cast<double>(n)) +
                          " degrees, is assumed: neither firing_intervals_deg nor crank_pins_deg is stated",
                      "V twins and V4s mostly fire unevenly: state firing_intervals_deg"});
  for (const auto& [key, mm] : {std::pair{"cylinder.bore_mm", engine.spec.cylinder.bore_mm},
                                std::pair{"cylinder.stroke_mm", engine.spec.cylinder.stroke_mm}})
    if (mm < 25 || mm > 250)
      doubts.push_back({key, short_number(mm) + " mm", "road engines lie between 40 and 150: is it in mm?"});
  const double rod_ratio = engine.spec.cylinder.rod_mm / (engine.spec.cylinder.stroke_mm / 2);
  if (rod_ratio < 2.5 || rod_ratio > 5)
    doubts.push_back({"cylinder.rod_mm", "the rod is " + short_number(rod_ratio) + " times the crank radius",
                      "usually 2.8 to 4.5; is stroke_mm twice the crank radius?"});
  return doubts;
}

}  // namespace shutlane
