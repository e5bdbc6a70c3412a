#pragma once
// The steps of a plan as the technician reads them: shared by every way to ask for one.
#include <string>
#include <string_view>

#include "sim/plan/wrench.hpp"

namespace shutlane::terminal {

std::string plan_row(std::string_view what, std::string_view text);
std::string cautions_in_words();
/// What the accuracy leaves out, where it is better than spark plugs allow; else empty.
std::string accuracy_in_words(double accuracy_deg, size_t cylinders);
std::string position_in_words(const Position& position, size_t number);
/// Suck out, empty, turn to the plan's position, look again.
std::string turn_in_steps(const WrenchPlan& plan, size_t position, double accuracy_deg);
/// The turn that is right from every start of an engine, where no angle need be known.
std::string full_turn_in_words(double accuracy_deg);
std::string after_the_last();

}  // namespace shutlane::terminal
