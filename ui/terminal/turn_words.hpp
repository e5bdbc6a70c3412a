#pragma once
// A turn of the crank said as the hand feels it.
#include <string>
#include <vector>

#include "sim/plan/wrench.hpp"

namespace shutlane::terminal {

/// "one full turn; anything between three quarters of a turn and one and a half turns will do". In quarter
/// turns the low end is rounded up and the high end down, so that no more is promised than holds; a range too
/// narrow for that is said in degrees.
std::string turn_in_words(const Position& position);

/// "a quarter turn", "one and a half turns"; quarters >= 1.
std::string quarters_in_words(int quarters);

/// "1", "1 and 2", "1, 2 and 5".
std::string list_in_words(const std::vector<int>& numbers);
/// "port 1", "ports 1 and 2".
std::string ports_in_words(const std::vector<int>& numbers);

/// Degrees for people: at most two decimals.
std::string degrees(double deg);

}  // namespace shutlane::terminal
