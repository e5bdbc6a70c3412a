#include "ui/terminal/answers_json.hpp"

#include <array>
#include <cmath>

namespace shutlane::terminal {
namespace {

constexpr double kStroke_deg = 180.0;

const Cylinder& cylinder_of(const Engine& engine, const Windows& windows) {
  return *engine.find(windows.cylinder);
}

}  // namespace

const char* stroke_name(double local_deg) {
  static constexpr std::array names{"power", "exhaust", "intake", "compression"};
  return names[static_cast<size_t>(std::floor((local_deg + kSame_deg) / kStroke_deg)) % names.size()];
}

const char* state_name(ShutState state) {
  switch (state) {
    case ShutState::surely_shut:
      return "surely shut";
    case ShutState::not_surely_shut:
      return "not surely shut";
    case ShutState::open:
      break;
  }
  return "open";
}

Json arcs_json(const ArcSet& set) {
  Json list = Json::array();
  for (const Arc& arc : set.arcs())
    list.push_back({{"from_deg", arc.from_deg}, {"length_deg", arc.length_deg}});
  return list;
}

Json windows_json(const std::string& word, const Engine& engine, const std::vector<Windows>& windows,
                  double margin_deg) {
  Json cylinders = Json::array();
  for (const Windows& w : windows) {
    cylinders.push_back({{"cylinder", w.cylinder},
                         {"firing_tdc_deg", cylinder_of(engine, w).firing_tdc_deg},
                         {"shut", arcs_json(w.shut)},
                         {"surely_shut", arcs_json(w.sure)}});
  }
  return {{"engine", word}, {"margin_deg", margin_deg}, {"cylinders", cylinders}};
}

Json at_json(const std::string& word, const Engine& engine, const std::vector<Windows>& windows,
             double at_deg) {
  Json cylinders = Json::array();
  for (const Windows& w : windows) {
    const Cylinder& cylinder = cylinder_of(engine, w);
    const double local_deg = cylinder.local_deg(at_deg);
    cylinders.push_back({{"cylinder", w.cylinder},
                         {"local_deg", local_deg},
                         {"stroke", stroke_name(local_deg)},
                         {"state", state_name(shut_state(w, at_deg))},
                         {"intake_lift_mm", lifts_mm(engine, cylinder, ValveKind::intake, at_deg)},
                         {"exhaust_lift_mm", lifts_mm(engine, cylinder, ValveKind::exhaust, at_deg)},
                         {"piston_below_tdc_mm", cylinder.crank.at_local(local_deg).below_top_mm}});
  }
  return {{"engine", word}, {"at_deg", at_deg}, {"cylinders", cylinders}};
}

Json position_json(const Position& p) {
  return {{"at_deg", p.at_deg},
          {"turn_deg", p.turn_deg},
          {"turn_min_deg", p.turn_min_deg},
          {"turn_max_deg", p.turn_max_deg},
          {"blast", p.blast},
          {"not_shut", p.not_shut},
          {"suck_out_before", p.suck_out_before}};
}

Json plan_json(const std::string& word, const WrenchPlan& plan, const WrenchQuestion& question,
               double margin_deg) {
  if (!plan.possible()) return {{"engine", word}, {"no_plan", plan.no_plan}};
  Json positions = Json::array();
  for (const Position& p : plan.positions) positions.push_back(position_json(p));
  Json all = {{"engine", word},
              {"from_deg", question.from_deg},
              {"plus_minus_deg", question.plus_minus_deg},
              {"margin_deg", margin_deg},
              {"accuracy_deg", question.accuracy_deg},
              {"turns", plan.turns()},
              {"total_turn_deg", plan.total_turn_deg},
              {"positions", positions}};
  if (!plan.proven) all["proven"] = false;
  return all;
}

Json locate_json(const std::string& word, const Location& location) {
  if (location.contradiction) {
    const Contradiction& c = *location.contradiction;
    return {{"engine", word}, {"contradiction", {{"shut", c.shut}, {"open", c.open}, {"mark", c.mark}}}};
  }
  Json next = nullptr;
  if (location.next_look) next = *location.next_look;
  return {{"engine", word},
          {"consistent", arcs_json(location.consistent)},
          {"surely_shut", location.surely_shut},
          {"witnessed", location.witnessed},
          {"surely_open", location.surely_open},
          {"undecided", location.undecided},
          {"next_look", next}};
}

}  // namespace shutlane::terminal
