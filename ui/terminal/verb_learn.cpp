// Did a bump go further, or less far, than reckoned? What was told weighs the starter and the friction of
// this engine from then on.
#include <fmt/format.h>

#include <algorithm>

#include "sim/cycle/angle.hpp"
#include "ui/drawings/bump_words.hpp"
#include "ui/kept/job_bumps.hpp"
#include "ui/terminal/bump_words.hpp"
#include "ui/terminal/figures.hpp"
#include "ui/terminal/json_text.hpp"
#include "ui/terminal/sentences.hpp"
#include "ui/terminal/shown_rest_table.hpp"
#include "ui/terminal/told_bumps.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
namespace {

struct Factors {
  double starter = 0, friction = 0;  ///< of what is stated, in the middle of the weighted cars
};

Factors middle(const std::vector<CarSample>& cars) {
  Factors f;
  for (const CarSample& c : cars) {
    f.starter += c.weight * c.draw.starter;
    f.friction += c.weight * c.draw.friction;
  }
  return f;
}

/// What was reckoned of each bump when it was told.
std::vector<ReckonedAdvance> reckoned_of(const RestTable& rests, const std::vector<ToldBump>& bumps) {
  std::vector<ReckonedAdvance> all;
  for (size_t i = 0; i < bumps.size(); ++i)
    all.push_back(reckoned_advance(
        rests, weights_of(cars_after(rests, {bumps.begin(), bumps.begin() + static_cast<std::ptrdiff_t>(i)})),
        static_cast<int>(bumps[i].from_deg), press_in_table(rests, bumps[i].press_s)));
  return all;
}

std::string told_text(const RestTable& rests, const std::vector<ToldBump>& bumps) {
  const std::vector<ReckonedAdvance> reckoned = reckoned_of(rests, bumps);
  std::vector<std::vector<std::string>> rows;
  for (size_t i = 0; i < bumps.size(); ++i)
    rows.push_back({degrees(bumps[i].from_deg), seconds_in_words(bumps[i].press_s) + " s",
                    fmt::format("{} to {}", degrees(reckoned[i].low_deg), degrees(reckoned[i].high_deg)),
                    went_word(bumps[i].went)});
  const Factors before = middle(rests.cars), now = middle(cars_after(rests, bumps));
  return fmt::format("\n{}\n\n", say::kToldOf) +
         terminal::table({{"from"}, {"press"}, {"reckoned"}, {"went", Side::left}}, rows) + "\n" +
         paragraph("", say::kMiddleHalf) +
         paragraph("",
                   fmt::format(say::kWeighedNow, now.starter, now.friction, before.starter, before.friction));
}

Json told_json(const RestTable& rests, const std::vector<ToldBump>& bumps) {
  const std::vector<ReckonedAdvance> reckoned = reckoned_of(rests, bumps);
  Json list = Json::array();
  for (size_t i = 0; i < bumps.size(); ++i)
    list.push_back({{"from_deg", bumps[i].from_deg},
                    {"press_s", bumps[i].press_s},
                    {"went", went_word(bumps[i].went)},
                    {"reckoned_deg", {reckoned[i].low_deg, reckoned[i].high_deg}}});
  const Factors now = middle(cars_after(rests, bumps));
  return {{"bumps", list}, {"starter", now.starter}, {"friction", now.friction}};
}

}  // namespace

Answer learn_verb(const LearnRequest& request) {
  const Engine engine = engine_or_throw(request.engine);
  const auto built = cranking_model(engine);
  if (const auto* none = std::get_if<NoBump>(&built)) return no_bump(request.engine, none->why, request.json);
  const CrankingModel& model = std::get<CrankingModel>(built);
  ToldBumps told = told_bumps(model);
  if (request.forget) {
    forget_told_bumps(model);
    forget_job_bumps(model);
    return {.out = request.json
                       ? json_text({{"engine", request.engine}, {"forgotten", told.bumps.size()}})
                       : heading(request.engine, engine) +
                             paragraph("", fmt::format(say::kForgotten, bumps_counted(told.bumps.size()))),
            .err = told.note};
  }
  if (request.bump) {
    const auto table = shown_rest_table(model);
    (void)press_in_table(*table, request.bump->press_s);  // refused before anything is kept
    told.bumps =
        add_told_bump(model, {wrap_deg(request.bump->from_deg), request.bump->press_s, request.bump->went})
            .bumps;
  }
  Json all = {{"engine", request.engine}};
  const size_t of_jobs = timed_bumps(job_bumps(model));
  if (of_jobs > 0) all["job_bumps"] = of_jobs;
  const std::string jobs_told =
      of_jobs == 0 ? "" : paragraph("", fmt::format(say::kLearnedFromJobs, bumps_counted(of_jobs)));
  if (told.bumps.empty()) {
    all["bumps"] = Json::array();
    return {.out = request.json
                       ? json_text(all)
                       : heading(request.engine, engine) + paragraph("", say::kNothingTold) + jobs_told,
            .err = told.note};
  }
  const auto table = shown_rest_table(model);
  if (request.json) {
    all.update(told_json(*table, told.bumps));
    return {.out = json_text(all), .err = told.note};
  }
  return {.out = heading(request.engine, engine) + told_text(*table, told.bumps) + jobs_told,
          .err = told.note};
}

}  // namespace shutlane::terminal
