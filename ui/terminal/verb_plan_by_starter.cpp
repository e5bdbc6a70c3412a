// plan --by starter: how long to press, and what to expect.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/plan/bump_plan.hpp"
#include "ui/drawings/bump_words.hpp"
#include "ui/drawings/words.hpp"
#include "ui/kept/job_bumps.hpp"
#include "ui/terminal/answers_json.hpp"
#include "ui/terminal/bump_words.hpp"
#include "ui/terminal/figures.hpp"
#include "ui/terminal/plan_words.hpp"
#include "ui/terminal/sentences.hpp"
#include "ui/terminal/shown_rest_table.hpp"
#include "ui/terminal/told_bumps.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
namespace {

Json or_null(double x) { return std::isfinite(x) ? Json(x) : Json(nullptr); }

void add_starter(Json& all, const BumpPlan& plan) {
  Json habits = Json::array();
  for (const Habit& h : plan.habits)
    habits.push_back({{"name", h.name}, {"expected_bumps", or_null(h.expected_bumps)}});
  all["by"] = "starter";
  all["press_s"] = plan.press_s;
  all["press_min_s"] = plan.press_min_s;
  all["press_max_s"] = plan.press_max_s;
  all["expected_bumps"] = plan.expected_bumps;
  all["finish_first"] = plan.finish_first;
  all["technician_habits"] = habits;
}

/// What the wrench would do stands beside the starter's plan where the start is known.
Json answer_json(const PlanByStarterRequest& request, const Engine& engine, const WrenchQuestion& question,
                 const BumpPlan& plan, size_t told) {
  const PlanRequest& asked = request.plan;
  Json all = {{"engine", asked.engine}};
  if (!request.unknown) {
    const WrenchPlan wrench = plan_wrench(shut_windows(engine, asked.margin_deg), question);
    if (wrench.possible()) {
      all = plan_json(asked.engine, wrench, question, asked.margin_deg);
    } else {  // the starter asks for no accuracy: it may have a plan where the wrench has none
      all["from_deg"] = question.from_deg;
      all["plus_minus_deg"] = question.plus_minus_deg;
      all["margin_deg"] = asked.margin_deg;
      all["accuracy_deg"] = question.accuracy_deg;
    }
  }
  add_starter(all, plan);
  if (told > 0) all["told_bumps"] = told;
  return all;
}

Answer no_plan(const PlanRequest& asked, const Engine& engine, const BumpPlan& plan) {
  if (asked.json) {
    Json out = {{"engine", asked.engine}, {"by", "starter"}, {"no_plan", plan.no_plan}};
    if (plan.may_never_end) out["may_never_end"] = true;
    return {.status = kNoAnswer, .out = json_text(out)};
  }
  const std::string why = no_bump_plan_in_words(plan, asked.margin_deg);
  return {.status = kNoAnswer,
          .out = heading(asked.engine, engine) + paragraph("", fmt::format(say::kNoBumpPlan, why))};
}

std::string habits_in_words(const BumpPlan& plan) {
  std::vector<std::vector<std::string>> rows;
  const auto row = [&](std::string_view name, double press_s, double bumps) {
    rows.push_back({"  " + std::string(name), fmt::format("{:.2f} s", press_s),
                    std::isfinite(bumps) ? fmt::format("{:.2f}", bumps) : std::string(say::kNoEnd)});
  };
  for (const Habit& h : plan.habits) row(h.name, h.press_s, h.expected_bumps);
  row(say::kThisPlan, plan.press_s, plan.expected_bumps);
  std::string out =
      fmt::format("{}\n\n", say::kHabits) + table({{"", Side::left}, {"press"}, {"bumps"}}, rows) + "\n";
  if (plan.expected_bumps < 1) out += paragraph("", say::kBelowOne);
  double said_s = 0;
  for (const Habit& h : plan.habits)
    if (h.goes_on < 0.5 && h.press_s != said_s) {
      out += paragraph("", fmt::format(say::kBounce, seconds_in_words(h.press_s),
                                       static_cast<int>(100 * (1 - h.goes_on) + 1e-9)));
      said_s = h.press_s;
    }
  const Habit& fixed = plan.habits.back();
  if (fixed.expected_bumps <= plan.expected_bumps * (1 + kNearlyAsGood))
    out += paragraph("", say::kFixedIsNear);
  return out;
}

/// Starter first, or the wrench alone where that takes no more moves.
void add_mixed(Json& all, const MixedPlan& mixed, std::optional<size_t> turns_alone) {
  all["by"] = "both";
  all["first"] = mixed.wrench_first ? "wrench" : "starter";
  if (!mixed.wrench_first) all["press_s"] = mixed.press_s;
  all["expected_moves"] = or_null(mixed.expected_moves);
  all["expected_bumps"] = or_null(mixed.expected_bumps);
  all["expected_turns"] = or_null(mixed.expected_turns);
  all["turns_by_wrench_alone"] = turns_alone ? Json(*turns_alone) : Json(nullptr);
  all["bumps_by_starter_alone"] = or_null(mixed.expected_bumps_only);
}

std::string learned_from(size_t told) {
  return told == 0 ? "" : paragraph("", fmt::format(say::kLearnedFrom, bumps_counted(told)));
}

std::string turns_counted(size_t turns) { return turns == 1 ? "one turn" : fmt::format("{} turns", turns); }

std::string mixed_in_words(const MixedPlan& mixed, std::optional<size_t> turns_alone) {
  std::string out = paragraph(
      "", fmt::format(say::kStarterFirst, mixed.expected_moves, mixed.expected_bumps, mixed.expected_turns));
  out += paragraph("", turns_alone ? fmt::format(say::kWrenchOnly, turns_counted(*turns_alone))
                                   : std::string(say::kWrenchNeedsAngle));
  return out + paragraph("", std::isfinite(mixed.expected_bumps_only)
                                 ? fmt::format(say::kStarterOnly, mixed.expected_bumps_only)
                                 : std::string(say::kStarterOnlyNever));
}

std::string starts_where(const PlanByStarterRequest& request, const WrenchQuestion& question) {
  if (request.unknown) return paragraph("", say::kLookFirst);
  const double within_deg = question.plus_minus_deg;
  return paragraph("", fmt::format(say::kCrankStands, degrees(question.from_deg),
                                   within_deg > 0 ? fmt::format(say::kWithin, degrees(within_deg)) : ""));
}

}  // namespace

namespace {

std::string here_in_words(const BumpPlan& plan) {
  std::string out = fmt::format("\n{}\n", say::kHere);
  if (plan.done_at_start.empty()) return out + plan_row("Blast", say::kNothingHere);
  return out + plan_row("Blast", fmt::format(say::kBlast, ports_in_words(plan.done_at_start))) +
         plan_row("Bungs", say::kBungs);
}

Answer starter_answer(const PlanByStarterRequest& request, const Engine& engine,
                      const WrenchQuestion& question, const BumpStart& start, BumpPlanner& planner,
                      size_t told) {
  const PlanRequest& asked = request.plan;
  const BumpPlan plan = planner.plan(start, question.left);
  if (!plan.possible()) return no_plan(asked, engine, plan);
  if (asked.json) return {.out = json_text(answer_json(request, engine, question, plan, told))};

  std::string out = heading(asked.engine, engine) + starts_where(request, question) + learned_from(told) +
                    "\n" + cautions_in_words() + "\n" + bump_cautions_in_words();
  if (question.left.empty())
    return {.out = out + fmt::format("\n{}\n", say::kNothingLeft) + after_the_last()};
  if (!request.unknown) out += here_in_words(plan);
  if (plan.press_s == 0) return {.out = out + "\n" + paragraph("", say::kNoBumpNeeded) + after_the_last()};
  out += fmt::format("\n{}\n", say::kBump);
  out += plan_row("Suck out", say::kSuckOutBlasted);
  out += plan_row("Empty", say::kEmpty);
  out += plan_row("Starter", press_in_words(plan));
  out += plan_row("Look", say::kAfterBump);
  return {.out = out + "\n" + habits_in_words(plan) + after_the_last()};
}

Answer mixed_answer(const PlanByStarterRequest& request, const Engine& engine, const WrenchQuestion& question,
                    const BumpStart& start, BumpPlanner& planner, size_t told) {
  const PlanRequest& asked = request.plan;
  const MixedPlan mixed = planner.mixed(start, question.left, question.accuracy_deg);
  std::optional<WrenchPlan> wrench;
  if (!request.unknown) wrench = plan_wrench(shut_windows(engine, asked.margin_deg), question);
  if (wrench && !wrench->possible()) wrench.reset();
  const auto turns_alone = wrench ? std::optional(wrench->turns()) : std::nullopt;
  // What the wrench does is planned, not only counted: where it needs no more moves it goes first.
  const bool wrench_first = mixed.wrench_first && wrench.has_value();
  if (!wrench_first && (mixed.wrench_first || !std::isfinite(mixed.expected_moves)))
    return starter_answer(request, engine, question, start, planner, told);
  if (asked.json) {
    Json all = wrench ? plan_json(asked.engine, *wrench, question, asked.margin_deg)
                      : Json{{"engine", asked.engine}};
    add_mixed(all, mixed, turns_alone);
    if (told > 0) all["told_bumps"] = told;
    return {.out = json_text(all)};
  }
  if (wrench_first) {
    Answer by_wrench = plan_verb(asked);
    by_wrench.out =
        paragraph("", fmt::format(say::kWrenchFirst, turns_counted(*turns_alone))) + by_wrench.out;
    return by_wrench;
  }
  std::string out = heading(asked.engine, engine) + starts_where(request, question) + learned_from(told) +
                    "\n" + mixed_in_words(mixed, turns_alone) + "\n" + cautions_in_words() + "\n" +
                    bump_cautions_in_words();
  if (!request.unknown) out += here_in_words(planner.plan(start, question.left));
  out += fmt::format("\n{}\n", say::kBump);
  out += plan_row("Suck out", say::kSuckOutBlasted);
  out += plan_row("Empty", say::kEmpty);
  out += plan_row("Starter", fmt::format("press about {} s.", seconds_in_words(mixed.press_s)));
  out += plan_row("Look", say::kAfterBump);
  out += plan_row("Then", say::kThenEither);
  return {.out = out + after_the_last()};
}

}  // namespace

std::string press_in_words(const BumpPlan& plan) {
  const std::string out = fmt::format(say::kPressAbout, seconds_in_words(plan.press_s),
                                      nearly_as_good_in_words(plan), first_bump_in_words(plan));
  return out + fmt::format(say::kFinishFirst, static_cast<int>(100 * plan.finish_first + 1e-9));
}

Answer plan_by_starter_verb(const PlanByStarterRequest& request) {
  const PlanRequest& asked = request.plan;
  const Engine engine = engine_or_throw(asked.engine);
  const WrenchQuestion question = question_of(engine, asked);
  const auto model = cranking_model(engine);
  if (const auto* none = std::get_if<NoBump>(&model)) return no_bump(asked.engine, none->why, asked.json);
  if (engine.cylinders.size() > kMostBumpCylinders)
    return no_bump(asked.engine, too_many_for_bumps_in_words(), asked.json);
  const auto table = shown_rest_table(std::get<CrankingModel>(model));
  const ToldBumps told = told_bumps(std::get<CrankingModel>(model));
  std::vector<double> weights = weights_of(cars_after(*table, told.bumps));
  for (const JobBumps& job : job_bumps(std::get<CrankingModel>(model)))
    weights = weights_after(*table, std::move(weights), job.rows);
  BumpPlanner planner(engine, table, std::move(weights), asked.margin_deg);
  const BumpStart start =
      request.unknown ? start_unknown() : start_at(question.from_deg, question.plus_minus_deg);
  Answer answer = request.both ? mixed_answer(request, engine, question, start, planner, told.bumps.size())
                               : starter_answer(request, engine, question, start, planner, told.bumps.size());
  answer.err = told.note + answer.err;
  return answer;
}

}  // namespace shutlane::terminal
