#pragma once
// Words of the command line -> numbers and lists. Strict, and the same in every locale. All of them throw
// BadInput with one line that names the option, repeats the word and says what is expected.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/mechanism/engine.hpp"

namespace shutlane::terminal {

inline constexpr double kGreatestAngle_deg = 1e6;  ///< on the command line, either sign

struct Range {
  double least = 0, greatest = 0;  ///< both included
  std::string_view unit;           ///< "degrees"
};
inline constexpr Range kAngles{-kGreatestAngle_deg, kGreatestAngle_deg, "degrees"};
inline constexpr Range kWidths{0, 360, "degrees"};  ///< margin, accuracy, plus-minus
inline constexpr Range kMarkWidths{0.5, 360, "degrees"};
inline constexpr Range kEyes{0, 3, "mm"};
inline constexpr Range kPresses{0.01, 5, "seconds"};

double read_number(std::string_view option, std::string_view word, Range range);

struct AngleAbout {
  double at_deg = 0;  ///< as given, not wrapped
  std::optional<double> plus_minus_deg;
};
/// DEG or DEG:PLUSMINUS.
AngleAbout read_angle_about(std::string_view option, std::string_view word, Range plus_minus);

/// `1,2,5`: every number once. Whether the engine has them is for check_cylinders.
std::vector<int> read_list(std::string_view option, std::string_view word);

/// Throws when the engine lacks one of the cylinders.
void check_cylinders(const Engine& engine, std::string_view option, const std::vector<int>& list);

/// The word in quotes, cut to 60 characters, control characters as '?': always one line.
std::string in_quotes(std::string_view word);

/// The text with control characters as '?', so that no file can write to the terminal's own controls.
std::string harmless(std::string_view text);

}  // namespace shutlane::terminal
