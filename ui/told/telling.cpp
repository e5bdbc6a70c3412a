#include "ui/told/telling.hpp"

#include <algorithm>

#include "ui/told/event_words.hpp"

namespace shutlane {
namespace {

using Json = nlohmann::ordered_json;

struct NamedTurning {
  const char* word;
  Turning turning;
};
constexpr NamedTurning kTurnings[] = {{"wrench", {TurnBy::wrench, false}},
                                      {"bar", {TurnBy::bar, false}},
                                      {"wheel", {TurnBy::road_wheel, false}},
                                      {"starter", {TurnBy::starter, false}},
                                      {"both", {TurnBy::starter, true}}};

bool begins_with(std::span<const JobEvent> events, const std::vector<JobEvent>& tells) {
  return tells.size() <= events.size() && std::equal(tells.begin(), tells.end(), events.begin());
}

/// How many of the next events one button of the advice tells: the most that any of them does, at least one.
size_t told_by_one_press(const Advice& advice, std::span<const JobEvent> events) {
  size_t most = 1;
  for (const Press& press : advice.told())
    if (begins_with(events, press.tells)) most = std::max(most, press.tells.size());
  return most;
}

const char* saw_name(Saw saw) {
  switch (saw) {
    case Saw::shut:
      return "shut";
    case Saw::open:
      return "open";
    case Saw::touching:
      return "touching";
    case Saw::hidden:
      return "hidden";
  }
  return "";
}

const char* reckoned_name(Reckoned reckoned) {
  return reckoned == Reckoned::shut ? "shut" : reckoned == Reckoned::open ? "open" : "unknown";
}

Json arcs(const ArcSet& set) {
  Json list = Json::array();
  for (const Arc& arc : set.arcs())
    list.push_back({{"from_deg", arc.from_deg}, {"length_deg", arc.length_deg}});
  return list;
}

Json turn_of(const Advice& advice) {
  if ((advice.stage != Stage::turn && advice.stage != Stage::mark) || !advice.move) return nullptr;
  if (advice.move->anywhere) return {{"aim_deg", nullptr}, {"min_deg", 0}, {"max_deg", kTurn_deg}};
  const ToldTurn& turn = advice.move->turn;
  return {{"aim_deg", turn.aim_deg}, {"min_deg", turn.min_deg}, {"max_deg", turn.max_deg}};
}

Json answers_of(const Advice& advice) {
  Json list = Json::array();
  for (const Press& press : advice.told()) {
    Json tell = Json::array();
    for (const JobEvent& event : press.tells) tell.push_back(event_word(event));
    list.push_back({{"says", press.label}, {"tell", std::move(tell)}});
  }
  return list;
}

}  // namespace

std::optional<Turning> turning_of_word(std::string_view word) {
  for (const NamedTurning& known : kTurnings)
    if (word == known.word) return known.turning;
  return {};
}

std::string turning_word(const Turning& turning) {
  for (const NamedTurning& known : kTurnings)
    if (turning == known.turning) return known.word;
  return "wrench";
}

JobRules usual_rules(const Engine& engine, const Turning& turning) {
  JobRules rules;
  rules.turn_by = turning.by;
  rules.wrench_too = turning.wrench_too;
  rules.accuracy_deg = usual_accuracy_deg(turning.by, engine.cylinders.size());
  return rules;
}

std::string step_name(Stage stage) {
  switch (stage) {
    case Stage::inside:
      return "inside";
    case Stage::disagreement:
      return "disagreement";
    case Stage::blasting:
      return "blasting";
    case Stage::blast:
      return "blast";
    case Stage::look:
    case Stage::look_again:
    case Stage::picked:
      return "look";
    case Stage::lobe:
      return "lobe";
    case Stage::chalk:
      return "chalk";
    case Stage::mark:
      return "mark";
    case Stage::missing:
    case Stage::clear:
      return "clear";
    case Stage::turn:
      return "turn";
    case Stage::bump:
      return "bump";
    case Stage::unseen:
      return "unseen";
    case Stage::finished:
      return "finished";
  }
  return "";
}

std::variant<Telling, Refusal> tell_all(const JobModel& model, std::span<const JobEvent> events) {
  Telling told{start_job(model), 0};
  size_t of_this_press = 0;
  for (size_t i = 0; i < events.size(); ++i) {
    if (of_this_press == 0) {
      of_this_press = told_by_one_press(advise(model, told.state), events.subspan(i));
      ++told.presses;
    }
    --of_this_press;
    if (!may(model, told.state, events[i])) return Refusal{i, why_refused(model, told.state, events[i])};
    told.state = after(model, std::move(told.state), events[i]);
  }
  return told;
}

Json next_document(const std::string& engine, const JobModel& model, const Telling& told,
                   const Advice& advice, std::optional<double> press_s) {
  const JobState& state = told.state;
  const Reckoning reckoned = reckoning(model, state);
  const auto or_null = [](auto value) { return value ? Json(*value) : Json(nullptr); };
  Json ports = Json::array(), done = Json::array(), left = Json::array();
  for (size_t i = 0; i < state.ports.size(); ++i) {
    const JobPort& port = state.ports[i];
    const auto waits = waits_for(model, state, reckoned, port.cylinder);
    ports.push_back({{"cylinder", port.cylinder},
                     {"seen", port.seen ? Json(saw_name(*port.seen)) : Json(nullptr)},
                     {"reckoned", reckoned_name(reckoned.ports[i])},
                     {"may_blast", may_blast(model, state, port.cylinder)},
                     {"waits_for", waits ? Json(waits_for_word(*waits)) : Json(nullptr)}});
    if (port.done) done.push_back(port.cylinder);
    if (port.left()) left.push_back(port.cylinder);
  }
  const JobCost& cost = state.cost;
  return {{"engine", engine},
          {"by", turning_word({model.rules.turn_by, model.rules.wrench_too})},
          {"step", step_name(advice.stage)},
          {"port", advice.port ? Json(advice.port) : Json(nullptr)},
          {"sentence", advice.sentence},
          {"second", advice.second},
          {"answers", answers_of(advice)},
          {"turn", turn_of(advice)},
          {"press_s", advice.stage == Stage::bump ? or_null(press_s) : Json(nullptr)},
          {"where", arcs(advice.where)},
          {"blasting", or_null(state.blasting)},
          {"done", std::move(done)},
          {"left", std::move(left)},
          {"ports", std::move(ports)},
          {"counted",
           {{"looks", cost.looks},
            {"looks_into_open_ports_after_blasting", cost.looks_into_open_ports_after_blasting},
            {"moves", cost.moves},
            {"presses", told.presses}}},
          {"finished", advice.stage == Stage::finished}};
}

}  // namespace shutlane
