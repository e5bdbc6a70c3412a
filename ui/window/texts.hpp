#pragma once
// Every label and sentence of the window beside those of the job (sim/job/texts.hpp), ready for translation.
#include <string>

#include "ui/window/document.hpp"

namespace shutlane::texts {

std::string pulley_end();
std::string gearbox_end();
std::string bench(Bench bench);
std::string turn_by(TurnBy how);
std::string turn_by_caution(TurnBy how);
std::string margin_needs_reason();
std::string demo_mark();
std::string what_if_out();
std::string what_if_second();
std::string put_needle_back();
std::string position(int number);
std::string status(int done, int of, int position, int positions, double hours);
std::string state_set_aside(const std::string& path);
std::string no_display();

}  // namespace shutlane::texts
