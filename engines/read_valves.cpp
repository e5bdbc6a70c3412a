// One [[valves]] entry: its keys depend on its kind and on whether the lift is a law or a table.
#include <fmt/format.h>

#include <array>
#include <utility>

#include "engines/reading.hpp"

namespace shutlane {
namespace {

constexpr std::array<std::pair<std::string_view, LiftLaw>, 5> kLaws{
    {{"polynomial-345", LiftLaw::polynomial_345},
     {"polynomial-4567", LiftLaw::polynomial_4567},
     {"cycloidal", LiftLaw::cycloidal},
     {"harmonic", LiftLaw::harmonic},
     {"table", LiftLaw::table}}};

class ValveReader {
 public:
  explicit ValveReader(Section& section) : section_(section) {}

  ValveSpec read() {
    kind();
    law();
    section_.read("per_cylinder", spec_.per_cylinder);
    if (by_table_)
      table();
    else
      events();
    phase();
    section_.read("banks", spec_.banks);
    note_keys_that_do_not_apply();
    section_.note_unknown_keys();
    return std::move(spec_);
  }

 private:
  void kind() {
    std::string word;
    if (section_.read("kind", word, kTextLength)) {
      kind_known_ = word == "intake" || word == "exhaust";
      if (!kind_known_) section_.flaw("kind", "is " + shown_value(*section_.raw().get("kind")));
    }
    // Without a kind the keys tell what was meant, so that their values are still looked at.
    const bool exhaust =
        kind_known_ ? word == "exhaust" : section_.has("opens_bbdc_deg") || section_.has("closes_atdc_deg");
    spec_.kind = exhaust ? ValveKind::exhaust : ValveKind::intake;
  }

  void law() {
    std::string word;
    if (section_.read("lift_law", word, kTextLength)) {
      law_known_ = word == "unknown";
      for (const auto& [name, law] : kLaws)
        if (word == name) {
          spec_.lift_law = law;
          law_known_ = true;
        }
      if (!law_known_) section_.flaw("lift_law", "is " + shown_value(*section_.raw().get("lift_law")));
    }
    by_table_ = law_known_ ? spec_.lift_law == LiftLaw::table : section_.has("lift_table");
    if (by_table_) spec_.lift_law = LiftLaw::table;
  }

  void table() {
    section_.read_rows("lift_table", spec_.lift_table);
    section_.read("peak_at_deg", spec_.peak_at_deg);
  }

  void events() {
    const bool exhaust = spec_.kind == ValveKind::exhaust;
    const char* opens = exhaust ? "opens_bbdc_deg" : "opens_btdc_deg";
    const char* closes = exhaust ? "closes_atdc_deg" : "closes_abdc_deg";
    // Which event is missing can only be said where the kind is known.
    if (kind_known_ || section_.has(opens)) section_.read(opens, spec_.opens_deg);
    if (kind_known_ || section_.has(closes)) section_.read(closes, spec_.closes_deg);
    at_lift();
    section_.read("peak_lift_mm", spec_.peak_lift_mm);
    section_.read("clearance_mm", spec_.clearance_mm);
  }

  void at_lift() {
    const toml::node* node = section_.find("at_lift_mm");
    if (!node) return;
    if (node->is_string() && node->as_string()->get() == "unknown") {
      spec_.at_lift_mm = std::nullopt;
    } else if (double lift_mm = 0; section_.number(*node, section_.path_of("at_lift_mm"),
                                                   *find_key("valves", "at_lift_mm"), lift_mm)) {
      spec_.at_lift_mm = lift_mm;
    }
  }

  void phase() {
    std::vector<double> range_deg;
    if (!section_.read("phase_range_deg", range_deg)) return;
    if (range_deg.size() == 2)
      spec_.phase_range_deg = {range_deg[0], range_deg[1]};
    else
      section_.flaw("phase_range_deg", fmt::format("is a list of {}", range_deg.size()));
  }

  void note_keys_that_do_not_apply() {
    for (const KeyInfo& info : known_keys()) {
      if (info.table != "valves" || !section_.has(info.key)) continue;
      const bool of_a_table = info.applies == Applies::table;
      const bool of_a_law = !of_a_table && info.applies != Applies::always;
      if (of_a_law && by_table_ && law_known_)
        section_.flaw(info.key, "is replaced by the lift table", "no such key where lift_law = \"table\"");
      else if (of_a_table && !by_table_ && law_known_)
        section_.flaw(info.key, "stands without lift_law = \"table\"",
                      "this key only where lift_law = \"table\"");
      else if (info.applies == Applies::intake_events && kind_known_ && spec_.kind == ValveKind::exhaust)
        wrong_kind(info.key, "intake", "exhaust");
      else if (info.applies == Applies::exhaust_events && kind_known_ && spec_.kind == ValveKind::intake)
        wrong_kind(info.key, "exhaust", "intake");
    }
  }

  void wrong_kind(std::string_view key, std::string_view its_kind, std::string_view kind) {
    const std::string_view instead = key == "opens_btdc_deg"    ? "opens_bbdc_deg"
                                     : key == "opens_bbdc_deg"  ? "opens_btdc_deg"
                                     : key == "closes_abdc_deg" ? "closes_atdc_deg"
                                                                : "closes_abdc_deg";
    section_.flaw(key,
                  fmt::format("is a key of {} valves, unknown in an entry of kind = \"{}\"", its_kind, kind),
                  fmt::format("the nearest known key is {}", instead));
  }

  Section& section_;
  ValveSpec spec_;
  bool kind_known_ = false, law_known_ = false, by_table_ = false;
};

}  // namespace

ValveSpec read_valve(Section& valve) { return ValveReader(valve).read(); }

}  // namespace shutlane
