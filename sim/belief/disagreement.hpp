#pragma once
// When model and eye disagree: what is wrong, most likely first, each with a check that takes a minute.
#include <span>
#include <string>

#include "sim/belief/look_model.hpp"

namespace shutlane {

enum class Suspicion {
  missed_look,  ///< nothing but an eye at its limit
  wrong_port,
  moved,
  phaser,
  crumb,
  chain,
  engine_data,
};

/// One answer, in the order given. With cylinder 0 it is a crank mark read modulo 360.
struct Observed {
  int cylinder = 0;
  bool shut = false;
  double mark_deg = 0, plus_minus_deg = kDefaultMark_deg;
  bool after_pause = false;  ///< a port was blasted, or the technician was away, since the one before
};

struct Suspect {
  Suspicion what = Suspicion::missed_look;
  double chance = 0;  ///< 0..1, over all suspects 1
  int cylinder = 0;   ///< the port it most likely concerns (missed_look, wrong_port, crumb); 0 none
  size_t bank = 0;    ///< the bank it most likely concerns (phaser, chain)
  size_t after = 0;   ///< moved: most likely after this many of the observations
};

/// One entry a suspicion, most likely first. `before`: chances over the angle before the first of them
/// (kBeliefBins, such as Belief::angles()); empty: uniform. The chances rank; they are no measurement.
std::vector<Suspect> suspects(const LookModel& model, const std::vector<Observed>& observed,
                              std::span<const double> before = {});

struct SuspectText {
  std::string what, check;
};
/// In plain words; `bank_name` as in the engine file.
SuspectText text_of(const Suspect& suspect, const std::string& bank_name);

}  // namespace shutlane
