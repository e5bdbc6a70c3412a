#pragma once
// A simulated technician who does a whole job as it is advised, at an engine whose true angle, timing and
// faults only the simulation knows. The truth (valve lifts, the eye, the hand, the starter) is written here
// on its own; of the code under test only the advice is used, and the rest angles of a bump from
// sim/cranking.
#include <array>
#include <cstdint>
#include <memory>
#include <string>

#include "sim/cranking/fast.hpp"
#include "sim/job/advice.hpp"

namespace shutlane::test {

/// What goes wrong and how often. All invented, on the high side of what a careful person does; the reason
/// for each stands in DEVELOPERS.md, "Slips".
struct JobSlips {
  double eye_low_mm = 0.3,
         eye_high_mm = 0.6;   ///< each technician's own limit lies between; above it by 30 %: seen
  double overlooked = 0.001;  ///< a valve well open called shut
  double false_open = 0.003;
  double wrong_port = 0.005;  ///< a look, and the blast that follows it, goes into a port next to it
  double cannot_see = 0.01;   ///< of looks; of lobes five times as often
  double wide_turn = 0.02;    ///< a turn ends up to 20 degrees outside what was said
  double roll_back = 0.3;     ///< share of turns that roll back, within the accuracy
  double wrong_turn = 0.002;  ///< half a turn too many or too few; by the mark a whole one
  double moved = 0.01;        ///< jobs in which somebody moves the crank unseen, in the pause after some port
  double crumb = 0.005;       ///< jobs in which one port never shuts (0.8 to 2 mm)
  double shifted = 0.002;     ///< jobs with a bank's cam a tooth off
  double touching = 0.2;      ///< of looks at a valve hardly open: called "a hair open"
  double wrong_mark = 0.0005;    ///< jobs in which the mark is another one, at any angle
  double rolls_off = 0.1;        ///< of turns to the mark; up to half a firing interval, and it is seen
  double chalk_unlooked = 0.02;  ///< "in line" is pressed without a glance
  bool by_mark = false;          ///< no slip: the crank has a mark
  bool lobes_hidden = false;     ///< no slip: nothing is seen at the oil filler
  bool no_chalk = false;         ///< no slip: no line can be drawn
  std::optional<size_t> only_bank = {};  ///< no slip: the other bank is left for another day
};

struct JobTally {
  uint64_t jobs = 0, unsafe_ports = 0, unsafe_jobs = 0, blasted = 0, looks = 0, lobes = 0, moves = 0,
           disagreements = 0, presses = 0, looks_into_open = 0;
  uint64_t harmed_jobs = 0;  ///< jobs in which a valve was blasted that stood more than kHarm_mm open
  std::array<uint64_t, 4> by_lift{};  ///< ports blasted open: up to 0.1, 0.3, 1 mm, more
  uint64_t looks_left_out = 0;        ///< into ports of a bank that is left out
  uint64_t given_up = 0;              ///< jobs with ports left when patience ran out, or left for another day
  uint64_t seed_of_unsafe = 0;
  JobTally& operator+=(const JobTally& other);
};

/// One whole job. `starter`: null for turns; else how the crank is bumped, rules.turn_by = starter. The
/// events and the true angles of a job in which a port was blasted open are added to `log` when it is given.
JobTally whole_job(const JobModel& model, const FastKernel* starter, const JobSlips& slips, uint64_t seed,
                   std::string* log = nullptr);

/// The habit, without any advice: look into each port in turn, blast it when it is seen shut, one full turn,
/// look into those that are left, and so on. Nobody helps, and nothing but the eye decides.
JobTally by_habit(const JobModel& model, const JobSlips& slips, uint64_t seed);

/// Greatest chance a job that is consistent, at 95 %, with so many failures among so many jobs
/// (Clopper-Pearson).
double bound_95(uint64_t failures, uint64_t jobs);

}  // namespace shutlane::test
