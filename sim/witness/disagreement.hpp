#pragma once
// When model and eye disagree: what is wrong, most likely first, each with a check that takes a minute.
#include <span>
#include <string>

#include "sim/witness/here.hpp"

namespace shutlane {

enum class Suspicion {
  missed_look,  ///< nothing but an eye at its limit
  wrong_port,
  moved,
  mark,  ///< another mark, or not in line
  lobe,  ///< another cylinder's, or misread
  turn,  ///< another one than was told
  phaser,
  crumb,
  chain,
  engine_data,
};

struct Suspect {
  Suspicion what = Suspicion::missed_look;
  double chance = 0;  ///< 0..1, over all suspects 1
  int cylinder = 0;   ///< whom it most likely concerns (missed_look, wrong_port, crumb, lobe); 0 none
  size_t bank = 0;    ///< the bank it most likely concerns (phaser, chain)
  size_t after = 0;   ///< moved: most likely after this many of what was told, pauses not counted
};

/// One entry a suspicion, most likely first; of the kinds that were told only. `told` in order, as
/// Here::told(). `before`: chances over the angle before the first of them (kBeliefBins, such as
/// Belief::angles()); empty: uniform. `by_turn`: the crank came here by a turn that was told. The chances
/// rank; they are no measurement.
std::vector<Suspect> suspects(const WitnessModel& model, std::span<const Told> told,
                              std::span<const double> before = {}, bool by_turn = false);

struct SuspectText {
  std::string what, check;
};
/// In plain words; `bank_name` as in the engine file.
SuspectText text_of(const Suspect& suspect, const std::string& bank_name);

}  // namespace shutlane
