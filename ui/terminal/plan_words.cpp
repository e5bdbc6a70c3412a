#include "ui/terminal/plan_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "sim/job/cautions.hpp"
#include "sim/plan/turn_words.hpp"
#include "ui/drawings/words.hpp"
#include "ui/terminal/figures.hpp"
#include "ui/terminal/page.hpp"
#include "ui/terminal/sentences.hpp"

namespace shutlane::terminal {

std::string plan_row(std::string_view what, std::string_view text) {
  return paragraph(fmt::format("  {:<12}", what), text);
}

std::string cautions_in_words() {
  std::string out = fmt::format("{}\n", say::kBefore);
  for (const std::string_view caution : kCautions) out += paragraph("  - ", caution);
  return out;
}

std::string accuracy_in_words(double accuracy_deg, size_t cylinders) {
  const double usual_deg = usual_accuracy_deg(TurnBy::wrench, cylinders);
  if (accuracy_deg >= usual_deg) return "";
  // Rounded up: what is told must not be better than what holds.
  return paragraph("",
                   fmt::format(say::kAccuracy, degrees(accuracy_deg), degrees(std::ceil(usual_deg * 2) / 2)));
}

std::string position_in_words(const Position& p, size_t number) {
  std::string out =
      number == 1 ? fmt::format("{}\n", say::kHere) : fmt::format(say::kPosition, number) + "\n";
  if (p.blast.empty()) {
    out += plan_row("Blast", say::kNothingHere);
  } else {
    out += plan_row("Blast", fmt::format(say::kBlast, ports_in_words(p.blast)));
    out += plan_row("Bungs", say::kBungs);
  }
  if (!p.not_shut.empty())
    out += plan_row("Leave alone", fmt::format(say::kNotShut, ports_in_words(p.not_shut)));
  return out;
}

std::string turn_in_steps(const WrenchPlan& plan, size_t position, double accuracy_deg) {
  const Position& p = plan.positions[position];
  std::string out = fmt::format(say::kTurnNumber, position) + "\n";
  if (!p.suck_out_before.empty()) {
    out += plan_row("Suck out", fmt::format(say::kSuckOut, ports_in_words(p.suck_out_before)));
  }
  out += plan_row("Empty", say::kEmpty);
  out += plan_row("Turn", spelt_out(turn_sentence(plan, position, accuracy_deg)) +
                              (position < plan.turns() ? "; after any other turn plan again." : "."));
  out += plan_row("Look", say::kLookAgain);
  return out;
}

std::string full_turn_in_words(double accuracy_deg) {
  return fmt::format(say::kTurnNumber, 1) + "\n" + plan_row("Suck out", say::kSuckOutBlasted) +
         plan_row("Empty", say::kEmpty) +
         plan_row("Turn", fmt::format(say::kFullTurnWithin, degrees(accuracy_deg))) +
         plan_row("Look", say::kLookAgain);
}

std::string after_the_last() {
  return fmt::format("\n{}\n", say::kAfter) + plan_row("Suck out", say::kAllClear) +
         plan_row("Count", say::kCountPlugs);
}

}  // namespace shutlane::terminal
