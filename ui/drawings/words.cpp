#include "ui/drawings/words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace shutlane {

namespace {

constexpr double kQuarter_deg = 90.0;
constexpr double kGood_deg = 30.0;  // an hour on a clock face
constexpr double kLeastRange_deg =
    60.0;  // between the words of a range; less is not worth saying in quarters

// "half", "one and a quarter": how many turns, without the word turn.
std::string quarters(long n) {
  static const char* const parts[] = {"", "a quarter", "a half", "three quarters"};
  static const char* const wholes[] = {"", "one", "two", "three", "four"};
  const long whole = n / 4, part = n % 4;
  const std::string count = whole < 5 ? wholes[whole] : std::to_string(whole);
  if (whole == 0) return part == 2 ? "half" : parts[part];
  return part == 0 ? count : count + " and " + parts[part];
}

std::string quarter_turns(long n) {
  switch (n) {
    case 1:
      return "a quarter turn";
    case 2:
      return "half a turn";
    case 3:
      return "three quarters of a turn";
    case 4:
      return "one full turn";
    default:
      return quarters(n) + (n % 4 == 0 ? " full turns" : " turns");
  }
}

std::string good(long n) {
  if (n == 1) return "a good quarter";
  return n == 4 ? "a good full turn" : "a good " + quarters(n);
}

std::string bound(long n) { return n == 4 ? "one full turn" : quarters(n); }

}  // namespace

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

std::string turn_in_words(double turn_deg, double min_deg, double max_deg, double accuracy_deg) {
  const long n = std::lround(turn_deg / kQuarter_deg);
  const double named_deg = static_cast<double>(n) * kQuarter_deg;
  const bool itself = std::abs(named_deg - turn_deg) < 0.5;
  const bool harmless = named_deg - accuracy_deg >= min_deg && named_deg + accuracy_deg <= max_deg;
  if (n > 0 && (itself || harmless)) return quarter_turns(n);
  return "a turn of " + degrees_in_words(turn_deg);
}

std::string range_in_words(double min_deg, double max_deg) {
  // The lowest words at or above min_deg.
  const auto below = static_cast<long>(std::floor(min_deg / kQuarter_deg + 1e-9));
  const double past_deg = min_deg - static_cast<double>(below) * kQuarter_deg;
  const bool exact_low = past_deg < kSame_deg;
  const bool good_low = !exact_low && below > 0 && past_deg <= kGood_deg;
  const long low = exact_low || good_low ? below : below + 1;
  const double low_deg = static_cast<double>(low) * kQuarter_deg + (good_low ? kGood_deg : 0);
  // The highest words at or below max_deg.
  const auto above = static_cast<long>(std::ceil(max_deg / kQuarter_deg - 1e-9));
  const double short_deg = static_cast<double>(above) * kQuarter_deg - max_deg;
  const bool exact_high = short_deg < kSame_deg;
  const bool under_high = !exact_high && short_deg <= kGood_deg;
  const long high = exact_high || under_high ? above : above - 1;
  const double high_deg = static_cast<double>(high) * kQuarter_deg - (under_high ? kGood_deg : 0);

  if (high_deg - low_deg < kLeastRange_deg) return {};
  const std::string top = (under_high ? "just under " : "") + bound(high);
  if (low == 0) return "anything up to " + top + " will do";
  return "anything from " + (good_low ? good(low) : bound(low)) + " to " + top + " will do";
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
      const std::string range = range_in_words(p.turn_min_deg, p.turn_max_deg);
      lines.push_back({Kind::turn, i,
                       fmt::format("{}. Turn the crank forward: {}{} ({} to {}).", clear,
                                   turn_in_words(p.turn_deg, p.turn_min_deg, p.turn_max_deg, accuracy_deg),
                                   range.empty() ? "" : "; " + range,
                                   degrees_in_words(std::ceil(p.turn_min_deg * 2 - 1e-6) / 2),
                                   degrees_in_words(std::floor(p.turn_max_deg * 2 + 1e-6) / 2))});
    }
    if (p.blast.empty())
      lines.push_back({Kind::work, i, "No port to be done is surely shut here."});
    else
      lines.push_back(
          {Kind::work, i,
           fmt::format("{} {} reckoned shut. Look into {}; blast {} only if you see {} shut{}. Plug all "
                       "other ports.",
                       p.blast.size() == 1 ? "Port" : "Ports",
                       list_in_words(p.blast) + (p.blast.size() == 1 ? " is" : " are"),
                       p.blast.size() == 1 ? "it" : "each", "it", "it",
                       p.blast.size() == 1 ? "" : ", one at a time")});
  }
  if (plan.turns() > 0 || (!plan.positions.empty() && !plan.positions[0].blast.empty()))
    lines.push_back({Kind::end, 0, "At the end suck all ports clear and count the plugs."});
  return lines;
}

}  // namespace shutlane
