#pragma once
// What was told of an engine's bumps, kept between runs: every bump as it was told, so that what it teaches
// is worked out anew from the rest table each time.
#include <string>
#include <vector>

#include "sim/plan/bump_learn.hpp"

namespace shutlane::terminal {

struct ToldBump {
  double from_deg = 0;  ///< where the crank stood, [0, 720)
  double press_s = 0;
  Went went = Went::as_reckoned;
  friend bool operator==(const ToldBump&, const ToldBump&) = default;
};

struct ToldBumps {
  std::vector<ToldBump> bumps;  ///< in the order in which they were told
  std::string note;             ///< one line for standard error when a damaged file was set aside; else empty
};

inline constexpr size_t kMostToldBumps = 200;  ///< the oldest are dropped

/// "further", "less-far", "as-reckoned".
std::string went_word(Went went);

/// Those of the engine whose bumps are reckoned by this model, whatever the engine is called: the file is
/// named by all that the model holds, in $XDG_STATE_HOME/shutlane, else ~/.local/state/shutlane.
ToldBumps told_bumps(const CrankingModel& model);
/// Keeps one more, whoever else tells of bumps at the same time, and gives all that are kept. Throws BadInput
/// when it cannot be kept.
ToldBumps add_told_bump(const CrankingModel& model, const ToldBump& bump);
void forget_told_bumps(const CrankingModel& model);

/// The press of the table nearest to the one told; throws BadInput when it is far from all of them.
int press_in_table(const RestTable& table, double press_s);
/// The table's cars with the weights that the bumps leave them.
std::vector<CarSample> cars_after(const RestTable& table, const std::vector<ToldBump>& bumps);
std::vector<double> weights_of(const std::vector<CarSample>& cars);

}  // namespace shutlane::terminal
