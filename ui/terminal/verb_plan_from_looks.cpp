// plan --from looks: from what was seen straight to what to do.
#include <fmt/format.h>

#include <algorithm>

#include "sim/plan/plan_from_looks.hpp"
#include "ui/drawings/words.hpp"
#include "ui/terminal/answers_json.hpp"
#include "ui/terminal/figures.hpp"
#include "ui/terminal/lane_strip.hpp"
#include "ui/terminal/plan_words.hpp"
#include "ui/terminal/sentences.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
namespace {

std::vector<int> without(std::vector<int> list, const std::vector<int>& taken) {
  std::erase_if(list, [&](int n) { return std::find(taken.begin(), taken.end(), n) != taken.end(); });
  return list;
}

Json or_null(const std::optional<int>& number) { return number ? Json(*number) : Json(nullptr); }

Json looks_plan_json(const std::string& word, const LooksPlan& plan) {
  Json positions = Json::array();
  for (const Position& p : plan.turns.positions) {
    Json position = position_json(p);
    position.erase("at_deg");  // nobody knows it; the turns hold from everywhere the crank may stand
    positions.push_back(std::move(position));
  }
  Json all = {{"engine", word},
              {"from", "looks"},
              {"consistent", arcs_json(plan.stands)},
              {"one_full_turn", plan.one_full_turn},
              {"blast", plan.blast_now},
              {"seen_shut", plan.seen},
              {"own_look_only", plan.own_look_only},
              {"next_look", or_null(plan.look_to_blast ? plan.look_to_blast : plan.look_next)},
              {"unplaced", plan.unplaced},
              {"turns", plan.turns.turns()},
              {"positions", positions}};
  if (!plan.turns.proven) all["proven"] = false;
  return all;
}

std::string here_in_words(const LooksPlan& plan) {
  std::string out = fmt::format("\n{}\n", say::kHere);
  const std::vector<int> unseen = without(plan.blast_now, plan.seen);
  if (!plan.seen.empty()) out += plan_row("Blast", fmt::format(say::kBlastSeen, ports_in_words(plan.seen)));
  if (!unseen.empty()) out += plan_row("Look", fmt::format(say::kBlast, ports_in_words(unseen)));
  if (plan.blast_now.empty()) out += plan_row("Blast", say::kNothingYet);
  if (!plan.own_look_only.empty())
    out += plan_row("Not yet", fmt::format(say::kOwnLookOnly, ports_in_words(plan.own_look_only)));
  if (plan.look_to_blast) out += plan_row("Look", fmt::format(say::kLookNext, *plan.look_to_blast));
  out += plan_row("Bungs", say::kBungs);
  return out;
}

}  // namespace

Answer plan_from_looks_verb(const PlanFromLooksRequest& request, const Style& style) {
  const Engine engine = engine_or_throw(request.plan.engine);
  check_looks(engine, request.looks);
  const WrenchQuestion wrench = question_of(engine, request.plan);
  const Location location = locate(engine, request.looks);
  if (location.contradiction)
    return {.status = kNoAnswer,
            .out = request.plan.json
                       ? json_text(locate_json(request.plan.engine, location))
                       : heading(request.plan.engine, engine) +
                             contradiction_in_words(engine, request.looks, *location.contradiction)};
  LooksPlanQuestion question;
  question.margin_deg = request.plan.margin_deg;
  question.accuracy_deg = request.plan.accuracy_deg;
  question.left = wrench.left;
  question.done = wrench.done;
  const LooksPlan plan = plan_from_looks(engine, request.looks, question);
  const int status = plan.ready() ? kDone : kNoAnswer;
  if (request.plan.json)
    return {.status = status, .out = json_text(looks_plan_json(request.plan.engine, plan))};

  std::string out = heading(request.plan.engine, engine);
  out += paragraph("", fmt::format(say::kMayStand, where_in_words(plan.stands)));
  out += "\n" + lane_strip(shut_windows(engine, question.margin_deg),
                           {.crank_deg = {}, .may_stand = &plan.stands}, style);
  if (plan.one_full_turn)
    out += paragraph("", fmt::format(say::kOneTurnAlways, degrees(question.accuracy_deg)));
  out += accuracy_in_words(question.accuracy_deg, engine.cylinders.size());
  if (!plan.turns.proven) out += paragraph("", say::kNotProven);
  out += "\n" + cautions_in_words();
  if (question.left.empty()) return {.status = status, .out = out + fmt::format("\n{}\n", say::kNothingLeft)};
  out += here_in_words(plan);
  if (!plan.unplaced.empty() && !plan.one_full_turn) {
    out += "\n" + paragraph("", fmt::format(say::kNoTurnYet, ports_in_words(plan.unplaced)));
    out += paragraph(
        "", plan.look_next ? fmt::format(say::kLookNext, *plan.look_next) : std::string(say::kNoLookHelps));
    return {.status = status, .out = out};
  }
  if (!plan.unplaced.empty()) {
    out += "\n" + full_turn_in_words(question.accuracy_deg);
    out += fmt::format("\n{}\n", fmt::format(say::kPosition, 2));
    out += plan_row("Look", say::kAllLeftAfterFullTurn);
    out += plan_row("Bungs", say::kBungs);
    return {.status = status, .out = out + after_the_last()};
  }
  for (size_t i = 1; i < plan.turns.positions.size(); ++i) {
    out += "\n" + turn_in_steps(plan.turns, i, question.accuracy_deg);
    out += "\n" + position_in_words(plan.turns.positions[i], i + 1);
  }
  return {.status = status, .out = out + after_the_last()};
}

}  // namespace shutlane::terminal
