#include "ui/terminal/turn_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "ui/drawings/words.hpp"

namespace shutlane::terminal {
namespace {

constexpr double kQuarter_deg = 90.0;

/// Degrees inside [least, greatest], as coarse as the width allows, rounded inwards.
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

std::string degrees(double deg) { return fmt::format("{}", std::round(deg * 100.0) / 100.0 + 0.0); }

std::string spelt_out(std::string text) {
  constexpr std::string_view sign = "°";
  for (size_t at = text.find(sign); at != std::string::npos; at = text.find(sign)) {
    text.replace(at, sign.size(), " degrees");
  }
  return text;
}

std::string turn_sentence(const Position& p, double accuracy_deg) {
  // Where the nearest quarter turn inside the range is the turn itself, words would say that nothing less (or
  // more) will do, and the figures say it better.
  const bool slack_below = std::ceil(p.turn_min_deg / kQuarter_deg) * kQuarter_deg < p.turn_deg - kSame_deg;
  const bool slack_above = std::floor(p.turn_max_deg / kQuarter_deg) * kQuarter_deg > p.turn_deg + kSame_deg;
  const std::string words = slack_below && slack_above ? range_in_words(p.turn_min_deg, p.turn_max_deg) : "";
  return fmt::format("{}; {}",
                     spelt_out(turn_in_words(p.turn_deg, p.turn_min_deg, p.turn_max_deg, accuracy_deg)),
                     words.empty() ? range_in_degrees(p.turn_min_deg, p.turn_max_deg) : words);
}

}  // namespace shutlane::terminal
