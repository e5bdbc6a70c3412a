// Where does a bump of the starter leave the crank?
#include <fmt/format.h>

#include <cmath>

#include "sim/shut/windows.hpp"
#include "ui/terminal/bump_words.hpp"
#include "ui/terminal/figures.hpp"
#include "ui/terminal/json_text.hpp"
#include "ui/terminal/reckoned_bumps.hpp"
#include "ui/terminal/sentences.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
namespace {

Json bump_json(const std::string& word, const TrialsQuestion& question, const TrialsAnswer& a) {
  return {
      {"engine", word},
      {"from_deg", question.from_deg},
      {"press_s", question.press_s},
      {"trials", question.trials},
      {"seed", question.seed},
      {"advance_deg",
       {{"mean", a.mean_deg}, {"sd", a.sd_deg}, {"p05", a.p05_deg}, {"p50", a.p50_deg}, {"p95", a.p95_deg}}},
      {"rest_histogram", a.rest_histogram}};
}

/// "It gathers at 2 places: 70 of 100 bumps carry it on by 122 to 146 degrees, 28 of 100 by 240 to 261."
std::string gathers_in_words(const std::vector<Heap>& heaps) {
  std::string said;
  for (const Heap& heap : heaps)
    said += fmt::format(fmt::runtime(said.empty() ? say::kGathersFirst : say::kGathersAlso),
                        std::lround(100 * heap.share), std::lround(heap.from_deg), std::lround(heap.to_deg));
  return fmt::format(say::kGathers, heaps.size()) + said + ".";
}

/// Each port now and after the bump; a share of bumps is rounded down.
std::string ports_after(const Engine& engine, double from_deg, const TrialsAnswer& a) {
  std::vector<double> weights;
  const double trials = static_cast<double>(a.advance_deg.size());
  for (const int count : a.rest_histogram) weights.push_back(count / trials);
  std::vector<std::vector<std::string>> rows;
  for (const Windows& w : shut_windows(engine))
    rows.push_back({fmt::format("{}", w.cylinder),
                    fmt::format("{}", static_cast<int>(100 * surely_shut_share(w, weights) + 1e-9)),
                    w.sure.contains(from_deg) ? "surely shut now" : ""});
  return table({{"  port"}, {"of 100"}, {"", Side::left}}, rows);
}

}  // namespace

Answer bump_verb(const BumpRequest& request, const Style& style) {
  const Engine engine = engine_or_throw(request.engine);
  const auto model = cranking_model(engine, request.plugs_out ? Plugs::out : Plugs::in);
  if (const auto* none = std::get_if<NoBump>(&model)) return no_bump(request.engine, none->why, request.json);
  const ReckonedBumps bumps(std::get<CrankingModel>(model),
                            std::get<CrankingModel>(cranking_model(engine, Plugs::in)));
  TrialsQuestion question = press_question(request.from_deg, request.press_s);
  if (request.trials) question.trials = *request.trials;
  if (request.seed) question.seed = *request.seed;
  const TrialsAnswer a = bumps.trials(question);
  if (request.json) {
    Json all = bump_json(request.engine, question, a);
    if (bumps.told() > 0) all["told_bumps"] = bumps.told();
    return {.out = json_text(all), .err = bumps.note()};
  }

  const long low = std::lround(a.p05_deg), high = std::lround(a.p95_deg), middle = std::lround(a.p50_deg);
  std::string out = heading(request.engine, engine);
  out += paragraph(
      "", fmt::format(say::kBumpLeaves, request.press_s, degrees(question.from_deg),
                      request.plugs_out ? "out" : "in", low, high, middle, low < 0 ? say::kRollsBack : ""));
  if (const std::vector<Heap> heaps = rests_of(a); heaps.size() > 1)
    out += paragraph("", gathers_in_words(heaps));
  out += paragraph("", fmt::format(say::kBumpModel, question.trials, question.seed));
  if (bumps.told() > 0) out += paragraph("", fmt::format(say::kLearnedFrom, bumps_counted(bumps.told())));
  out += fmt::format("\n{}\n\n", say::kRestsAt) + rest_chart(a.rest_histogram, style);
  out += fmt::format("\n{}\n\n", say::kSureAfterBump) + ports_after(engine, question.from_deg, a);
  out += "\n" + paragraph("", say::kBumpIsChance) + paragraph("", say::kReckoned);
  return {.out = out + "\n" + bump_cautions_in_words(), .err = bumps.note()};
}

}  // namespace shutlane::terminal
