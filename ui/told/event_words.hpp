#pragma once
// The events of a job as words: "shut:4", "mark:0:5", "turned:350:370". A public interface; what `next`
// prints as `tell` is read back here, by the terminal, by `picture`, and from the saved job.
//
//   shut:N open:N touching:N hidden:N      a look into port N
//   mark:DEG[:PM] no-mark                  the crank's mark stands at its pointer, plus-minus PM (5)
//   lobe:N:away|at|unclear|hidden          the intake lobe of cylinder N, at the oil filler
//   chalk:in-line chalk:moved no-chalk     the first in-line at a position says that the line was drawn
//   start:N done:N stop:N again:N          a blast; a port that is to be done once more
//   skip:N take-in:N bank:N bank:all       left out today, or not; one bank alone (1 = the first)
//   sucked emptied counted missing         before the crank moves
//   inside:N:clean|found|parked            a cylinder that abrasive may be in was looked into
//   turned:MIN:MAX bumped[:SECONDS[:about]] press:SECONDS moved
//   cause:look[:N] cause:port[:N] cause:moved cause:mark cause:lobe:N cause:turn cause:phaser:BANK
//   cause:chain:BANK cause:crumb:N cause:data look-again
//   abrasive-left:N                        what a blast that was taken back may have left
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "sim/job/may.hpp"

namespace shutlane {

std::string event_word(const JobEvent& event);

/// The event, or why the word is none: one line without the word itself.
std::variant<JobEvent, std::string> event_of_word(std::string_view word);

/// Words apart by blanks.
std::vector<std::string> words_of(std::string_view text);

/// Why the event is not allowed now; only for one that is refused by may().
std::string why_refused(const JobModel& model, const JobState& state, const JobEvent& event);

/// "look:6", "chalk", "mark"
std::string waits_for_word(const WaitsFor& waits_for);

}  // namespace shutlane
