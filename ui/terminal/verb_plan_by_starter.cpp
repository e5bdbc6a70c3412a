// plan --by starter: how long to press, and what to expect.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <thread>

#include "sim/plan/bump_plan.hpp"
#include "ui/drawings/bump_words.hpp"
#include "ui/drawings/words.hpp"
#include "ui/kept/rest_cache.hpp"
#include "ui/terminal/answers_json.hpp"
#include "ui/terminal/bump_words.hpp"
#include "ui/terminal/plan_words.hpp"
#include "ui/terminal/progress.hpp"
#include "ui/terminal/sentences.hpp"
#include "ui/terminal/turn_words.hpp"
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
  all["habits"] = habits;
}

/// What the wrench would do stands beside the starter's plan where the start is known.
Json answer_json(const PlanByStarterRequest& request, const Engine& engine, const WrenchQuestion& question,
                 const BumpPlan& plan) {
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

/// From what is kept, or worked out with progress on standard error.
std::shared_ptr<const RestTable> rest_table(const CrankingModel& model) {
  Progress progress("working out where bumps leave the crank");
  RestTableQuestion question;
  question.threads = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
  question.progress = [&](double done) {
    progress.tell(done);
    return true;
  };
  return rest_table_for(model, question);
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

std::string starts_where(const PlanByStarterRequest& request, const WrenchQuestion& question) {
  if (request.unknown) return paragraph("", say::kLookFirst);
  const double within_deg = question.plus_minus_deg;
  return paragraph("", fmt::format(say::kCrankStands, degrees(question.from_deg),
                                   within_deg > 0 ? fmt::format(say::kWithin, degrees(within_deg)) : ""));
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
  BumpPlanner planner(engine, rest_table(std::get<CrankingModel>(model)), {}, asked.margin_deg);
  const BumpPlan plan =
      planner.plan(request.unknown ? start_unknown() : start_at(question.from_deg, question.plus_minus_deg),
                   question.left);
  if (!plan.possible()) return no_plan(asked, engine, plan);
  if (asked.json) return {.out = json_text(answer_json(request, engine, question, plan))};

  std::string out = heading(asked.engine, engine) + starts_where(request, question) + "\n" +
                    cautions_in_words() + "\n" + bump_cautions_in_words();
  if (question.left.empty())
    return {.out = out + fmt::format("\n{}\n", say::kNothingLeft) + after_the_last()};
  if (!request.unknown) {
    out += fmt::format("\n{}\n", say::kHere);
    if (plan.done_at_start.empty())
      out += plan_row("Blast", say::kNothingHere);
    else
      out += plan_row("Blast", fmt::format(say::kBlast, ports_in_words(plan.done_at_start))) +
             plan_row("Plug", say::kPlug);
  }
  if (plan.press_s == 0) return {.out = out + "\n" + paragraph("", say::kNoBumpNeeded) + after_the_last()};
  out += fmt::format("\n{}\n", say::kBump);
  out += plan_row("Suck out", say::kSuckOutBlasted);
  out += plan_row("Empty", say::kEmpty);
  out += plan_row("Starter", press_in_words(plan));
  out += plan_row("Look", say::kAfterBump);
  return {.out = out + "\n" + habits_in_words(plan) + after_the_last()};
}

}  // namespace shutlane::terminal
