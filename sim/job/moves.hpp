#pragma once
// Which move of the crank comes next, and what follows it.
#include "sim/job/situation.hpp"

namespace shutlane {

/// Of the ports that a turn can help; none left: no move. `stay`: ports that can be worked here still.
/// `ahead_of_time`: the move is not due yet, and where the crank stands is too little known for a plan.
struct PlannedMoves {
  std::optional<NextMove> move;
  std::vector<PlannedPosition> ahead;
  bool by_mark = false;  ///< on to where the crank's mark stands at its pointer
};
PlannedMoves planned_moves(const JobModel& model, const JobState& state, const Reckoning& reckoned,
                           const std::vector<int>& stay, bool ahead_of_time = false);

/// One full turn; where a lobe pointed to neither side half a turn.
NextMove blind_turn(const JobModel& model, const JobState& state);

/// To the mark, wherever the crank stands.
NextMove to_the_mark();

}  // namespace shutlane
