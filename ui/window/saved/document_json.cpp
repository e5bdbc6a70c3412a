#include <cmath>
#include <nlohmann/json.hpp>

#include "engines/reader.hpp"
#include "ui/told/event_words.hpp"
#include "ui/window/saved/state_file.hpp"

namespace shutlane {
namespace {

using nlohmann::json;

constexpr int kFormat = 2;
constexpr const char* kTurnBy[] = {"wrench", "bar", "road wheel", "starter"};
constexpr const char* kBench[] = {"work", "teach", "explore"};

template <class Enum, size_t N>
Enum named(const json& j, const char* const (&names)[N]) {
  const std::string word = j.get<std::string>();
  for (size_t i = 0; i < N; ++i)
    if (word == names[i]) return static_cast<Enum>(i);
  throw std::runtime_error("an unknown word: " + word.substr(0, 40));
}

double within(const json& j, double least, double most) {
  const double value = j.get<double>();
  if (!(value >= least && value <= most)) throw std::runtime_error("a number outside its range");
  return value;
}

json rules_to_json(const JobRules& r) {
  return {{"margin_deg", r.margin_deg}, {"accuracy_deg", r.accuracy_deg},
          {"eye_mm", r.eye_mm},         {"lobes_visible", r.lobes_visible},
          {"wrench_too", r.wrench_too}, {"turn_by", kTurnBy[static_cast<size_t>(r.turn_by)]}};
}

JobRules rules_from_json(const json& j) {
  return {within(j.at("margin_deg"), 0, 360),
          within(j.at("accuracy_deg"), 0, 360),
          within(j.at("eye_mm"), 0, 3),
          named<TurnBy>(j.at("turn_by"), kTurnBy),
          kMostOpen,
          kMostHarmed,
          j.value("lobes_visible", true),
          j.value("wrench_too", false)};
}

json preferences_to_json(const Preferences& p) {
  return {{"theme", p.theme == Theme::dark ? "dark" : "light"},
          {"scale", p.scale},
          {"dpi", p.dpi},
          {"measures", p.measures == Measures::us ? "us" : "metric"},
          {"turned_round", p.turned_round},
          {"engines_without_mark", p.engines_without_mark}};
}

Preferences preferences_from_json(const json& j) {
  Preferences p;
  p.theme = j.at("theme").get<std::string>() == "light" ? Theme::light : Theme::dark;
  p.scale = within(j.at("scale"), 0.5, 4);
  p.dpi = within(j.at("dpi"), 0, 1000);
  p.measures = j.at("measures").get<std::string>() == "us" ? Measures::us : Measures::metric;
  p.turned_round = j.at("turned_round").get<bool>();
  p.engines_without_mark = j.value("engines_without_mark", std::vector<std::string>{});
  return p;
}

Document document_of(const json& j) {
  if (j.at("format").get<int>() != kFormat) throw std::runtime_error("another format");
  Document d;
  d.engine_name = j.at("engine_name").get<std::string>();
  const std::string text = j.at("engine").get<std::string>();
  if (!text.empty()) {
    // The engine itself is kept, not only its name: its file may be gone.
    auto engine = read_engine(text);
    if (!std::holds_alternative<Engine>(engine)) throw std::runtime_error("an engine with mistakes");
    d.engine = std::make_shared<const Engine>(std::get<Engine>(std::move(engine)));
  }
  d.demo = j.at("demo").get<bool>();
  d.rules = rules_from_json(j.at("rules"));
  d.margin_reason = j.at("margin_reason").get<std::string>();
  for (const json& logged : j.at("events")) {
    const auto event = event_of_word(logged.at("told").get<std::string>());
    if (!std::holds_alternative<JobEvent>(event)) throw std::runtime_error("an unknown event");
    d.events.push_back({std::get<JobEvent>(event), logged.at("at_s").get<double>()});
  }
  d.bench = named<Bench>(j.at("bench"), kBench);
  d.preferences = preferences_from_json(j.at("preferences"));
  return d;
}

}  // namespace

std::string to_json(const Document& d) {
  json events = json::array();
  for (const LoggedEvent& logged : d.events)
    events.push_back({{"told", event_word(logged.event)}, {"at_s", logged.at_s}});
  const json j{{"format", kFormat},
               {"engine_name", d.engine_name},
               {"engine", d.engine ? write_engine(d.engine->spec) : ""},
               {"demo", d.demo},
               {"rules", rules_to_json(d.rules)},
               {"margin_reason", d.margin_reason},
               {"events", events},
               {"bench", kBench[static_cast<size_t>(d.bench)]},
               {"preferences", preferences_to_json(d.preferences)}};
  return j.dump(1, ' ', false, json::error_handler_t::replace) + "\n";
}

std::variant<Document, std::string> from_json(const std::string& text) {
  try {
    return document_of(json::parse(text));
  } catch (const std::exception& e) {
    return std::string(e.what());
  }
}

}  // namespace shutlane
