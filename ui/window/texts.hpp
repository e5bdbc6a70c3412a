#pragma once
// Every label and sentence of the window beside those of the job (sim/job/texts.hpp), ready for translation.
#include <string>
#include <vector>

#include "sim/job/advice.hpp"
#include "ui/window/document.hpp"

namespace shutlane::texts {

std::string pulley_end();
std::string gearbox_end();
std::string bench(Bench bench);
std::string nowhere_to_save();
std::string not_saved(const std::string& why);
std::string turn_by(TurnBy how);
std::string starter_and_wrench();
std::string turn_by_caution(TurnBy how);
std::string new_job_begun();
std::string undone(const JobEvent& event);  ///< what may have happened all the same; empty: nothing
std::string margin_needs_reason();
std::string suck_out_first(const std::vector<int>& ports);  ///< why no new job begins
std::string demo_mark();
std::string what_if_out();
std::string what_if_second();
std::string put_needle_back();
std::string position(int number);
std::string status(int done, int of, int position, int positions, double hours);
std::string state_set_aside(const std::string& path);
/// Asked when a job comes back; `by_press`: it was cut off while the beeps of a press ran.
std::string came_back(bool by_press);
std::string came_back_second(std::optional<int> blasting);
std::string it_may_have_moved(bool by_press);
std::string it_stands(bool by_press);
std::string no_display();
std::string rows(const std::string& above, const std::string& below);  ///< which bank lies where
std::string only_bank(const std::string& name);
std::string length(double mm, Measures measures);

// Cautions
std::string before_you_start();
std::string before_a_bump();
std::string read_on();
std::string all_heeded();
std::string not_your_engine();  ///< of a bundled engine that is not one of the "any" ones

// Tooltips of Work
std::string tip(Face face);
std::string tip(Saw saw);
std::string key_of_answer(size_t index);  ///< "Key Q."
std::string tip_of_strip();
std::string tip_of_beside(const Press& press);

// Settings
std::string ask_margin();
std::string ask_accuracy();
std::string ask_eye();
std::string ask_lobes();
std::string ask_dpi();
std::string margin_lowered(const std::string& reason);
std::vector<std::string> margin_reasons();

// Start
std::string start_headline();
std::string open_demo();
std::string demo_note();
std::string open_teach();
std::string teach_note();
std::string ask_cylinders();
std::string ask_engine();
std::string ask_engine_later();
std::string safe_without_data();
std::string invented();
std::string ask_turning();
std::string file_hint();
std::string firing_order(const std::vector<int>& order);  ///< "1-5-3-6-2-4"
std::string start_job();

}  // namespace shutlane::texts
