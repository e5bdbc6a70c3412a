#pragma once
// Every word and sentence of the job, in one place, ready for translation.
#include <string>
#include <vector>

#include "sim/job/advice.hpp"

namespace shutlane::texts {

std::string listed(const std::vector<int>& numbers);     ///< "1, 2, 5, 7 and 8"
std::string the_ports(const std::vector<int>& numbers);  ///< "port 2", "ports 1 and 4"

std::string word(const PortView& port);
std::string note(const PortView& port);

/// What is pressed to choose a cause of a disagreement: of the row itself, and of one more look beside it.
std::string look_again();
std::string choose(const CauseChosen& cause);
std::string choose_instead(int cylinder);
/// The name of a cause on its row, short enough to be read there; `in_full` is the belief's own.
std::string cause_name(const CauseChosen& cause, const std::string& in_full);

/// Fills in the sentence, the second line, the labels of the buttons and what they tell.
void speak(const JobModel& model, const JobState& state, const Situation& situation, Advice& advice);

}  // namespace shutlane::texts
