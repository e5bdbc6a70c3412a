#pragma once
// What the looks, moves and marks tell of the crank and of each port. A port is never its own witness.
#include <optional>
#include <vector>

#include "sim/job/state.hpp"

namespace shutlane {

enum class Reckoned { shut, open, unknown };

struct Whereabouts {
  ArcSet where;                 ///< by everything said
  std::vector<ArcSet> without;  ///< for each port: by everything but the looks into it, at any position
};
Whereabouts whereabouts(const JobModel& model, const JobState& state);

struct Weighed {
  ArcSet where;  ///< where the crank can stand by everything said; empty: it contradicts itself
  std::vector<Reckoned> ports;   ///< of each port, its own look left out; shut: surely, with the margin
  std::optional<int> next_look;  ///< the unseen port whose look narrows `where` most; nullopt when none does
  bool contradiction() const { return where.empty(); }
};

Weighed weigh(const JobModel& model, const JobState& state);

/// Is it likely enough (1 in 5) that looking into the other ports makes a witness for some port left that may
/// be shut here?
bool looking_helps(const JobModel& model, const JobState& state, const Weighed& weighed);

/// Do the two witnesses agree? The port was seen shut at this position, and is reckoned surely shut from
/// everything but its own look. Nothing else may be in work, the evidence must not contradict itself, and no
/// look may be due after a disagreement.
bool witnesses_agree(const JobModel& model, const JobState& state, int cylinder);

/// Five and fewer: too few to witness each other from one position.
bool few_ports(const JobModel& model);

/// Cam lobes are asked for: not ruled out, and not found hidden twice where none was ever seen.
bool lobes_seen(const JobModel& model, const JobState& state);

/// The rules' most_open; where ports are few it cannot be reached, and it is 2e-4 with the crank's mark read
/// here (three and fewer: and lobes to be seen), else 1e-3 (three and fewer: 3e-3).
double limit_of_doubt(const JobModel& model, const JobState& state);

/// Would one more look into it, calling it shut, leave little enough doubt?
bool enough_after_its_look(const JobModel& model, const JobState& state, int cylinder);

/// The two witnesses agree, the look into the port is the last thing that was done, and the chance that both
/// are wrong is below the rules' limit.
bool may_blast(const JobModel& model, const JobState& state, int cylinder);

}  // namespace shutlane
