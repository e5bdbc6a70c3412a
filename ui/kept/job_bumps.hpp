#pragma once
// What the bumps of earlier jobs taught about an engine's starter and friction, kept between runs: the rows
// of stops as they were seen, so that what they teach is worked out anew from the rest table each time.
#include <functional>
#include <string>
#include <vector>

#include "sim/cranking/model.hpp"
#include "sim/plan/bump_belief.hpp"

namespace shutlane {

using BumpRow = std::vector<BumpStop>;

struct JobBumps {
  double started_s = 0;  ///< of the job, seconds since 1970: tells jobs apart
  std::vector<BumpRow> rows;
  friend bool operator==(const JobBumps&, const JobBumps&) = default;
};

inline constexpr size_t kMostKeptJobs = 50;  ///< the oldest are dropped

/// In the order in which they were kept; a file that is damaged is set aside and counts as none.
std::vector<JobBumps> job_bumps(const CrankingModel& model);
/// Replaces what was kept of this job, so that a bump taken back is taken back here too; a job without a
/// timed bump is dropped. The file is named by all that the model holds, in $XDG_STATE_HOME/shutlane, else
/// ~/.local/state/shutlane. What cannot be written is left out.
void keep_job_bumps(const CrankingModel& model, const JobBumps& job);
void forget_job_bumps(const CrankingModel& model);
size_t timed_bumps(const std::vector<JobBumps>& jobs);

/// Weights of the table's cars after rows of bumps; `learnt_from`, when given, grows by the bumps that told
/// something.
std::vector<double> weights_after(const RestTable& table, std::vector<double> weights,
                                  const std::vector<BumpRow>& rows, int* learnt_from = nullptr);

/// What the desk asks of it, so that tests keep nothing.
struct BumpMemory {
  /// Weights by all that is kept of the engine but this job; empty: the table's own.
  std::function<std::vector<double>(const CrankingModel&, const RestTable&, double but_job_s)> weights;
  std::function<void(const CrankingModel&, const JobBumps&)> keep;
};
BumpMemory kept_bump_memory();

}  // namespace shutlane
