#pragma once
// Which port to look into next, so that the fewest further looks lead to a decision; exact over all looking
// trees.
#include <optional>

#include "sim/witness/evidence.hpp"

namespace shutlane {

/// When is enough known? The leaves of the looking tree:
enum class Enough {
  /// Some port left has been seen shut at this position and is witnessed: it can be blasted now.
  blast,
  /// Every port left is either witnessed here, or one turn is known that brings it, from every angle of the
  /// consistent set and to within the accuracy, to where it is surely shut. Nothing need have been seen shut.
  plan,
};

struct LookQuestion {
  Enough enough = Enough::blast;
  WitnessRule rule;
  std::vector<int> left;      ///< cylinders still to be done
  std::vector<int> cant_see;  ///< not to be looked into again here
  double accuracy_deg = 10;   ///< of the turn, for Enough::plan
  bool worst_first = false;   ///< minimise the worst case, then the mean; else the mean, then the worst case
  /// Chances over the angle (any number of equal bins over the cycle, bin i at i * 720 / n), such as
  /// Belief::angles(); empty: every angle of the consistent set equally likely.
  std::vector<double> chances;
  size_t most_states = 60000;  ///< above it the answer is greedy
};

/// The tree's figures from here on. A look is answered, for the mean, as the events stated would have it at
/// each angle (as in `locate`); for the worst case in every way that the tolerances and the eye's limit
/// allow.
struct LookTree {
  std::optional<int> next;  ///< nullopt: enough is known, or no look helps
  bool enough = false;      ///< it is known already
  double mean_looks = 0;
  int worst_looks = 0;  ///< along any branch that looks alone can finish
  double stuck =
      0;  ///< chance that the looks at all ports do not suffice (a mark, a lobe or a turn must help)
  double bits = 0;  ///< what the next look tells
  bool exact = true;
  size_t states = 0;  ///< looked at during the search
};

LookTree look_tree(const std::vector<PortSets>& ports, const Evidence& evidence,
                   const LookQuestion& question);

}  // namespace shutlane
