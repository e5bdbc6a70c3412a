#pragma once
// A turn as the hand feels it: full, half and quarter turns, else eighths, degrees when no such part fits.
// The only place where turns become words.
#include <string>

#include "sim/plan/wrench.hpp"

namespace shutlane {

/// Every figure here is said exactly as turn_in_words says it: nothing is rounded on the way to the sentence.
struct ToldTurn {
  double aim_deg = 0;               ///< what is asked for, 0 < aim unless the planned turn itself is 0
  double min_deg = 0, max_deg = 0;  ///< what is said to do as well; equal to the aim where there is no slack
  /// What is logged when the turn is reported as made: all that was said to do, and the accuracy about the
  /// aim.
  double logged_min_deg = 0, logged_max_deg = 0;
};

/// Rounds inwards: whatever is told lies within [turn_min_deg, turn_max_deg] of the planned position, and an
/// aim that is not the planned one keeps `accuracy_deg` clear of both ends, as the planner's own aim does.
ToldTurn tell_turn(const Position& planned, double accuracy_deg);

/// "half a turn", "one full turn", "one and three quarter turns", "five eighths of a turn"; anything else in
/// degrees, at most two decimals: "217°".
std::string turn_in_words(double turn_deg);

/// "anything from three quarters of a turn to one and a half turns will do", "anything up to half a turn will
/// do"; without slack on one side "... will do, but no less" or "no more". Empty where there is none at all.
std::string range_in_words(const ToldTurn& told);

/// All of a planned turn that no other follows: "one full turn; anything from 210° to one and a half turns
/// will do (206° to 540°)". The figures in brackets are the planned range itself, rounded inwards to half
/// degrees; an end is said in words only where these lie within kWordsAgree_deg of it.
std::string turn_sentence(const Position& planned, double accuracy_deg);
inline constexpr double kWordsAgree_deg = 10;

/// A turn that another one follows. Its widest range would not do: the ranges of the turns after it hold only
/// where it ends near its aim.
struct FollowedTurn {
  /// The crank's way from the first position in all, so that no miss adds to the one before; at most two
  /// decimals.
  double total_deg = 0;
  double plus_minus_deg = 0;  ///< at most the accuracy; what rounding took from the aim is taken from it
};
FollowedTurn tell_followed_turn(const WrenchPlan& plan, size_t position, double accuracy_deg);

/// The turn to `position` (from 1 on) as it is told. One that others follow: "310°, to within 10° (300° to
/// 320°)"; whoever tells it adds that after any other turn one plans again.
std::string turn_sentence(const WrenchPlan& plan, size_t position, double accuracy_deg);

/// The plan with the ranges of turns that others follow drawn in to what is told of them.
WrenchPlan holding_together(WrenchPlan plan, double accuracy_deg);

}  // namespace shutlane
