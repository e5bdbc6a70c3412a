#pragma once
// From what was seen straight to what to do: which ports can be blasted now, and the turn that is right from
// wherever the crank may stand.
#include "sim/plan/wrench.hpp"
#include "sim/witness/evidence.hpp"

namespace shutlane {

struct LooksPlanQuestion {
  double margin_deg = kDefaultMargin_deg;      ///< 0..360
  double accuracy_deg = kDefaultAccuracy_deg;  ///< 0..360, how near a turn ends
  std::vector<int> left;                       ///< cylinders still to be done
  std::vector<int> done;                       ///< ports blasted before
  std::vector<int> cant_see;                   ///< not to be asked for
  WitnessRule rule;
};

struct LooksPlan {
  ArcSet stands;               ///< where the crank can stand; empty: the looks contradict each other
  std::vector<Mend> mends;     ///< of a contradiction
  bool one_full_turn = false;  ///< one full turn is right from every angle at all: nothing need be asked

  /// Ports left that are witnessed here: to be blasted now, once seen shut. The rest of the plan holds for
  /// them whatever the others turn out to be.
  std::vector<int> blast_now;
  std::vector<int> seen;  ///< those of blast_now that have been seen shut already; the others need that look
  /// Ports left, surely shut wherever the crank may stand, but reckoned so from their own look only: not to
  /// be blasted before another port has been looked into.
  std::vector<int> own_look_only;
  /// While nothing can be blasted here: the look that narrows down most where the crank stands, as `locate`
  /// names it; nullopt when none does.
  std::optional<int> look_to_blast;

  /// From the first position (where the crank stands now: at_deg 0) on. at_deg is the turn from there, in
  /// all, modulo 720; turn ranges hold from every angle of `stands`. Positions are marks made from where the
  /// crank stands now, as in the contract's plan. Empty when one more look is needed, or when nothing is
  /// left.
  WrenchPlan turns;
  std::vector<ArcSet> at;  ///< where the crank may stand at each position of `turns`

  /// Ports left that no turn is right for from every angle of `stands`, and with `one_full_turn` those that
  /// would need turns of their own: they are shut here or after the full turn, and the looks there will tell
  /// which.
  std::vector<int> unplaced;
  /// The look that is needed before any turn (unless one_full_turn), as `locate` names it; nullopt: none, or
  /// none would help.
  std::optional<int> look_next;
  bool contradiction() const { return stands.empty(); }
  bool ready() const { return !contradiction() && (one_full_turn || unplaced.empty()); }
};

LooksPlan plan_from_looks(const Engine& engine, const Evidence& evidence, const LooksPlanQuestion& question);
LooksPlan plan_from_looks(const Engine& engine, const Looks& looks, const LooksPlanQuestion& question);

}  // namespace shutlane
