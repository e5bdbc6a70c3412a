#include <fmt/format.h>

#include <algorithm>

#include "engines/catalog.hpp"
#include "ui/terminal/read_options.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {

Engine engine_or_throw(const std::string& name_or_path) {
  auto found = find_engine(name_or_path);
  if (auto* lines = std::get_if<std::string>(&found)) throw BadInput(*lines);
  return std::get<Engine>(std::move(found));
}

std::string heading(const std::string& word, const Engine& engine) {
  constexpr size_t kShown = 60;
  std::string line =
      fmt::format("{} ({}).", harmless(cut(engine.spec.name, kShown)), harmless(cut(word, kShown)));
  if (!engine.spec.source.empty())
    line += fmt::format(" Numbers: {}.", harmless(cut(engine.spec.source, kShown)));
  return paragraph("", line);
}

WrenchQuestion question_of(const Engine& engine, const PlanRequest& request) {
  check_cylinders(engine, "--done", request.done);
  if (request.only) check_cylinders(engine, "--only", *request.only);
  WrenchQuestion question{.from_deg = wrap_deg(request.from_deg),
                          .plus_minus_deg = request.plus_minus_deg,
                          .accuracy_deg = request.accuracy_deg,
                          .left = {},
                          .done = request.done};
  const auto holds = [](const std::vector<int>& list, int number) {
    return std::find(list.begin(), list.end(), number) != list.end();
  };
  for (const Cylinder& c : engine.cylinders) {
    const bool wanted = !request.only || holds(*request.only, c.number);
    if (wanted && !holds(request.done, c.number)) question.left.push_back(c.number);
  }
  return question;
}

}  // namespace shutlane::terminal
