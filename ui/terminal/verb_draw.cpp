#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "engines/catalog.hpp"
#include "ui/drawings/pages.hpp"
#include "ui/terminal/bump_words.hpp"
#include "ui/terminal/read_options.hpp"
#include "ui/terminal/reckoned_bumps.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
namespace {

PageKind page_kind(const std::string& word) {
  static constexpr std::array kinds{std::pair{"lanes", PageKind::lanes}, std::pair{"dial", PageKind::dial},
                                    std::pair{"lift", PageKind::lift}, std::pair{"bump", PageKind::bump}};
  std::vector<std::string> names;
  for (const auto& [name, kind] : kinds) {
    if (word == name) return kind;
    names.emplace_back(name);
  }
  const auto near = nearest(word, names);
  throw BadInput(
      fmt::format("unknown page {}; {}", in_quotes(word),
                  near ? fmt::format("did you mean {}?", *near) : "expected lanes, dial, lift or bump"));
}

constexpr int kFanStarts = 20;    // over the width of a start that is known within plus-minus
constexpr int kFanTrials = 1000;  // of each of them

/// Rests of one press from every start that the crank may have.
PressFan press_fan(const ReckonedBumps& bumps, double from_deg, double plus_minus_deg, double press_s) {
  const int starts = plus_minus_deg > 0 ? kFanStarts : 1;
  PressFan fan{.press_s = press_s, .advance_p05_deg = 0, .advance_p95_deg = 0, .weights = {}};
  fan.weights.assign(static_cast<size_t>(kCycle_deg), 0.0);
  std::vector<float> advance;
  for (int i = 0; i < starts; ++i) {
    TrialsQuestion question =
        press_question(from_deg + plus_minus_deg * ((2.0 * i + 1) / starts - 1), press_s);
    if (starts > 1) question.trials = kFanTrials;
    question.seed += static_cast<uint64_t>(i);
    const TrialsAnswer answer = bumps.trials(question);
    for (size_t b = 0; b < fan.weights.size(); ++b)
      fan.weights[b] += static_cast<double>(answer.rest_histogram[b]) / (starts * question.trials);
    advance.insert(advance.end(), answer.advance_deg.begin(), answer.advance_deg.end());
  }
  std::sort(advance.begin(), advance.end());
  fan.advance_p05_deg = static_cast<double>(advance[advance.size() / 20]);
  fan.advance_p95_deg = static_cast<double>(advance[advance.size() - 1 - advance.size() / 20]);
  return fan;
}

}  // namespace

Answer draw_verb(const DrawRequest& request) {
  const PageKind kind = page_kind(request.page);
  const Engine engine = engine_or_throw(request.plan.engine);
  question_of(engine, request.plan);  // for its checks of the lists
  if (request.cylinder) check_cylinders(engine, "--cylinder", {*request.cylinder});
  PageRequest page{.kind = kind,
                   .from_deg = {},
                   .plus_minus_deg = request.plan.plus_minus_deg,
                   .margin_deg = request.plan.margin_deg,
                   .accuracy_deg = request.plan.accuracy_deg,
                   .cylinder = request.cylinder,
                   .fan = {},
                   .bump = {},
                   .done = request.plan.done,
                   .only = request.plan.only.value_or(std::vector<int>{})};
  if (request.with_plan) page.from_deg = request.plan.from_deg;
  std::string note;
  if (request.press_s) {
    if (kind != PageKind::lanes && kind != PageKind::bump)
      throw BadInput("--press goes with the pages lanes and bump; expected one of them");
    const auto model = cranking_model(engine);
    if (const auto* no = std::get_if<NoBump>(&model)) return no_bump(request.plan.engine, no->why, false);
    const CrankingModel& cranking = std::get<CrankingModel>(model);
    const ReckonedBumps bumps(cranking, cranking);
    note = bumps.note();
    if (kind == PageKind::bump)
      page.bump =
          BumpCourse{cranking, record_bump(cranking, wrap_deg(request.plan.from_deg), *request.press_s),
                     rests_of(bumps.trials(press_question(request.plan.from_deg, *request.press_s)))};
    else
      page.fan = press_fan(bumps, request.plan.from_deg, request.plan.plus_minus_deg, *request.press_s);
  } else if (kind == PageKind::bump) {
    throw BadInput("the page bump shows a press from where the crank stands; expected --press and --from");
  }
  if (const auto wrong = draw_page(engine, page, request.out)) throw BadInput(harmless(*wrong));
  return {.err = note};
}

}  // namespace shutlane::terminal
