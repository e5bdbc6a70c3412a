#pragma once
// The window's words about bumps of the starter, ready for translation. What they share with the terminal
// stands in ui/drawings/bump_words.hpp, the cautions in sim/job/cautions.hpp.
#include <string>

#include "sim/plan/bump_plan.hpp"
#include "ui/window/bump/press_timer.hpp"

namespace shutlane::texts {

std::string bump_press(const BumpPlan& plan);    ///< "Bump the starter: press 0.3 s."
std::string bump_expects(const BumpPlan& plan);  ///< the line below
/// " This car goes further than reckoned (2 bumps)."; empty: nothing was learnt from bumps of this job.
std::string bump_learnt(int bumps, double stronger);
std::string bump_reckoning(double share_done);
std::string no_bump();
std::string no_bump_because(const std::string& why);
std::string no_starter_to_bump();
std::string wrench_instead();
// With a wrench at hand as well.
std::string wrench_now();
std::string wrench_now_said();
std::string wrench_now_because(const MixedPlan& plan);
std::string bump_then_wrench(const std::optional<MixedPlan>& plan);  ///< empty: the bump will most likely do

std::string start_beeps();
std::string beeps_note();
std::string start_beeps_tip();
std::string bumped_unbeeped();  ///< beside it: without the beeps
std::string bumped_unbeeped_tip();
std::string hand_on_switch();
std::string beeps_explained();
std::string moment(const PressMoment& moment);  ///< large: "3", "PRESS", "LET GO"
std::string stop_beeps();
std::string what_happened(double press_s);  ///< "0.3 s were pressed. Did the crank turn?"
std::string what_happened_second();
std::string not_pressed();
std::string stopped_at_once();
std::string stopped_at_once_tip();
std::string no_more_bumps();

}  // namespace shutlane::texts
