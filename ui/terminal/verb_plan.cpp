#include <fmt/format.h>

#include "ui/drawings/words.hpp"
#include "ui/terminal/answers_json.hpp"
#include "ui/terminal/figures.hpp"
#include "ui/terminal/plan_words.hpp"
#include "ui/terminal/sentences.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
namespace {

std::string start_in_words(const Engine& engine, const WrenchQuestion& question) {
  const std::string within =
      question.plus_minus_deg > 0 ? fmt::format(say::kWithin, degrees(question.plus_minus_deg)) : "";
  return paragraph(
      "", fmt::format(say::kCrankAt, degrees(question.from_deg), within,
                      engine.spec.layout.rotation == Rotation::clockwise ? "clockwise" : "anticlockwise"));
}

std::string no_plan(const WrenchPlan& plan, const PlanRequest& request) {
  const std::string accuracy = degrees(request.accuracy_deg + request.plus_minus_deg);
  const std::string who =
      fmt::format("{} {}", plan.no_plan.size() == 1 ? "cylinder" : "cylinders", list_in_words(plan.no_plan));
  return paragraph("", fmt::format(say::kNoPlan, degrees(request.margin_deg), accuracy, who)) +
         paragraph("", say::kNoPlanMend);
}

}  // namespace

Answer plan_verb(const PlanRequest& request) {
  const Engine engine = engine_or_throw(request.engine);
  const WrenchQuestion question = question_of(engine, request);
  const std::vector<Windows> windows = shut_windows(engine, request.margin_deg);
  const WrenchPlan plan = plan_wrench(windows, question);
  const int status = plan.possible() ? kDone : kNoAnswer;
  if (request.json) {
    return {.status = status,
            .out = json_text(plan_json(request.engine, plan, question, request.margin_deg))};
  }
  std::string out = heading(request.engine, engine);
  if (!plan.possible()) return {.status = status, .out = out + no_plan(plan, request)};

  out += start_in_words(engine, question);
  if (one_full_turn_always(windows, question.accuracy_deg, question.plus_minus_deg)) {
    out += paragraph("", fmt::format(say::kOneTurnAlways, degrees(question.accuracy_deg)));
  }
  out += accuracy_in_words(question.accuracy_deg, engine.cylinders.size());
  if (!plan.proven) out += paragraph("", say::kNotProven);
  out += "\n" + cautions_in_words();
  if (question.left.empty()) out += fmt::format("\n{}\n", say::kNothingLeft);
  for (size_t i = 0; i < plan.positions.size() && !question.left.empty(); ++i) {
    if (i > 0) out += "\n" + turn_in_steps(plan, i, question.accuracy_deg);
    out += "\n" + position_in_words(plan.positions[i], i + 1);
  }
  return {.status = status, .out = out + after_the_last()};
}

}  // namespace shutlane::terminal
