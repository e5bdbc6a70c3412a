#pragma once
// May a port be blasted, and if not, what would free it? Two witnesses must agree, a port is never its own
// witness, and the doubt that both mislead must be small.
#include <optional>
#include <vector>

#include "sim/job/state.hpp"

namespace shutlane {

/// What the witnesses say of every port now.
struct Reckoning {
  ArcSet where;                      ///< where the crank can stand by everything said
  std::vector<ArcSet> without;       ///< for each port: by everything but the looks into it
  std::vector<Reckoned> ports;       ///< of each port, its own look left out; shut: surely, with the margin
  std::vector<bool> own_look_frees;  ///< for each port: would a look into it now, calling it shut, let it be
                                     ///< blasted? The chalk is left out: it is asked first
  bool contradiction() const { return where.empty(); }
};
Reckoning reckoning(const JobModel& model, const JobState& state);

/// The port was seen shut at this position, and is reckoned surely shut from everything but its own look.
/// Nothing else may be in work, the evidence must not contradict itself, and no look may be due after a
/// disagreement.
bool witnesses_agree(const JobModel& model, const JobState& state, int cylinder);

/// Five and fewer: too few to witness each other from one position.
bool few_ports(const JobModel& model);

/// Cam lobes are asked for: not ruled out, and not found hidden twice where none was ever seen.
bool lobes_seen(const JobModel& model, const JobState& state);

/// The greatest chance of being open at which a port is blasted, as the rules say; three ports and fewer,
/// which looks can hardly tell apart, at least 3e-3.
double limit_of_doubt(const JobModel& model);
/// The same of being open by more than kHarm_mm. Without the mark twice that, for looks alone can hardly
/// do better; at least 1e-3 with three ports and fewer.
double limit_of_harm(const JobModel& model, const JobState& state);

/// The line was drawn at this position and seen in line since the last blast, or there can be none.
bool chalk_holds(const JobState& state);

/// All but the chalk: the witnesses agree, the look into the port is the last that was made and no blast
/// came after it, and the doubt is below the limit.
bool may_blast_by_looks(const JobModel& model, const JobState& state, int cylinder);
/// That, and the chalk holds.
bool may_blast(const JobModel& model, const JobState& state, int cylinder);

/// The look that would make surer of a port on which both witnesses agree. Once abrasive lies about, into
/// ports that are reckoned shut only.
std::optional<int> surer_look(const JobState& state, const Reckoning& reckoned, int cylinder);

/// Of a port seen and reckoned shut that may not be blasted yet, the one answer that would free it.
struct WaitsFor {
  enum class What { look, chalk, mark } what = What::look;
  int cylinder = 0;  ///< of a look
  friend bool operator==(const WaitsFor&, const WaitsFor&) = default;
};
std::optional<WaitsFor> waits_for(const JobModel& model, const JobState& state, const Reckoning& reckoned,
                                  int cylinder);

/// May the crank be turned to its mark by whoever does this job?
bool mark_at_hand(const JobModel& model, const JobState& state);

}  // namespace shutlane
