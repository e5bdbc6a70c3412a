#include <fmt/format.h>

#include <algorithm>

#include "ui/terminal/json_text.hpp"
#include "ui/terminal/page.hpp"
#include "ui/terminal/read_options.hpp"
#include "ui/terminal/verbs.hpp"
#include "ui/told/event_words.hpp"
#include "ui/told/telling.hpp"

namespace shutlane::terminal {
namespace {

std::vector<JobEvent> events_of(const std::vector<std::string>& words) {
  std::vector<JobEvent> events;
  for (const std::string& word : words) {
    const auto event = event_of_word(word);
    if (const auto* why = std::get_if<std::string>(&event))
      throw BadInput(fmt::format("--told: {}: {}", in_quotes(word), *why));
    events.push_back(std::get<JobEvent>(event));
  }
  return events;
}

std::string in_words(const Advice& advice) {
  std::string out = paragraph("", advice.sentence) + paragraph("", advice.second);
  const std::vector<Press> presses = advice.told();
  if (presses.empty()) return out;
  out += "\n";
  size_t widest = 0;
  for (const Press& press : presses) widest = std::max(widest, press.label.size());
  for (const Press& press : presses) {
    std::string tell;
    for (const JobEvent& event : press.tells) tell += (tell.empty() ? "" : " ") + event_word(event);
    out += fmt::format("  {:<{}}  {}\n", press.label, widest, tell);
  }
  return out;
}

}  // namespace

Answer next_verb(const NextRequest& request) {
  const Engine engine = engine_or_throw(request.engine);
  const auto turning = turning_of_word(request.by);
  if (!turning)
    throw BadInput(fmt::format("--by: {} is not known; expected wrench, bar, wheel, starter or both",
                               in_quotes(request.by)));
  const std::vector<std::string> words = words_of(request.told);
  const std::vector<JobEvent> events = events_of(words);
  const JobModel model = make_job_model(engine, usual_rules(engine, *turning));
  const auto told = tell_all(model, events);
  if (const auto* refused = std::get_if<Refusal>(&told))
    throw BadInput(fmt::format("--told: {} is not allowed where the job stands then: {}",
                               in_quotes(words[refused->index]), refused->why));
  const Telling& telling = std::get<Telling>(told);
  const Advice advice = advise(model, telling.state);
  if (!request.json) return {.out = in_words(advice)};
  return {.out = json_text(next_document(request.engine, model, telling, advice))};
}

}  // namespace shutlane::terminal
