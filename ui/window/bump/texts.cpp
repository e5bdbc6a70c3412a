#include "ui/window/bump/texts.hpp"

#include <fmt/format.h>

#include <cmath>

#include "ui/drawings/bump_words.hpp"

namespace shutlane::texts {
namespace {

std::string as_sentence(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text + ".";
}

}  // namespace

std::string bump_press(const BumpPlan& plan) {
  return fmt::format("Bump the starter: press {} s.", seconds_in_words(plan.press_s));
}

std::string bump_expects(const BumpPlan& plan) {
  return as_sentence(nearly_as_good_in_words(plan) + "; " + first_bump_in_words(plan)) + " Hands clear.";
}

std::string bump_learnt(int bumps, double stronger) {
  constexpr double kWorthSaying = 0.03;
  if (bumps == 0 || std::abs(stronger) < kWorthSaying) return "";
  return fmt::format(" This car goes {} than stated ({} {}).", stronger > 0 ? "further" : "less far", bumps,
                     bumps == 1 ? "bump" : "bumps");
}

std::string bump_reckoning(double share_done) {
  return fmt::format("Reckoning how long to press: {} %.", static_cast<int>(100 * share_done + 1e-9));
}

std::string no_bump() { return "No bump: turn by wrench."; }
std::string no_bump_because(const std::string& why) { return as_sentence(why); }
std::string no_starter_to_bump() {
  return "No bump: this engine has no starter that can be bumped (hybrid).";
}
std::string wrench_instead() { return "Turn by wrench instead"; }

std::string wrench_now() { return "Go on by wrench"; }
std::string wrench_now_said() { return "No bump now: finish by wrench."; }
std::string wrench_now_because(const MixedPlan& plan) {
  const std::string turns =
      plan.turns_if_wrench_only == 1 ? "One turn" : fmt::format("{} turns", plan.turns_if_wrench_only);
  if (!std::isfinite(plan.expected_bumps_only)) return turns + " by wrench will do; bumps may never end.";
  return fmt::format("{} by wrench will do; bumps alone would take about {:.1f}.", turns,
                     plan.expected_bumps_only);
}
std::string bump_then_wrench(const std::optional<MixedPlan>& plan) {
  constexpr double kWorthSaying = 0.2;
  if (!plan || plan->expected_turns < kWorthSaying) return "";
  return " Then the wrench to finish.";
}

std::string start_beeps() { return "Start the beeps"; }
std::string beeps_note() { return "three ticks, then press at the high beep, let go at the low one"; }
std::string start_beeps_tip() {
  return "Times the press by sound, and on this button. Have the hand on the remote switch.";
}
std::string bumped_unbeeped() { return "bumped"; }
std::string bumped_unbeeped_tip() { return "The starter was bumped without the beeps."; }
std::string hand_on_switch() { return "Hand on the remote switch."; }
std::string beeps_explained() {
  return "Three ticks, then press at the high beep and let go at the low one. Anyone near a fan or belt: "
         "stop.";
}

std::string moment(const PressMoment& moment) {
  switch (moment.phase) {
    case PressPhase::get_ready:
      return "Ready";
    case PressPhase::count_in:
      return std::to_string(moment.ticks_left);
    case PressPhase::press:
      return "PRESS";
    case PressPhase::let_go:
    case PressPhase::over:
      return "LET GO";
  }
  return "";
}

std::string stop_beeps() { return "stop"; }
std::string what_happened(double press_s) {
  return fmt::format("Pressed {} s. Did the crank turn?", seconds_in_words(press_s));
}
std::string what_happened_second() {
  return "However little: bumped. If it stopped at once, liquid or an object may be inside.";
}
std::string not_pressed() { return "not pressed"; }
std::string stopped_at_once() { return "stopped at once"; }
std::string stopped_at_once_tip() { return "It turned, and something held it. From here on by hand."; }
std::string no_more_bumps() {
  return "No second bump. Look in through the plug holes; then turn by wrench, without force.";
}

}  // namespace shutlane::texts
