#pragma once
// Figures for people, in letters that every terminal has.
#include <string>

namespace shutlane::terminal {

/// Degrees for people: at most two decimals, no sign behind it.
std::string degrees(double deg);

/// What the text may hold when the terminal takes ASCII only: the degree sign in words, said once in a range.
std::string spelt_out(std::string text);

}  // namespace shutlane::terminal
