#pragma once
// A simulated technician who does a whole job as it is advised, at an engine whose true angle, timing and
// faults only the simulation knows. The truth (valve lifts, the eye, the hand, the starter) is written here
// on its own; of the code under test only the advice is used, and the rest angles of a bump from
// sim/cranking.
#include <cstdint>
#include <memory>
#include <string>

#include "sim/cranking/fast.hpp"
#include "sim/job/advice.hpp"

namespace shutlane::test {

/// What goes wrong and how often. All invented, on the high side of what a careful person does.
struct JobSlips {
  double eye_low_mm = 0.3,
         eye_high_mm = 0.6;   ///< each technician's own limit lies between; above it by 30 %: seen
  double overlooked = 0.001;  ///< a valve well open called shut
  double false_open = 0.003;
  double wrong_port = 0.005;  ///< a look goes into a port next to it, a lobe is that of another cylinder
  double cannot_see = 0.01;   ///< of looks; of lobes five times as often
  double wide_turn = 0.02;    ///< a turn ends up to 20 degrees outside what was said
  double roll_back = 0.3;     ///< share of turns that roll back, within the accuracy
  double wrong_turn = 0.002;  ///< half a turn too many or too few
  double moved = 0.01;        ///< jobs in which somebody moves the crank unseen, in the pause after some port
  double crumb = 0.005;       ///< jobs in which one port never shuts (0.8 to 2 mm)
  double shifted = 0.002;     ///< jobs with a bank's cam a tooth off
  double touching = 0.2;      ///< of looks at a valve hardly open: called "just touching"
  /// No slip: the crank's mark is turned to its pointer before anything else, and again by every full turn.
  bool by_mark = false;
  bool lobes_hidden = false;             ///< no slip: nothing is seen at the oil filler
  std::optional<size_t> only_bank = {};  ///< no slip: the other bank is left for another day
};

struct JobTally {
  uint64_t jobs = 0, unsafe_ports = 0, unsafe_jobs = 0, blasted = 0, looks = 0, lobes = 0, moves = 0,
           disagreements = 0;
  uint64_t looks_left_out = 0;  ///< into ports of a bank that is left out
  uint64_t given_up = 0;        ///< jobs with ports left when patience ran out, or left for another day
  uint64_t seed_of_unsafe = 0;
  JobTally& operator+=(const JobTally& other);
};

/// One whole job. `starter`: null for turns; else how the crank is bumped, rules.turn_by = starter. The
/// events and the true angles of a job in which a port was blasted open are added to `log` when it is given.
JobTally whole_job(const JobModel& model, const FastKernel* starter, const JobSlips& slips, uint64_t seed,
                   std::string* log = nullptr);

/// Greatest chance a job that is consistent, at 95 %, with so many failures among so many jobs
/// (Clopper-Pearson).
double bound_95(uint64_t failures, uint64_t jobs);

}  // namespace shutlane::test
