#pragma once
// Short numbers for messages, without locale and without floating to_chars (not there on every target), and
// what no text from outside may carry on to a screen.
#include <string>

namespace shutlane {

/// Up to three decimals, no trailing zeros: "12", "-0.5", "not a number", "infinite".
std::string short_number(double x);

/// C0 and C1 controls and DEL: terminals obey them.
constexpr bool is_control(char32_t code) { return code < 0x20 || (code >= 0x7F && code < 0xA0); }

/// Controls, and those that end a line or turn the direction of what follows, so that it reads as something
/// else (Unicode 15, ch. 23.2 and UAX 9, table 3: ALM, LRM, RLM, embeddings, overrides, isolates).
constexpr bool commands_a_screen(char32_t code) {
  return is_control(code) || code == 0x061C || code == 0x200E || code == 0x200F || code == 0x2028 ||
         code == 0x2029 || (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

/// The 66 codes that are no characters and never will be (Unicode 15, ch. 23.7).
constexpr bool is_noncharacter(char32_t code) {
  return (code >= 0xFDD0 && code <= 0xFDEF) || (code & 0xFFFE) == 0xFFFE;
}

}  // namespace shutlane
