// Bumps of the starter: where one leaves the crank, and how long to press.
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <thread>

#include "sim/cranking/fast.hpp"
#include "sim/cranking/trials.hpp"
#include "sim/plan/bump_plan.hpp"
#include "ui/drawings/words.hpp"
#include "ui/terminal/answers_json.hpp"
#include "ui/terminal/plan_words.hpp"
#include "ui/terminal/rest_cache.hpp"
#include "ui/terminal/sentences.hpp"
#include "ui/terminal/turn_words.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
namespace {

Json or_null(double x) { return std::isfinite(x) ? Json(x) : Json(nullptr); }

Answer refused(const std::string& word, const std::string& why, bool json) {
  return {.status = kNoAnswer,
          .out = json ? json_text({{"engine", word}, {"no_bump", why}}) : paragraph("", "No bump: " + why)};
}

std::string bump_cautions() {
  std::string out = fmt::format("{}\n", say::kBeforeBump);
  for (const std::string_view caution : say::kBumpCautions) out += paragraph("  - ", caution);
  return out;
}

std::string bumps_in_words(double bumps) {
  return std::isfinite(bumps) ? fmt::format("{:.1f}", bumps) : "no end";
}

Json starter_json(const std::string& word, const BumpPlan& plan) {
  Json habits = Json::array();
  for (const Habit& h : plan.habits)
    habits.push_back({{"name", h.name}, {"expected_bumps", or_null(h.expected_bumps)}});
  return {{"engine", word},
          {"by", "starter"},
          {"press_s", plan.press_s},
          {"press_min_s", plan.press_min_s},
          {"press_max_s", plan.press_max_s},
          {"expected_bumps", plan.expected_bumps},
          {"finish_first", plan.finish_first},
          {"habits", habits}};
}

std::string starter_in_words(const BumpPlan& plan) {
  if (plan.press_s == 0) return paragraph("", say::kNoBumpNeeded);
  const std::string_view chance = plan.finish_first >= 0.8   ? say::kOneBump
                                  : plan.finish_first >= 0.4 ? say::kPerhapsOneBump
                                                             : say::kMoreBumps;
  std::string out = paragraph("", fmt::format(say::kPress, plan.press_s, plan.press_min_s, plan.press_max_s,
                                              chance, bumps_in_words(plan.expected_bumps)));
  out += fmt::format("\n{}\n", say::kHabits);
  for (const Habit& h : plan.habits)
    out += paragraph(fmt::format("  {:>7}  ", bumps_in_words(h.expected_bumps)), h.name);
  return out + paragraph(fmt::format("  {:>7}  ", bumps_in_words(plan.expected_bumps)), say::kThisPlan);
}

}  // namespace

Answer bump_verb(const BumpRequest& request) {
  const Engine engine = engine_or_throw(request.engine);
  const auto model = cranking_model(engine, request.plugs_out ? Plugs::out : Plugs::in);
  if (const auto* no = std::get_if<NoBump>(&model)) return refused(request.engine, no->why, request.json);
  const FastKernel kernel(std::get<CrankingModel>(model));
  const TrialsQuestion question{
      .from_deg = wrap_deg(request.from_deg),
      .press_s = request.press_s,
      .trials = request.trials,
      .seed = request.seed,
      .threads = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()))};
  const TrialsAnswer a = bump_trials(kernel, question);
  if (request.json)
    return {.out = json_text({{"engine", request.engine},
                              {"from_deg", question.from_deg},
                              {"press_s", question.press_s},
                              {"trials", question.trials},
                              {"seed", question.seed},
                              {"advance_deg",
                               {{"mean", a.mean_deg},
                                {"sd", a.sd_deg},
                                {"p05", a.p05_deg},
                                {"p50", a.p50_deg},
                                {"p95", a.p95_deg}}},
                              {"rest_histogram", a.rest_histogram}})};
  std::string out = heading(request.engine, engine);
  out += paragraph("", fmt::format(say::kBumpLeaves, request.press_s, degrees(question.from_deg),
                                   std::lround(a.p05_deg), std::lround(a.p95_deg), std::lround(a.p50_deg)));
  out += paragraph("", fmt::format(say::kBumpModel, question.trials, question.seed));
  return {.out = out + "\n" + bump_cautions()};
}

Answer plan_by_starter_verb(const PlanByStarterRequest& request) {
  const PlanRequest& asked = request.plan;
  const Engine engine = engine_or_throw(asked.engine);
  const WrenchQuestion question = question_of(engine, asked);
  const auto model = cranking_model(engine);
  if (const auto* no = std::get_if<NoBump>(&model)) return refused(asked.engine, no->why, asked.json);
  const auto table = rest_table_for(std::get<CrankingModel>(model), isatty(STDERR_FILENO) != 0);
  BumpPlanner planner(engine, table, {}, asked.margin_deg);
  const BumpPlan plan =
      planner.plan(request.unknown ? start_unknown() : start_at(question.from_deg, question.plus_minus_deg),
                   question.left);
  if (!plan.possible()) {
    if (asked.json)
      return {.status = kNoAnswer,
              .out = json_text({{"engine", asked.engine}, {"by", "starter"}, {"no_plan", plan.no_plan}})};
    return {.status = kNoAnswer, .out = heading(asked.engine, engine) + paragraph("", say::kNoBumpPlan)};
  }
  if (asked.json) {
    if (request.unknown) return {.out = json_text(starter_json(asked.engine, plan))};
    const WrenchPlan wrench = plan_wrench(shut_windows(engine, asked.margin_deg), question);
    Json all = plan_json(asked.engine, wrench, question, asked.margin_deg);
    const Json starter = starter_json(asked.engine, plan);
    for (const auto& [key, value] : starter.items()) all[key] = value;
    return {.out = json_text(all)};
  }
  std::string out = heading(asked.engine, engine);
  if (!plan.done_at_start.empty())
    out += fmt::format("\n{}\n", say::kHere) +
           plan_row("Blast", fmt::format(say::kBlast, ports_in_words(plan.done_at_start))) +
           plan_row("Plug", say::kPlug);
  if (request.unknown) out += paragraph("", say::kLookFirst);
  out += "\n" + starter_in_words(plan);
  out += "\n" + paragraph("", say::kAfterBump);
  return {.out = out + "\n" + bump_cautions() + "\n" + cautions_in_words() + after_the_last()};
}

}  // namespace shutlane::terminal
