#pragma once
// The job as it stands: a fold over its events.
#include <optional>
#include <span>
#include <vector>

#include "sim/job/event.hpp"
#include "sim/job/model.hpp"

namespace shutlane {

struct JobPort {
  int cylinder = 0;
  std::optional<Saw> seen;        ///< at this position only: any move wipes it
  bool look_old = false;          ///< another port was looked into or blasted since
  bool look_due = false;          ///< its look was taken back in a disagreement and is to be made again
  std::optional<Saw> taken_back;  ///< what that look said
  bool confirmed = false;         ///< made again, it said the same: it is not to blame
  bool done = false;
  bool reachable = true;  ///< today
  bool in_job = true;     ///< false: of a bank that is left out
  bool opened = false;    ///< since all was last sucked out
  bool loose = false;     ///< abrasive was blown into it since all was last sucked out
  /// A valve that opens now opens over abrasive: blasted, and neither sucked out with all the others, nor
  /// sucked out by itself with the chalk in line after it.
  bool exposed = false;
  /// Its valve may have stood open over loose abrasive; until the cylinder was looked into nothing goes on.
  bool maybe_inside = false;
  bool left() const { return !done && reachable && in_job; }
};

/// What the job has cost the technician so far.
struct JobCost {
  int looks = 0, looks_into_open_ports_after_blasting = 0, moves = 0;
  friend bool operator==(const JobCost&, const JobCost&) = default;
};

struct JobState {
  std::vector<JobPort> ports;   ///< in number order
  Here here;                    ///< where the crank can stand, and how likely the witnesses mislead
  std::optional<int> blasting;  ///< the port in work
  std::optional<size_t> only_bank;
  std::optional<CauseChosen> cause;  ///< chosen in a disagreement, while looks are due
  int position = 1;                  ///< counts the places at which a port was worked
  bool worked_here = false;          ///< a port was started at this position
  bool abrasive = false;             ///< something was blasted since all was last sucked out
  bool sucked_out = false, emptied = false, counted = false;  ///< before the next move
  bool missing = false;                                       ///< a bung, at the count
  bool just_moved = false;                                    ///< nothing has happened since the crank moved
  int lobes_hidden = 0;     ///< lobes that could not be seen, in the whole job
  bool lobe_told = false;   ///< of any that could, in the whole job
  bool no_mark = false;     ///< the crank has none that can be seen
  bool mark_here = false;   ///< the crank's mark was seen at its pointer at this position
  bool no_chalk = false;    ///< no line can be drawn
  bool chalk_here = false;  ///< the line was drawn at this position
  bool chalk_due = false;   ///< a port was blasted since it was last seen in line
  bool by_turn = false;     ///< the crank came here by a turn that was told, and not as a lost one
  bool parked = false;      ///< the cylinder with abrasive in it is left for another day
  /// Every port but one is closed: said before the first look at a position, and held true after it.
  bool bunged = false;
  JobCost cost;

  const JobPort* find(int cylinder) const;
  bool nothing_left() const;
  bool looks_due() const;
  bool maybe_inside() const;  ///< of any port
};

JobState start_job(const JobModel& model);

/// May this be said of the job now? A blast is refused unless may_blast (sim/job/may.hpp). Moves and looks
/// are never refused: they state what happened.
bool may(const JobModel& model, const JobState& state, const JobEvent& event);

/// The state after the event; unchanged when it is refused.
JobState after(const JobModel& model, JobState state, const JobEvent& event);

/// The state after an event that is on record. A blast was made even if today's rules would refuse it: the
/// port is done, and its abrasive lies there. Unchanged only where the event makes no sense with this engine.
JobState replayed(const JobModel& model, JobState state, const JobEvent& event);

/// Of events on record.
JobState fold(const JobModel& model, std::span<const JobEvent> events);

}  // namespace shutlane
