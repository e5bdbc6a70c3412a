#pragma once
// Exact sets for whoever works step by step: what is known from before, and what was seen at this position.
#include "sim/witness/locate.hpp"

namespace shutlane {

/// `before`: where the crank can stand for other reasons than the looks at this position (a position before,
/// carried on by its turn; a lobe).
struct Evidence {
  Looks looks;
  ArcSet before = ArcSet::all();
};

/// Where the crank can stand; empty when the evidence contradicts itself. Looks into `but_for` are left out.
ArcSet stands(const std::vector<PortSets>& ports, const Evidence& evidence,
              const std::vector<int>& but_for = {});

struct WitnessRule {
  /// How many of the other looks may be wrong without harm: 0, or 1 (then the port must stay surely shut
  /// whichever one of them is left out).
  int spare_looks = 0;
  /// Count `before` as a witness. Without it only looks (and a mark) at this position do: safer when a turn
  /// may have missed, or somebody may have moved the crank.
  bool trust_before = true;
};

/// Is the port reckoned surely shut (margin and all) from evidence other than its own look?
bool witnessed(const std::vector<PortSets>& ports, const Evidence& evidence, int cylinder,
               const WitnessRule& rule = {});
std::vector<int> all_witnessed(const std::vector<PortSets>& ports, const Evidence& evidence,
                               const WitnessRule& rule = {});

/// A look whose change would mend a contradiction.
struct Mend {
  int cylinder = 0;  ///< 0: the crank mark
  bool was_shut = false;
  bool by_leaving_out = false;  ///< "can't see" in its place, or no mark: consistent
  bool by_other_answer = false;
};
/// Every single look that would mend it; empty when the evidence is consistent or when no single look will
/// do.
std::vector<Mend> mends(const std::vector<PortSets>& ports, const Evidence& evidence);

}  // namespace shutlane
