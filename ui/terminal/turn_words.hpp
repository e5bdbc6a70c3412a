#pragma once
// A turn of the crank said as the hand feels it, and figures for people. The words themselves are those of
// the drawings; here they become one sentence in letters that every terminal has.
#include <string>

#include "sim/plan/wrench.hpp"

namespace shutlane::terminal {

/// "one full turn; anything from a good half to one and a half will do". Never promises more than
/// turn_min..turn_max; a range too narrow for words is given in degrees, rounded inwards.
std::string turn_sentence(const Position& position, double accuracy_deg);

/// Degrees for people: at most two decimals, no sign behind it.
std::string degrees(double deg);

/// What the text may hold when the terminal takes ASCII only: the degree sign in words.
std::string spelt_out(std::string text);

}  // namespace shutlane::terminal
