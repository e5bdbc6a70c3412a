#include "ui/window/study/texts.hpp"

#include <fmt/format.h>

namespace shutlane::texts {

std::string surely_shut() { return "surely shut"; }
std::string surely_shut_for(const std::string& angle) {
  return fmt::format("surely shut for another {}", angle);
}
std::string not_surely_shut() { return "not surely shut"; }
std::string open() { return "open"; }
std::string on_the_seat() { return "on the seat"; }
std::string off_the_seat(const std::string& lift) { return fmt::format("open, {}", lift); }
std::string below_top(const std::string& length) { return fmt::format("{} below its top", length); }
std::string reading_port() { return "Port"; }
std::string reading_stroke() { return "Stroke"; }
std::string reading_intake() { return "Intake"; }
std::string reading_exhaust() { return "Exhaust"; }
std::string reading_piston() { return "Piston"; }

std::string stroke(Stroke4 stroke, const std::string& local_angle) {
  constexpr const char* names[] = {"power", "exhaust", "intake", "compression"};
  return fmt::format("{}, {} after firing TDC", names[static_cast<int>(stroke)], local_angle);
}

std::string happening(Stroke4 stroke, bool intake_open, bool exhaust_open) {
  switch (stroke) {
    case Stroke4::power:
      return exhaust_open ? "End of the power stroke: the exhaust valve has left its seat before BDC."
                          : "Power stroke: the burnt gas pushes the piston down, all valves shut.";
    case Stroke4::exhaust:
      return intake_open ? "End of the exhaust stroke: the intake valve opens before the piston is up."
                         : "Exhaust stroke: the piston rises and pushes the burnt gas out.";
    case Stroke4::intake:
      return intake_open
                 ? "Intake stroke: the piston goes down and draws fresh air past the open intake valve."
                 : "Intake stroke: the piston goes down, the intake valve is still on its seat.";
    case Stroke4::compression:
      break;
  }
  return intake_open ? "Start of compression: the piston rises while the intake valve is still closing."
                     : "Compression stroke: all valves shut, the piston squeezes the charge.";
}

std::string overlap(const std::string& whole, const std::string& before, const std::string& after) {
  return fmt::format(
      "Overlap: both valves are off their seats for {}, from {} before overlap TDC to {} after.", whole,
      before, after);
}
std::string no_overlap() { return "No overlap: the exhaust valve shuts before the intake valve opens."; }
std::string here_is(const std::string& what) { return fmt::format("Here: {}.", what); }

std::string meaning(ShutState state) {
  switch (state) {
    case ShutState::surely_shut:
      return "Abrasive blown into this port stays in it.";
    case ShutState::not_surely_shut:
      return "Shut as stated, but not under every tolerance and with the margin: leave this port alone.";
    case ShutState::open:
      break;
  }
  return "Abrasive would fall into the cylinder: keep the bung in this port.";
}

std::string crank_event(CrankEventKind kind, int cylinder) {
  switch (kind) {
    case CrankEventKind::intake_opens:
      return fmt::format("intake of {} leaves its seat", cylinder);
    case CrankEventKind::intake_closes:
      return fmt::format("intake of {} touches its seat", cylinder);
    case CrankEventKind::exhaust_opens:
      return fmt::format("exhaust of {} leaves its seat", cylinder);
    case CrankEventKind::exhaust_closes:
      return fmt::format("exhaust of {} touches its seat", cylinder);
    case CrankEventKind::surely_shut_from:
      return fmt::format("port of {} surely shut from here", cylinder);
    case CrankEventKind::surely_shut_to:
      break;
  }
  return fmt::format("port of {} surely shut up to here", cylinder);
}

std::string and_others(const std::string& first, int more) {
  return fmt::format("{} and {} more", first, more);
}
std::string event_here(const std::string& what) { return fmt::format("Here: {}.", what); }
std::string event_behind(const std::string& what, const std::string& angle) {
  return fmt::format("{} back: {}.", angle, what);
}
std::string event_ahead(const std::string& what, const std::string& angle) {
  return fmt::format("In {}: {}.", angle, what);
}

const std::vector<Term>& terms() {
  static const std::vector<Term> all{
      {"firing TDC",
       "The piston at its top at the end of compression: here the charge is lit. All valves are shut."},
      {"overlap TDC",
       "The piston at its top between exhaust and intake stroke (also called gas-exchange TDC). Both valves "
       "are a little open there."},
      {"BDC", "Bottom dead centre: the piston at its lowest, half a crank turn after a TDC."},
      {"intake opens", "Where the intake valve leaves its seat, some degrees before overlap TDC."},
      {"intake closes",
       "Where the intake valve touches its seat again, some degrees after BDC: the charge still flows in."},
      {"exhaust opens", "Where the exhaust valve leaves its seat, before the power stroke has ended."},
      {"exhaust closes", "Where the exhaust valve touches its seat again, some degrees after overlap TDC."},
      {"overlap", "The stretch round overlap TDC in which both valves are off their seats."},
      {"lift", "How far a valve stands off its seat."},
      {"valve clearance",
       "Also lash: play that the lobe takes up before the valve moves. More of it opens later and closes "
       "earlier."},
      {"lobe", "The part of the camshaft that pushes a valve open. It turns at half the crank's speed."},
      {"duration",
       "For how many crank degrees a valve is off its seat, or above the lift at which events are stated."},
      {"check height",
       "The lift at which a data sheet states its events. At 1 mm (0.04 in) they lie 20 to 40 crank degrees "
       "inside the "
       "seat "
       "events: the valve is open for longer than the sheet seems to say."},
      {"firing order", "The order in which the cylinders reach firing TDC over two turns of the crank."},
      {"companion cylinders", "Two cylinders whose pistons move together, one full turn apart in the cycle."},
      {"crank pin",
       "The journal of the crank on which a rod turns. Crank pin angle: from cylinder 1's pin, in the "
       "direction of rotation. Throw: from the crank's axis."},
      {"surely shut",
       "Every intake valve on its seat for every tolerance, clearance and phaser position, and over the "
       "margin to both "
       "sides."},
      {"phaser",
       "Turns a camshaft against the crank. Its position at rest may be unknown; then the worst is assumed."},
      {"one full turn",
       "Moves every cylinder by half its cycle: what was shut need not be so now, and the ports that were "
       "open are "
       "shut."},
  };
  return all;
}

std::string meaning_of(const std::string& word) {
  for (const Term& term : terms())
    if (term.word == word) return term.meaning;
  return {};
}

std::string timeline_heading(LaneOrder order) {
  return order == LaneOrder::firing ? "Lanes in firing order" : "Lanes in number order";
}
std::string starts_at(StartAt at, int cylinder, const std::string& crank_zero) {
  return fmt::format("crank degrees from {} of cylinder {}{}",
                     at == StartAt::firing_tdc ? "firing TDC" : "overlap TDC", cylinder,
                     crank_zero.empty() ? "" : fmt::format(" (cylinder 1 fires at {})", crank_zero));
}
std::string heading_cutaway(int cylinder) { return fmt::format("Cylinder {}, cut open", cylinder); }
std::string heading_dial(int cylinder) { return fmt::format("Valve timing of {}, two turns", cylinder); }
std::string heading_lift(int cylinder) { return fmt::format("Valve lift of {}", cylinder); }
std::string heading_front() { return "From the pulley end"; }
std::string heading_terms() { return "Words of the trade"; }
std::string heading_engines() { return "Engines"; }
std::string heading_tinker() { return "Tinker"; }
std::string heading_changes() { return "Changed"; }
std::string search_hint() { return "Search: six, V8, flat, 1-3-4-2"; }
std::string no_engine_found() { return "No engine like that. Try a layout or a number of cylinders."; }
std::string number_order() { return "Number order"; }
std::string firing_order() { return "Firing order"; }
std::string start_firing() { return "at firing TDC"; }
std::string start_overlap() { return "at overlap TDC"; }
std::string run() { return "Run"; }
std::string stop() { return "Stop"; }
std::string speed(double rpm) { return fmt::format("{:.0f} turns/min", rpm); }
std::string whole_cycle() { return "Whole cycle"; }
std::string back_to_file() { return "Back to the file"; }
std::string save_as() { return "Save as"; }
std::string save_here() { return "Save"; }
std::string cancel() { return "Cancel"; }
std::string save_hint() { return "Name of the new file"; }
std::string save_into(const std::string& folder) {
  return fmt::format("Into {}. Comments of the file it came from are not carried over.", folder);
}
std::string save_name_wrong() { return "That is no name for a file: letters and digits, no folder."; }
std::string heading_save() { return "Save as a new file"; }
std::string your_file() { return "your file"; }
std::string unsaved_changes() { return "unsaved changes"; }
std::string tip_unsaved(const std::string& name) {
  return fmt::format("Numbers that you tried on {} and did not save. Press to go on with them.", name);
}
std::string save_done(const std::string& path) { return fmt::format("Saved as {}.", path); }
std::string save_exists(const std::string& path) {
  return fmt::format("{} is there already. Choose another name.", path);
}
std::string save_failed(const std::string& path) { return fmt::format("{} could not be written.", path); }
std::string save_cannot_be_read_back() {
  return "Not saved: the file would not read back as the same engine.";
}
std::string start_job_on_it() { return "Start a job on it"; }
std::string reload_failed() { return "The file has mistakes."; }
std::string last_good_stays() { return "The last good engine stays."; }
namespace {
std::string file_name(const std::string& path) { return path.substr(path.find_last_of('/') + 1); }
}  // namespace
std::string job_goes_on_with(const std::string& path) {
  return fmt::format("{} changed: the job goes on with its new numbers.", file_name(path));
}
std::string job_file_unfit(const std::string& path) {
  return fmt::format("{} changed and does not fit this job: its last good numbers stay.", file_name(path));
}
std::string reloaded(const std::string& path) { return fmt::format("{} changed and was read again.", path); }
std::string nothing_changed() { return "Nothing: these are the file's values."; }
std::string keep_crank() { return "Keep the crank"; }
std::string keep_intervals() { return "Keep the firing intervals"; }
std::string needle_is_what_if() { return "What-if needle: the job's crank does not move."; }
std::string keys_line() {
  return "\u2190 \u2192 1\u00b0 \u00b7 with shift 10\u00b0 \u00b7 , . event \u00b7 page keys position \u00b7 "
         "space run \u00b7 + \u2212 0 zoom";
}
std::string invented_mark() { return ", invented"; }
std::string about_layout(const std::string& layout, const std::string& order) {
  return fmt::format("{} \u00b7 fires {}", layout, order);
}
std::string cylinder(int number) { return fmt::format("Cylinder {}", number); }
std::string at_angle(const std::string& angle) { return fmt::format("at {}", angle); }
std::string start_cylinder(int number) { return fmt::format("From cylinder {}", number); }
std::string heading_readings(int cylinder, const std::string& angle) {
  return fmt::format("Cylinder {}, at {}", cylinder, angle);
}
std::string too_small_for(const std::string& bench) {
  return fmt::format("Window too small for {}. Make it larger, or press F1 for Work.", bench);
}
std::string heading_row() { return "All cylinders, upright"; }
std::string change(const std::string& what, const std::string& before, const std::string& after) {
  return fmt::format("{}: {} \u2192 {}", what, before, after);
}
std::string and_more(int count) { return fmt::format("and {} more", count); }
std::string to_needle() { return "To the needle"; }
std::string tip_to_needle() {
  return "The what-if needle lies beyond this end. Press to bring it into view.";
}
std::string tip_run() {
  return "Turns the what-if needle on by itself. The job's crank does not move (key space).";
}
std::string tip_speed() { return "How fast it runs, in turns of the crank a minute."; }
std::string tip_whole_cycle() { return "Shows all 720 degrees again (key 0)."; }
std::string tip_order(LaneOrder now) {
  return now == LaneOrder::firing ? "The lanes lie in the order in which the cylinders fire, so that their "
                                    "open stretches follow each other "
                                    "like stairs. Press for number order, cylinder 1 on top (key O)."
                                  : "The lanes lie by cylinder number, 1 on top, as the ports lie along an "
                                    "engine with one bank. Press for "
                                    "firing order (key O).";
}
std::string tip_start() { return "Which dead centre the timeline starts at, and of which cylinder."; }
std::string tip_start_job() {
  return "Leaves the job that is open and starts a new one on this engine. Undo brings the old one back.";
}
std::string tip_start_job_unsaved() { return "Save the changed numbers first: a job belongs to a file."; }
std::string tip_back_to_file() { return "Puts every knob back to the file's values (key backspace)."; }
std::string tip_save() { return "Writes a new engine file under a name of yours (keys Ctrl+S)."; }
std::string tip_keep_crank() {
  return "When banks, rod or offset change: either the crank stays as it is and fires unevenly, or the "
         "firing intervals "
         "stay and the crank pins move (key K).";
}

std::string knob_opens(const std::string& valves, bool intake) {
  return fmt::format("{} {}", valves, intake ? "opens before TDC" : "opens before BDC");
}
std::string knob_closes(const std::string& valves, bool intake) {
  return fmt::format("{} {}", valves, intake ? "closes after BDC" : "closes after TDC");
}
std::string knob_earlier(const std::string& valves) { return fmt::format("{} cam earlier by", valves); }
std::string knob_may_be_earlier(const std::string& valves) {
  return fmt::format("{} phaser at rest, earlier up to", valves);
}
std::string knob_may_be_later(const std::string& valves) {
  return fmt::format("{} phaser at rest, later up to", valves);
}
std::string knob_clearance(const std::string& valves) { return fmt::format("{} clearance", valves); }
std::string knob_lift(const std::string& valves) { return fmt::format("{} peak lift", valves); }
std::string knob_timing() { return "Timing tolerance"; }
std::string knob_bank_angle() { return "Bank angle"; }
std::string knob_lean() { return "Lean of the engine"; }
std::string knob_rod() { return "Rod length"; }
std::string knob_offset() { return "Bore offset"; }
std::string valves(bool intake, int of_kind, int kinds) {
  const char* word = intake ? "Intake" : "Exhaust";
  return kinds > 1 ? fmt::format("{} {}", word, static_cast<char>('a' + of_kind)) : word;
}
std::string change_intervals() { return "Fires"; }
std::string every(const std::string& angle) { return fmt::format("every {}", angle); }
std::string in_turn(const std::string& first, const std::string& second) {
  return fmt::format("{} and {} in turn", first, second);
}
std::string from_to(const std::string& shortest, const std::string& longest) {
  return fmt::format("{} to {} apart", shortest, longest);
}
std::string changed_name(const std::string& name) {
  return name.ends_with(", changed") ? name : fmt::format("{}, changed", name);
}
std::string changed_source(const std::string& source) {
  if (source.starts_with("changed by hand")) return source;
  return source.empty() ? "changed by hand" : fmt::format("changed by hand from: {}", source);
}

}  // namespace shutlane::texts
