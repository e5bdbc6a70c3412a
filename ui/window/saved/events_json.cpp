#include "ui/window/saved/events_json.hpp"

#include <array>
#include <nlohmann/json.hpp>
#include <utility>

namespace shutlane {
namespace {

using nlohmann::json;

constexpr std::array kCauses{std::pair{Suspicion::missed_look, "missed_look"},
                             std::pair{Suspicion::wrong_port, "wrong_port"},
                             std::pair{Suspicion::moved, "moved"},
                             std::pair{Suspicion::phaser, "phaser"},
                             std::pair{Suspicion::crumb, "crumb"},
                             std::pair{Suspicion::chain, "chain"},
                             std::pair{Suspicion::engine_data, "engine_data"}};

std::string name_of(Suspicion what) {
  for (const auto& [suspicion, name] : kCauses)
    if (suspicion == what) return name;
  return "";
}

struct ToJson {
  json operator()(const LookedInto& e) const {
    return {{"look", e.cylinder},
            {"saw", e.saw == Saw::shut       ? "shut"
                    : e.saw == Saw::open     ? "open"
                    : e.saw == Saw::touching ? "touching"
                                             : "hidden"}};
  }
  json operator()(const LooksForgotten&) const { return {{"looks_forgotten", true}}; }
  json operator()(const CauseChosen& e) const {
    return {{"cause", name_of(e.what)}, {"port", e.cylinder}, {"bank", e.bank}};
  }
  json operator()(const BlastStarted& e) const { return {{"blast_started", e.cylinder}}; }
  json operator()(const BlastStopped&) const { return {{"blast_stopped", true}}; }
  json operator()(const PortDone& e) const { return {{"done", e.cylinder}}; }
  json operator()(const PortAgain& e) const { return {{"again", e.cylinder}}; }
  json operator()(const Reachable& e) const { return {{"reachable", e.cylinder}, {"is", e.reachable}}; }
  json operator()(const OnlyBank& e) const { return {{"only_bank", e.bank ? json(*e.bank) : json("all")}}; }
  json operator()(const MarkRead& e) const {
    return {{"mark_deg", e.at_deg}, {"plus_minus_deg", e.plus_minus_deg}};
  }
  json operator()(const LobeSeen& e) const {
    return {{"lobe", e.cylinder},
            {"points", e.points == Lobe::away       ? "away"
                       : e.points == Lobe::at_valve ? "at_valve"
                       : e.points == Lobe::hidden   ? "hidden"
                                                    : "unclear"}};
  }
  json operator()(const SuckedOut&) const { return {{"sucked_out", true}}; }
  json operator()(const InsideClean& e) const { return {{"inside_clean", e.cylinder}}; }
  json operator()(const PortsEmptied&) const { return {{"emptied", true}}; }
  json operator()(const PlugsCounted&) const { return {{"counted", true}}; }
  json operator()(const Turned& e) const {
    return {{"turned_min_deg", e.min_deg}, {"turned_max_deg", e.max_deg}};
  }
  json operator()(const TurnedTooFar&) const { return {{"turned_too_far", true}}; }
  json operator()(const Bumped& e) const {
    json j = {{"bumped", true}};
    if (e.press_s > 0) j["press_s"] = e.press_s;
    if (e.timed) j["timed"] = true;
    return j;
  }
  json operator()(const PressStarted& e) const { return {{"press_started", e.press_s}}; }
  json operator()(const CrankMoved&) const { return {{"crank_moved", true}}; }
  json operator()(const NoMark&) const { return {{"no_mark", true}}; }
  json operator()(const AbrasiveLeft& e) const { return {{"abrasive_left", e.cylinder}}; }
};

std::optional<Saw> saw_of(const std::string& word) {
  if (word == "shut") return Saw::shut;
  if (word == "open") return Saw::open;
  if (word == "hidden") return Saw::hidden;
  if (word == "touching") return Saw::touching;
  return {};
}

}  // namespace

json event_to_json(const JobEvent& event) { return std::visit(ToJson{}, event); }

std::optional<JobEvent> event_from_json(const json& j) {
  if (j.contains("look")) {
    const std::optional<Saw> saw = saw_of(j.at("saw").get<std::string>());
    if (!saw) return {};
    return LookedInto{j.at("look").get<int>(), *saw};
  }
  if (j.contains("looks_forgotten")) return LooksForgotten{};
  if (j.contains("cause")) {
    for (const auto& [suspicion, name] : kCauses)
      if (j.at("cause").get<std::string>() == name)
        return CauseChosen{suspicion, j.at("port").get<int>(), j.at("bank").get<size_t>()};
    return {};
  }
  if (j.contains("blast_started")) return BlastStarted{j.at("blast_started").get<int>()};
  if (j.contains("blast_stopped")) return BlastStopped{};
  if (j.contains("done")) return PortDone{j.at("done").get<int>()};
  if (j.contains("again")) return PortAgain{j.at("again").get<int>()};
  if (j.contains("reachable")) return Reachable{j.at("reachable").get<int>(), j.at("is").get<bool>()};
  if (j.contains("only_bank"))
    return j.at("only_bank").is_string() ? OnlyBank{} : OnlyBank{j.at("only_bank").get<size_t>()};
  if (j.contains("mark_deg"))
    return MarkRead{j.at("mark_deg").get<double>(), j.at("plus_minus_deg").get<double>()};
  if (j.contains("lobe")) {
    const std::string points = j.at("points").get<std::string>();
    if (points != "away" && points != "at_valve" && points != "unclear" && points != "hidden") return {};
    return LobeSeen{j.at("lobe").get<int>(), points == "away"       ? Lobe::away
                                             : points == "at_valve" ? Lobe::at_valve
                                             : points == "hidden"   ? Lobe::hidden
                                                                    : Lobe::unclear};
  }
  if (j.contains("sucked_out")) return SuckedOut{};
  if (j.contains("inside_clean")) return InsideClean{j.at("inside_clean").get<int>()};
  if (j.contains("emptied")) return PortsEmptied{};
  if (j.contains("counted")) return PlugsCounted{};
  if (j.contains("turned_min_deg"))
    return Turned{j.at("turned_min_deg").get<double>(), j.at("turned_max_deg").get<double>()};
  if (j.contains("turned_too_far")) return TurnedTooFar{};
  if (j.contains("bumped")) return Bumped{j.value("press_s", 0.0), j.value("timed", false)};
  if (j.contains("press_started")) return PressStarted{j.at("press_started").get<double>()};
  if (j.contains("crank_moved")) return CrankMoved{};
  if (j.contains("no_mark")) return NoMark{};
  if (j.contains("abrasive_left")) return AbrasiveLeft{j.at("abrasive_left").get<int>()};
  return {};
}

}  // namespace shutlane
