#include "sim/job/turn_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace shutlane {
namespace {

constexpr std::array kParts{4, 8, 12};  // of a turn, the easiest to feel first

std::vector<double> multiples_within(double min_deg, double max_deg, int parts) {
  std::vector<double> found;
  const double step_deg = kTurn_deg / parts;
  for (double at_deg = std::ceil((min_deg - kSame_deg) / step_deg) * step_deg; at_deg <= max_deg + kSame_deg;
       at_deg += step_deg)
    if (at_deg > 0) found.push_back(at_deg);
  return found;
}

double nearest_to(double wanted_deg, const std::vector<double>& candidates) {
  return *std::min_element(candidates.begin(), candidates.end(), [&](double a, double b) {
    return std::abs(a - wanted_deg) < std::abs(b - wanted_deg);
  });
}

std::string number_in_words(int n) {
  static constexpr std::array kWords{"no",    "one",   "two",  "three", "four",   "five",  "six",
                                     "seven", "eight", "nine", "ten",   "eleven", "twelve"};
  return n >= 0 && n < static_cast<int>(kWords.size()) ? kWords[static_cast<size_t>(n)] : std::to_string(n);
}

}  // namespace

ToldTurn tell_turn(const Position& planned, double accuracy_deg) {
  const double min_deg = planned.turn_min_deg, max_deg = planned.turn_max_deg;
  ToldTurn told{planned.turn_deg, planned.turn_deg, planned.turn_deg, 0, 0};
  for (const int parts : kParts) {
    const std::vector<double> usable = multiples_within(min_deg, max_deg, parts);
    // The aim keeps the accuracy clear of both ends, as the planner's own aim does.
    const std::vector<double> aims = multiples_within(min_deg + accuracy_deg, max_deg - accuracy_deg, parts);
    if (aims.empty()) continue;
    told = {nearest_to(planned.turn_deg, aims), usable.front(), usable.back(), 0, 0};
    break;
  }
  told.logged_min_deg = std::max(0.0, std::min(told.min_deg, told.aim_deg - accuracy_deg));
  told.logged_max_deg = std::max(told.max_deg, told.aim_deg + accuracy_deg);
  return told;
}

std::string turn_in_words(double turn_deg) {
  for (const int parts : kParts) {
    const double count = turn_deg * parts / kTurn_deg;
    const int n = static_cast<int>(std::lround(count));
    if (std::abs(count - n) > 1e-6 || n <= 0) continue;
    const int whole = n / parts, rest = n % parts;
    if (rest == 0) return whole == 1 ? "one full turn" : number_in_words(whole) + " full turns";
    std::string part;
    if (2 * rest == parts)
      part = "half";
    else if (parts == 4)
      part = rest == 1 ? "quarter" : "three quarters";
    else
      part = number_in_words(rest) + (parts == 8 ? " eighth" : " twelfth") + (rest > 1 ? "s" : "");
    if (whole == 0) {
      if (part == "half") return "half a turn";
      if (part == "quarter") return "a quarter of a turn";
      return part + " of a turn";
    }
    const bool article = part == "half" || part == "quarter";
    return number_in_words(whole) + " and " + (article ? "a " : "") + part + " turns";
  }
  return std::to_string(std::lround(turn_deg)) + "\u00b0";
}

}  // namespace shutlane
