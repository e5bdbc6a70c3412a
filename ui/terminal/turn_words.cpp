#include "ui/terminal/turn_words.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace shutlane::terminal {
namespace {

constexpr double kQuarter_deg = 90.0;
// An angle this far from a quarter turn is still told from it by the hand on the wrench; the figure is a
// judgement, and only chooses words: what will do is always said beside it.
constexpr double kAboutQuarter_deg = 15.0;

std::string amount_in_words(double turn_deg) {
  const int nearest = static_cast<int>(std::lround(turn_deg / kQuarter_deg));
  const double off_deg = std::abs(turn_deg - nearest * kQuarter_deg);
  if (nearest >= 1 && off_deg < kSame_deg) return quarters_in_words(nearest);
  if (nearest >= 1 && off_deg <= kAboutQuarter_deg) {
    return fmt::format("about {} ({} degrees)", quarters_in_words(nearest), degrees(turn_deg));
  }
  const int below = static_cast<int>(std::floor(turn_deg / kQuarter_deg));
  if (below < 1) return fmt::format("less than a quarter turn ({} degrees)", degrees(turn_deg));
  return fmt::format("between {} and {} ({} degrees)", quarters_in_words(below), quarters_in_words(below + 1),
                     degrees(turn_deg));
}

/// A number of degrees inside [least, greatest], as coarse as the width allows, rounded inwards.
std::string range_in_degrees(double least_deg, double greatest_deg) {
  for (double step : {5.0, 1.0, 0.1, 0.01}) {
    const double low = std::ceil((least_deg - kSame_deg) / step) * step;
    const double high = std::floor((greatest_deg + kSame_deg) / step) * step;
    if (high - low >= 4 * step) {
      return fmt::format("anything from {} to {} degrees will do", degrees(low), degrees(high));
    }
  }
  return "it must be met exactly";
}

}  // namespace

std::string degrees(double deg) {
  const double rounded = std::round(deg * 100.0) / 100.0;
  return fmt::format("{}", rounded + 0.0);
}

std::string quarters_in_words(int quarters) {
  static constexpr std::array small{
      "no turn at all", "a quarter turn",          "half a turn",          "three quarters of a turn",
      "one full turn",  "one and a quarter turns", "one and a half turns", "one and three quarter turns"};
  if (quarters < static_cast<int>(small.size())) return small[static_cast<size_t>(std::max(quarters, 0))];
  static constexpr std::array parts{"", " and a quarter", " and a half", " and three quarters"};
  return fmt::format("{}{} turns", quarters / 4, parts[static_cast<size_t>(quarters % 4)]);
}

std::string turn_in_words(const Position& p) {
  const std::string amount = amount_in_words(p.turn_deg);
  const int low = static_cast<int>(std::ceil((p.turn_min_deg - kSame_deg) / kQuarter_deg));
  const int high = static_cast<int>(std::floor((p.turn_max_deg + kSame_deg) / kQuarter_deg));
  const bool wide = low < high && low * kQuarter_deg <= p.turn_deg && p.turn_deg <= high * kQuarter_deg;
  if (!wide) return fmt::format("{}; {}", amount, range_in_degrees(p.turn_min_deg, p.turn_max_deg));
  if (low <= 0) return fmt::format("{}; anything up to {} will do", amount, quarters_in_words(high));
  return fmt::format("{}; anything between {} and {} will do", amount, quarters_in_words(low),
                     quarters_in_words(high));
}

std::string list_in_words(const std::vector<int>& numbers) {
  std::string words;
  for (size_t i = 0; i < numbers.size(); ++i) {
    if (i > 0) words += i + 1 == numbers.size() ? " and " : ", ";
    words += fmt::format("{}", numbers[i]);
  }
  return words;
}

std::string ports_in_words(const std::vector<int>& numbers) {
  return fmt::format("{} {}", numbers.size() == 1 ? "port" : "ports", list_in_words(numbers));
}

}  // namespace shutlane::terminal
