#pragma once
// Short numbers for messages, without locale and without floating to_chars (not there on every target).
#include <string>

namespace shutlane {

/// Up to three decimals, no trailing zeros: "12", "-0.5", "not a number", "infinite".
std::string short_number(double x);

}  // namespace shutlane
