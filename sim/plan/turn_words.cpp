#include "sim/plan/turn_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace shutlane {
namespace {

constexpr std::array kSteps_deg{90.0, 45.0, 5.0, 1.0};  // the easiest to feel first
constexpr size_t kFeltSteps = 2;      // quarters and eighths; the others are read off a mark
constexpr double kNoSlack_deg = 1.0;  // less than this is not worth a word

double first_multiple(double from_deg, double step_deg) {
  return std::ceil((from_deg - kSame_deg) / step_deg) * step_deg;
}
double last_multiple(double to_deg, double step_deg) {
  return std::floor((to_deg + kSame_deg) / step_deg) * step_deg;
}

/// The multiple of the step nearest to the wanted turn within both ends; none at 0, which is no turn.
std::optional<double> nearest_multiple(double wanted_deg, double min_deg, double max_deg, double step_deg) {
  const double low_deg = std::max(first_multiple(min_deg, step_deg), step_deg);
  const double high_deg = last_multiple(max_deg, step_deg);
  if (low_deg > high_deg + kSame_deg) return {};
  return std::clamp(std::round(wanted_deg / step_deg) * step_deg, low_deg, high_deg);
}

bool multiple_of(double deg, double step_deg) {
  return std::abs(deg - std::round(deg / step_deg) * step_deg) <= kSame_deg;
}

double told_aim(const Position& planned, double accuracy_deg) {
  const double min_deg = planned.turn_min_deg, max_deg = planned.turn_max_deg, wanted_deg = planned.turn_deg;
  for (size_t i = 0; i < kFeltSteps; ++i) {
    const double step_deg = kSteps_deg[i];
    if (multiple_of(wanted_deg, step_deg)) return std::round(wanted_deg / step_deg) * step_deg;
    if (const auto aim_deg =
            nearest_multiple(wanted_deg, min_deg + accuracy_deg, max_deg - accuracy_deg, step_deg))
      return *aim_deg;
  }
  // A hand that turns to within 60 degrees cannot turn 346: one full turn, though a corner of it may miss.
  constexpr double kNearly = 0.75;
  for (size_t i = 0; i < kFeltSteps && accuracy_deg >= kSteps_deg[kFeltSteps - 1]; ++i)
    if (const auto aim_deg = nearest_multiple(wanted_deg, min_deg + kNearly * accuracy_deg,
                                              max_deg - kNearly * accuracy_deg, kSteps_deg[i]))
      return *aim_deg;
  if (const auto aim_deg = nearest_multiple(wanted_deg, min_deg + accuracy_deg, max_deg - accuracy_deg, 1.0))
    return *aim_deg;
  // Nothing round keeps the accuracy: the planned turn, in as few decimals as stay inside.
  for (const double step_deg : {1.0, 0.1, 0.01}) {
    const double aim_deg = std::round(wanted_deg / step_deg) * step_deg;
    if (aim_deg > 0 && aim_deg >= min_deg - kSame_deg && aim_deg <= max_deg + kSame_deg) return aim_deg;
  }
  return wanted_deg;
}

std::string figure(double deg) {
  const long hundredths = std::lround(deg * 100);
  std::string text = std::to_string(hundredths / 100);
  if (const long part = hundredths % 100; part != 0) {
    text += "." + std::to_string(part / 10);
    if (part % 10 != 0) text += std::to_string(part % 10);
  }
  return text + "\u00b0";
}

std::string number_in_words(long n) {
  static constexpr std::array kWords{"no",    "one",   "two",  "three", "four",   "five",  "six",
                                     "seven", "eight", "nine", "ten",   "eleven", "twelve"};
  return n >= 0 && n < static_cast<long>(kWords.size()) ? kWords[static_cast<size_t>(n)] : std::to_string(n);
}

}  // namespace

ToldTurn tell_turn(const Position& planned, double accuracy_deg) {
  const double min_deg = planned.turn_min_deg, max_deg = planned.turn_max_deg;
  const double aim_deg = told_aim(planned, accuracy_deg);
  ToldTurn told{aim_deg, aim_deg, aim_deg, 0, 0};
  // Both ends in the same parts, the easiest that leave the aim some room on every side that has any. An aim
  // in degrees has its ends in degrees too.
  const bool felt = multiple_of(aim_deg, kSteps_deg[kFeltSteps - 1]);
  for (size_t i = felt ? 0 : kFeltSteps; i < kSteps_deg.size(); ++i) {
    const double low_deg = std::max(0.0, first_multiple(min_deg, kSteps_deg[i]));
    const double high_deg = last_multiple(max_deg, kSteps_deg[i]);
    const bool low_said = low_deg<aim_deg - kSame_deg, high_said = high_deg> aim_deg + kSame_deg;
    if ((!low_said && min_deg < aim_deg - kNoSlack_deg) || (!high_said && max_deg > aim_deg + kNoSlack_deg))
      continue;
    if (low_said) told.min_deg = low_deg;
    if (high_said) told.max_deg = high_deg;
    break;
  }
  told.logged_min_deg = std::max(0.0, std::min(told.min_deg, told.aim_deg - accuracy_deg));
  told.logged_max_deg = std::max(told.max_deg, told.aim_deg + accuracy_deg);
  return told;
}

std::string turn_in_words(double turn_deg) {
  constexpr double kEighth_deg = kTurn_deg / 8;
  const long eighths = std::lround(turn_deg / kEighth_deg);
  if (eighths <= 0 || !multiple_of(turn_deg, kEighth_deg)) return figure(turn_deg);
  static constexpr std::array kWithin{"",
                                      "an eighth of a turn",
                                      "a quarter of a turn",
                                      "three eighths of a turn",
                                      "half a turn",
                                      "five eighths of a turn",
                                      "three quarters of a turn",
                                      "seven eighths of a turn"};
  static constexpr std::array kBeyond{"",       "an eighth",   "a quarter",     "three eighth",
                                      "a half", "five eighth", "three quarter", "seven eighth"};
  const long whole = eighths / 8;
  const auto rest = static_cast<size_t>(eighths % 8);
  if (whole == 0) return kWithin[rest];
  if (rest == 0) return whole == 1 ? "one full turn" : number_in_words(whole) + " full turns";
  return number_in_words(whole) + " and " + kBeyond[rest] + " turns";
}

std::string range_in_words(const ToldTurn& told) {
  const bool less = told.min_deg<told.aim_deg - kSame_deg, more = told.max_deg> told.aim_deg + kSame_deg;
  const std::string low = turn_in_words(told.min_deg), high = turn_in_words(told.max_deg);
  if (less && more)
    return told.min_deg < kSame_deg ? "anything up to " + high + " will do"
                                    : "anything from " + low + " to " + high + " will do";
  if (less)
    return told.min_deg < kSame_deg ? "anything less will do, but no more"
                                    : "anything down to " + low + " will do, but no more";
  return more ? "anything up to " + high + " will do, but no less" : "";
}

std::string turn_sentence(const Position& planned, double accuracy_deg) {
  ToldTurn told = tell_turn(planned, accuracy_deg);
  const double min_deg = planned.turn_min_deg, max_deg = planned.turn_max_deg;
  const double fifth_deg = kSteps_deg[kFeltSteps];
  if (told.min_deg - min_deg > kWordsAgree_deg && told.min_deg < told.aim_deg - kSame_deg)
    told.min_deg = std::max(0.0, first_multiple(min_deg, fifth_deg));
  if (max_deg - told.max_deg > kWordsAgree_deg && told.max_deg > told.aim_deg + kSame_deg)
    told.max_deg = last_multiple(max_deg, fifth_deg);
  const auto in_words = [&](double end_deg) {
    return end_deg > 0 && std::abs(end_deg - told.aim_deg) > kSame_deg &&
           multiple_of(end_deg, kSteps_deg[kFeltSteps - 1]);
  };
  const std::string range = range_in_words(told);
  std::string said = turn_in_words(told.aim_deg) + "; " + (range.empty() ? "it must be met exactly" : range);
  if (in_words(told.min_deg) || in_words(told.max_deg))
    said += " (" + figure(first_multiple(min_deg, 0.5)) + " to " + figure(last_multiple(max_deg, 0.5)) + ")";
  return said;
}

FollowedTurn tell_followed_turn(const WrenchPlan& plan, size_t position, double accuracy_deg) {
  double total_deg = 0;
  for (size_t i = 1; i <= position; ++i) total_deg += plan.positions[i].turn_deg;
  const double step_deg = accuracy_deg >= 1 ? 1 : 0.01;
  const double told_deg = std::round(total_deg / step_deg) * step_deg;
  const double left_deg = accuracy_deg - std::abs(told_deg - total_deg);
  return {told_deg, std::max(0.0, last_multiple(left_deg, accuracy_deg >= 1 ? 0.5 : 0.01))};
}

std::string turn_sentence(const WrenchPlan& plan, size_t position, double accuracy_deg) {
  if (position + 1 >= plan.positions.size()) return turn_sentence(plan.positions[position], accuracy_deg);
  const FollowedTurn told = tell_followed_turn(plan, position, accuracy_deg);
  const double before_deg =
      position == 1 ? 0 : tell_followed_turn(plan, position - 1, accuracy_deg).total_deg;
  std::string said = turn_in_words(told.total_deg - before_deg);
  const std::string low = figure(std::max(0.0, told.total_deg - told.plus_minus_deg));
  const std::string high = figure(told.total_deg + told.plus_minus_deg);
  const bool exact = told.plus_minus_deg < kSame_deg;
  if (position == 1)
    said += exact ? ", which must be met exactly"
                  : ", to within " + figure(told.plus_minus_deg) + " (" + low + " to " + high + ")";
  else if (exact)
    said += ", to " + low + " in all from the chalk line, which must be met exactly";
  else
    said += " (" + low + " to " + high + " in all from the chalk line)";
  if (position == 1 && plan.turns() > 2) said += ", from a chalk line across pulley and cover";
  return said;
}

WrenchPlan holding_together(WrenchPlan plan, double accuracy_deg) {
  for (size_t i = 1; i + 1 < plan.positions.size(); ++i) {
    Position& p = plan.positions[i];
    p.turn_min_deg = std::max(p.turn_min_deg, p.turn_deg - accuracy_deg);
    p.turn_max_deg = std::max(p.turn_deg, std::min(p.turn_max_deg, p.turn_deg + accuracy_deg));
  }
  return plan;
}

}  // namespace shutlane
