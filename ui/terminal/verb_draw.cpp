#include <fmt/format.h>

#include <array>

#include "engines/catalog.hpp"
#include "ui/drawings/pages.hpp"
#include "ui/terminal/read_options.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
namespace {

PageKind page_kind(const std::string& word) {
  static constexpr std::array kinds{std::pair{"lanes", PageKind::lanes}, std::pair{"dial", PageKind::dial},
                                    std::pair{"lift", PageKind::lift}};
  std::vector<std::string> names;
  for (const auto& [name, kind] : kinds) {
    if (word == name) return kind;
    names.emplace_back(name);
  }
  const auto near = nearest(word, names);
  throw BadInput(fmt::format("unknown page {}; {}", in_quotes(word),
                             near ? fmt::format("did you mean {}?", *near) : "expected lanes, dial or lift"));
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
                   .done = request.plan.done,
                   .only = request.plan.only.value_or(std::vector<int>{})};
  if (request.with_plan) page.from_deg = request.plan.from_deg;
  if (const auto wrong = draw_page(engine, page, request.out)) throw BadInput(harmless(*wrong));
  return {};
}

}  // namespace shutlane::terminal
