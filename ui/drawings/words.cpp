#include "ui/drawings/words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "sim/plan/turn_words.hpp"

namespace shutlane {

std::string list_in_words(std::span<const int> numbers) {
  std::string text;
  for (size_t i = 0; i < numbers.size(); ++i) {
    if (i > 0) text += i + 1 == numbers.size() ? " and " : ", ";
    text += std::to_string(numbers[i]);
  }
  return text;
}

std::string ports_in_words(std::span<const int> numbers) {
  if (numbers.empty()) return "no port";
  return (numbers.size() == 1 ? "port " : "ports ") + list_in_words(numbers);
}

std::string degrees_in_words(double deg) {
  const double half = std::round(deg * 2) / 2;
  return half == std::round(half) ? fmt::format("{:.0f}°", half + 0.0) : fmt::format("{:.1f}°", half);
}

std::string small_length(double mm, bool inches) {
  if (!inches) return fmt::format("{:.4g} mm", mm);
  return fmt::format("{:.4g} in", std::round(mm / 25.4 * 1e4) / 1e4);
}

std::vector<PlanLine> plan_in_words(const WrenchPlan& plan, double accuracy_deg) {
  using Kind = PlanLine::Kind;
  if (!plan.possible())
    return {{Kind::none, 0,
             "No plan: " + ports_in_words(plan.no_plan) + (plan.no_plan.size() == 1 ? " is" : " are") +
                 " not surely shut for long enough, with these tolerances and this accuracy."}};
  std::vector<PlanLine> lines;
  for (size_t i = 0; i < plan.positions.size(); ++i) {
    const Position& p = plan.positions[i];
    if (i > 0) {
      const std::string clear = p.suck_out_before.empty() ? "Take everything out of every port"
                                                          : "Suck out " + ports_in_words(p.suck_out_before) +
                                                                "; take everything out of every port";
      lines.push_back(
          {Kind::turn, i,
           fmt::format(
               "{}. Turn the crank forward: {}.", clear,
               turn_sentence(plan, i, accuracy_deg) +
                   (i == 1 && plan.turns() > 1 ? "; after any other turn than these plan again" : ""))});
    }
    if (p.blast.empty())
      lines.push_back({Kind::work, i, "No port to be done is surely shut here."});
    else
      lines.push_back(
          {Kind::work, i,
           fmt::format("{} {} reckoned shut. Look into {}; blast {} only if you see {} shut{}. Bungs in all "
                       "other ports.",
                       p.blast.size() == 1 ? "Port" : "Ports",
                       list_in_words(p.blast) + (p.blast.size() == 1 ? " is" : " are"),
                       p.blast.size() == 1 ? "it" : "each", "it", "it",
                       p.blast.size() == 1 ? "" : ", one at a time")});
  }
  if (plan.turns() > 0 || (!plan.positions.empty() && !plan.positions[0].blast.empty()))
    lines.push_back({Kind::end, 0, "At the end suck all ports clear and count the bungs."});
  return lines;
}

}  // namespace shutlane
