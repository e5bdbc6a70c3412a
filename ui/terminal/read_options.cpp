#include "ui/terminal/read_options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "engines/words.hpp"
#include "ui/terminal/answer.hpp"

namespace shutlane::terminal {
namespace {

constexpr size_t kWordShown = 60;

/// Decimal digits with an optional sign, point and exponent; finite. from_chars knows no locale.
std::optional<double> finite_number(std::string_view word) {
  if (word.size() > 1 && word[0] == '+' && word[1] != '-') word.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
  if (error != std::errc() || end != word.data() + word.size() || !std::isfinite(value)) return std::nullopt;
  return value + 0.0;  // -0 becomes 0
}

std::optional<int> whole_number(std::string_view word) {
  int value = 0;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
  if (word.empty() || error != std::errc() || end != word.data() + word.size()) return std::nullopt;
  return value;
}

}  // namespace

std::string harmless(std::string_view text) { return made_harmless(text); }

std::string in_quotes(std::string_view word) {
  if (word.size() <= kWordShown) return fmt::format("'{}'", harmless(word));
  size_t cut = kWordShown;
  while (cut > 0 && (static_cast<unsigned char>(word[cut]) & 0xc0) == 0x80)
    --cut;  // never inside a character
  return fmt::format("'{}...'", harmless(word.substr(0, cut)));
}

double read_number(std::string_view option, std::string_view word, Range range) {
  const std::string expected =
      fmt::format("expected a number of {} from {} to {}", range.unit, range.least, range.greatest);
  const auto value = finite_number(word);
  if (!value) throw BadInput(fmt::format("{}: {} is not a number; {}", option, in_quotes(word), expected));
  if (*value < range.least || *value > range.greatest) {
    throw BadInput(fmt::format("{}: {} is out of range; {}", option, in_quotes(word), expected));
  }
  return *value;
}

AngleAbout read_angle_about(std::string_view option, std::string_view word, Range plus_minus) {
  const size_t colon = word.find(':');
  AngleAbout angle{read_number(option, word.substr(0, colon), kAngles), std::nullopt};
  if (colon != std::string_view::npos) {
    angle.plus_minus_deg =
        read_number(fmt::format("{}, plus-minus", option), word.substr(colon + 1), plus_minus);
  }
  return angle;
}

std::vector<int> read_list(std::string_view option, std::string_view word) {
  std::vector<int> list;
  for (size_t start = 0; start <= word.size();) {
    const size_t comma = std::min(word.find(',', start), word.size());
    const std::string_view item = word.substr(start, comma - start);
    const auto number = whole_number(item);
    if (!number) {
      throw BadInput(fmt::format("{}: {} is not a cylinder number; expected a list such as 1,2,5", option,
                                 in_quotes(item)));
    }
    if (std::find(list.begin(), list.end(), *number) != list.end()) {
      throw BadInput(
          fmt::format("{}: cylinder {} stands there twice; expected each one once", option, *number));
    }
    list.push_back(*number);
    start = comma + 1;
  }
  return list;
}

void check_cylinders(const Engine& engine, std::string_view option, const std::vector<int>& list) {
  for (int number : list) {
    if (engine.find(number) != nullptr) continue;
    std::string known;
    for (const Cylinder& c : engine.cylinders)
      known += fmt::format("{}{}", known.empty() ? "" : ",", c.number);
    throw BadInput(
        fmt::format("{}: the engine has no cylinder {}; expected some of {}", option, number, known));
  }
}

}  // namespace shutlane::terminal
