#pragma once
// Every key of the engine file, once: what it holds, unit, range and default. The reader takes its known
// keys, its range checks and the words of its messages from here, and a test holds README.md to it. To add a
// section: its rows in keys.cpp, a reader beside read_layout.cpp, a writer, its rows in README.md.
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "sim/mechanism/ranges.hpp"

namespace shutlane {

enum class Holds { number, number_or_unknown, numbers, integer, integers, text, texts, rows, table, tables };

/// Which entries of its table a key belongs to: [[valves]] keys exclude one another.
enum class Applies { always, intake_events, exhaust_events, law, table };

struct KeyInfo {
  std::string_view table;  ///< "" for the top, "cylinder", "layout.bank", ...
  std::string_view key;    ///< kCylinderKey where the keys are cylinder numbers
  Holds holds = Holds::number;
  std::string_view unit;             ///< "mm", "crank degrees", or ""
  std::optional<NumberRange> range;  ///< of each number
  std::string_view fallback;         ///< the default in words; "" = the key is required
  std::string_view what;  ///< what a right value looks like, for messages; "" = from holds, unit and range
  Applies applies = Applies::always;

  bool required() const { return fallback.empty(); }
};

inline constexpr std::string_view kCylinderKey = "NUMBER";

std::span<const KeyInfo> known_keys();
const KeyInfo* find_key(std::string_view table, std::string_view key);  ///< nullptr when unknown

/// The name that a key bears now, where `old` is one that it bore before the first release; "" otherwise.
std::string_view name_now(std::string_view old);

/// "a number of mm, 5 to 1000"; of one entry of a list "a whole number, 1 to 99".
std::string expected_of(const KeyInfo& info, bool entry = false);

}  // namespace shutlane
