#include "ui/terminal/understood.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "ui/drawings/events.hpp"
#include "ui/drawings/words.hpp"
#include "ui/terminal/figures.hpp"
#include "ui/terminal/page.hpp"
#include "ui/terminal/plan_words.hpp"
#include "ui/terminal/read_options.hpp"

namespace shutlane::terminal {
namespace {

std::string rotation_word(const Engine& engine) {
  return engine.spec.layout.rotation == Rotation::clockwise ? "clockwise" : "anticlockwise";
}

std::string leaning(double tilt_deg) {
  if (tilt_deg == 0) return "upright";
  return fmt::format("leans {} degrees to the {}", degrees(std::abs(tilt_deg)),
                     tilt_deg > 0 ? "right" : "left");
}

/// "left (1 2 3 4) leans 45 degrees to the left; right (5 6 7 8) leans 45 degrees to the right: 90 between
/// them"
std::string banks_in_words(const Engine& engine) {
  constexpr size_t kNameShown = 30;
  const std::vector<BankSpec>& banks = engine.spec.layout.banks;
  std::string out;
  for (const BankSpec& bank : banks)
    out +=
        fmt::format("{}{} (cylinders {}) {}", out.empty() ? "" : "; ", harmless(cut(bank.name, kNameShown)),
                    list_in_words(bank.cylinders), leaning(bank.tilt_deg));
  if (banks.size() == 2)
    out += fmt::format(": {} degrees between them", degrees(std::abs(banks[1].tilt_deg - banks[0].tilt_deg)));
  return out + ", seen from the pulley end.";
}

std::string firing_in_words(const Engine& engine) {
  std::string out;
  for (const size_t i : engine.firing)
    out += fmt::format("{}{} at {}", out.empty() ? "" : ", ", engine.cylinders[i].number,
                       degrees(engine.cylinders[i].firing_tdc_deg));
  return out + " degrees.";
}

/// One cylinder for each set of valves that an engine has, in number order.
std::vector<const Cylinder*> unlike_cylinders(const Engine& engine) {
  std::set<std::pair<std::vector<size_t>, std::vector<size_t>>> seen;
  std::vector<const Cylinder*> out;
  for (const Cylinder& c : engine.cylinders)
    if (seen.insert({c.intake, c.exhaust}).second) out.push_back(&c);
  return out;
}

double worst_deg(const ValveEvent& e) { return e.opens ? e.earliest_deg : e.latest_deg; }

/// "off its seat from 12 degrees before overlap TDC to 48 degrees after BDC; at worst from 15 ... to 51 ..."
std::string opening_in_words(const ValveEvent& opens, const ValveEvent& closes) {
  return spelt_out(fmt::format("off its seat from {} to {}; at worst from {} to {}.",
                               event_angle(opens, opens.seat_deg), event_angle(closes, closes.seat_deg),
                               event_angle(opens, worst_deg(opens)), event_angle(closes, worst_deg(closes))));
}

std::vector<std::string> assumed(const Engine& engine) {
  std::vector<std::string> out;
  const auto add = [&](std::string text) {
    if (std::find(out.begin(), out.end(), text) == out.end()) out.push_back(std::move(text));
  };
  const LayoutSpec& layout = engine.spec.layout;
  if (layout.firing_intervals_deg.empty() && layout.crank_pins_deg.empty() && engine.cylinders.size() > 1)
    add(fmt::format("even firing, every {} degrees, for the file states neither intervals nor crank pins",
                    degrees(kCycle_deg / static_cast<double>(engine.cylinders.size()))));
  for (size_t i = 0; i < engine.trains.size(); ++i) {
    const ValveSpec& spec = engine.spec.valves[i];
    const ValveTrain& train = engine.trains[i];
    const char* valve = spec.kind == ValveKind::intake ? "intake" : "exhaust";
    const bool table = !spec.lift_table.empty();
    add(fmt::format("each seat event up to {} degrees earlier or later", degrees(train.timing_deg)));
    if (!table && !spec.at_lift_mm)
      add(fmt::format("the {}'s events stated at a lift of {} mm, for the file does not say at which", valve,
                      degrees(kUnknownAtLift_mm)));
    if (!table && !spec.lift_law)
      add(fmt::format("the {}'s lift law the one that is widest at the seat", valve));
    if (train.seat_deg > 0)
      add(fmt::format("the {}'s seat events up to {} degrees further out", valve, degrees(train.seat_deg)));
    if (train.phase_first_deg != 0 || train.phase_last_deg != 0)
      add(fmt::format("the {} cam anywhere from {} degrees later to {} earlier", valve,
                      degrees(-train.phase_first_deg), degrees(train.phase_last_deg)));
  }
  return out;
}

}  // namespace

std::string understood_in_words(const Engine& engine) {
  std::string out = plan_row("Turns", rotation_word(engine) + ", seen from the pulley end.") +
                    plan_row("Banks", banks_in_words(engine)) + plan_row("Fires", firing_in_words(engine));
  const std::vector<const Cylinder*> unlike = unlike_cylinders(engine);
  for (const Cylinder* c : unlike) {
    const std::vector<ValveEvent> events = valve_events(engine, *c);
    for (size_t i = 0; i + 1 < events.size(); i += 2) {  // each opening before its closing
      std::string what = event_name(*c, events[i]);
      what.resize(what.rfind(' '));
      const std::string whose =
          unlike.size() > 1 ? fmt::format("of cylinder {} and its like: ", c->number) : "";
      what[0] = static_cast<char>(what[0] - 'a' + 'A');
      out += plan_row(what, whose + opening_in_words(events[i], events[i + 1]));
    }
  }
  std::string all;
  for (const std::string& a : assumed(engine)) all += (all.empty() ? "" : "; ") + a;
  return out + plan_row("Assumed", all + ".");
}

Json understood_json(const Engine& engine) {
  Json banks = Json::array(), firing = Json::array(), events = Json::array();
  for (const BankSpec& bank : engine.spec.layout.banks)
    banks.push_back({{"name", bank.name}, {"tilt_deg", bank.tilt_deg}, {"cylinders", bank.cylinders}});
  for (const size_t i : engine.firing)
    firing.push_back(
        {{"cylinder", engine.cylinders[i].number}, {"firing_tdc_deg", engine.cylinders[i].firing_tdc_deg}});
  for (const Cylinder* c : unlike_cylinders(engine))
    for (const ValveEvent& e : valve_events(engine, *c))
      events.push_back({{"cylinder", c->number},
                        {"event", event_name(*c, e)},
                        {"seat_deg", e.seat_deg},
                        {"worst_deg", worst_deg(e)}});
  return {{"cylinders", engine.cylinders.size()},
          {"rotation", rotation_word(engine)},
          {"banks", banks},
          {"firing", firing},
          {"events", events},
          {"assumed", assumed(engine)}};
}

}  // namespace shutlane::terminal
