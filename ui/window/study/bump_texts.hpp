#pragma once
// Every label and sentence of the bump on Teach, ready for translation.
#include <string>
#include <utility>
#include <vector>

#include "ui/window/study/bump_study.hpp"
#include "ui/window/study/texts.hpp"

namespace shutlane::texts {

std::string bump_button();
std::string tip_bump_button();
std::string heading_bump(const std::string& from, FanStart start);
std::string heading_replay(const std::string& time);
std::string knob_press();
std::string tip_press();
std::string seconds(double s);
std::string plugs_in();
std::string plugs_out();
std::string tip_plugs();
std::string play();
std::string pause();
std::string tip_play();
std::string pace(int slower);
std::string tip_pace();
std::string back_to_start();
std::string tip_back_to_start();
std::string on_from_here();
std::string tip_on_from_here();
std::string stop_reckoning();
std::string tip_stop_reckoning();
std::string reckon_again();
std::string tip_reckon_again();
std::string reckoning(int percent);
std::string bumps_reckoned(int trials);
std::string reckoning_stopped();
std::string not_reckoned_yet();
std::string curves_label();
std::string tip_curves();
std::string bump_keys_line();
std::string no_bump(const std::string& why);
std::string course_comes();

/// How far on or back, in words: "186° on", "12° back".
std::string on_or_back(double advance_deg);
/// "Rests 186° on, most likely; half of them between 176° and 195°."
std::string fan_sentence(double likeliest_deg, double p25_deg, double p75_deg);
/// A share as bumps of a hundred: rounded down, and never all of them, as they are reckoned and not the next
/// one.
int of_hundred(double share);
std::string shares_heading();
/// The ports that are surely shut after more than half of the bumps: cylinder and share, the best first.
std::string ports_after_bump(const std::vector<std::pair<int, double>>& shares);
/// The replayed bump itself.
std::string as_stated(double press_s, double advance_deg, double rests_s, double rolled_back_deg);
std::string too_short(double press_s);

const std::vector<Term>& bump_terms();

}  // namespace shutlane::texts
