#pragma once
// Every label and sentence of the benches Teach and Explore, ready for translation.
#include <string>
#include <vector>

#include "sim/shut/windows.hpp"
#include "ui/window/study/readings.hpp"
#include "ui/window/study/timeline.hpp"

namespace shutlane::texts {

// Readings
std::string surely_shut();
std::string surely_shut_for(const std::string& angle);
std::string not_surely_shut();
std::string open();
std::string on_the_seat();
std::string off_the_seat(const std::string& lift);
std::string below_top(const std::string& length);
std::string reading_port();
std::string reading_stroke();
std::string reading_intake();
std::string reading_exhaust();
std::string reading_piston();
std::string stroke(Stroke4 stroke, const std::string& local_angle);
std::string happening(Stroke4 stroke, bool intake_open, bool exhaust_open);
std::string overlap(const std::string& whole, const std::string& before, const std::string& after);
std::string no_overlap();
std::string here_is(const std::string& what);
std::string meaning(ShutState state);
std::string crank_event(CrankEventKind kind, int cylinder);
std::string and_others(const std::string& first, int more);
std::string event_here(const std::string& what);
std::string event_behind(const std::string& what, const std::string& angle);
std::string event_ahead(const std::string& what, const std::string& angle);

// The words of the trade, for the trainer's panel and for tooltips
struct Term {
  std::string word, meaning;
};
const std::vector<Term>& terms();
/// The meaning of a word; empty when it is not explained.
std::string meaning_of(const std::string& word);

// Headings and buttons
std::string timeline_heading(LaneOrder order);
/// `crank_zero`: where the crank's own 0 lies on that scale; empty when it is the start.
std::string starts_at(StartAt at, int cylinder, const std::string& crank_zero);
std::string heading_cutaway(int cylinder);
std::string heading_dial(int cylinder);
std::string heading_lift(int cylinder);
std::string heading_front();
std::string heading_terms();
std::string heading_engines();
std::string heading_tinker();
std::string heading_changes();
std::string search_hint();
std::string no_engine_found();
std::string number_order();
std::string firing_order();
std::string start_firing();
std::string start_overlap();
std::string run();
std::string stop();
std::string speed(double rpm);
std::string whole_cycle();
std::string back_to_file();
std::string save_as();
std::string save_done(const std::string& path);
std::string save_here();
std::string cancel();
std::string save_hint();
std::string save_into(const std::string& folder);
std::string save_name_wrong();
std::string heading_save();
std::string your_file();
std::string unsaved_changes();
std::string tip_unsaved(const std::string& name);
std::string save_exists(const std::string& path);
std::string save_failed(const std::string& path);
std::string save_cannot_be_read_back();
std::string start_job_on_it();
std::string reload_failed();
std::string last_good_stays();
std::string reloaded(const std::string& path);
std::string job_goes_on_with(const std::string& path);
std::string job_file_unfit(const std::string& path);
std::string nothing_changed();
std::string keep_crank();
std::string keep_intervals();
std::string needle_is_what_if();
std::string keys_line();
std::string invented_mark();
std::string about_layout(const std::string& layout, const std::string& order);
std::string cylinder(int number);
std::string at_angle(const std::string& angle);
std::string start_cylinder(int number);
std::string heading_readings(int cylinder, const std::string& angle);
std::string heading_row();
std::string too_small_for(const std::string& bench);
std::string change(const std::string& what, const std::string& before, const std::string& after);
std::string and_more(int count);
std::string to_needle();
std::string tip_to_needle();
std::string tip_run();
std::string tip_speed();
std::string tip_whole_cycle();
std::string tip_order(LaneOrder now);
std::string tip_start();
std::string tip_start_job();
std::string tip_start_job_unsaved();
std::string tip_back_to_file();
std::string tip_save();
std::string tip_keep_crank();

// Knobs of Tinker
std::string knob_opens(const std::string& valves, bool intake);
std::string knob_closes(const std::string& valves, bool intake);
std::string knob_earlier(const std::string& valves);
std::string knob_may_be_earlier(const std::string& valves);
std::string knob_may_be_later(const std::string& valves);
std::string knob_clearance(const std::string& valves);
std::string knob_lift(const std::string& valves);
std::string knob_timing();
std::string knob_bank_angle();
std::string knob_lean();
std::string knob_rod();
std::string knob_offset();
std::string valves(bool intake, int of_kind, int kinds);
std::string change_intervals();
std::string every(const std::string& angle);
std::string in_turn(const std::string& first, const std::string& second);
std::string from_to(const std::string& shortest, const std::string& longest);
std::string changed_name(const std::string& name);
std::string changed_source(const std::string& source);

}  // namespace shutlane::texts
