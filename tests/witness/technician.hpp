#pragma once
// A simulated technician at an engine whose true angle, timing and faults only the simulation knows. The
// truth (valve lifts, the eye, the hand) is written here on its own; of the code under test only the advice
// is used.
#include <cstdint>
#include <string>

#include "sim/witness/next_step.hpp"

namespace shutlane::test {

/// What goes wrong and how often. All invented, on the high side of what a careful person does.
struct Slips {
  double eye_low_mm = 0.3,
         eye_high_mm = 0.6;   ///< each technician's own limit lies between; above it by 30 %: seen
  double overlooked = 0.001;  ///< a valve well open called shut
  double false_open = 0.003;
  double wrong_port = 0.005;  ///< a look goes into a port next to it
  double wide_turn = 0.02;    ///< a turn ends up to three times the accuracy off
  double roll_back = 0.3;     ///< share of turns that roll back, within the accuracy
  double wrong_turn = 0.002;  ///< half a turn too many or too few
  double moved = 0.01;        ///< jobs in which somebody moves the crank unseen, in the pause after some port
  double crumb = 0.005;       ///< jobs in which one port never shuts (0.8 to 2 mm)
  double shifted = 0.002;     ///< jobs with a bank's cam a tooth off
};

struct Tally {
  uint64_t jobs = 0, unsafe_ports = 0, unsafe_jobs = 0, blasted = 0, looks = 0, turns = 0, disagreements = 0;
  uint64_t given_up = 0;  ///< jobs with ports left when patience ran out
  Tally& operator+=(const Tally& other);
};

struct Habits {
  WitnessRule rule;
  bool chalk = false;  ///< compares a chalk mark on the pulley with the cover just before blasting each port
  double margin_deg = kDefaultMargin_deg;
  double most_open = 1;  ///< below 1: the belief may ask for another look before blasting
};

/// One whole job; `model` is what the technician's tool believes about looks. The same seed does the same job
/// whatever the habits.
Tally one_job(const Engine& engine, std::shared_ptr<const LookModel> model, const Habits& habits,
              const Slips& slips, uint64_t seed);

}  // namespace shutlane::test
