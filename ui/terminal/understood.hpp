#pragma once
// What the program has understood of an engine file, so that a wrong direction of rotation, bank angle or
// valve event is seen at once.
#include <string>

#include "sim/mechanism/engine.hpp"
#include "ui/terminal/json_text.hpp"

namespace shutlane::terminal {

/// One row for each: direction, banks, firing angles, seat events as stated and at their worst, what is
/// assumed.
std::string understood_in_words(const Engine& engine);
Json understood_json(const Engine& engine);

}  // namespace shutlane::terminal
