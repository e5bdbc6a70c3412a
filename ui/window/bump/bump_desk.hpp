#pragma once
// How long to press the starter, worked out on one thread of its own, so that no frame waits for it. What is
// told is the terminal's plan by starter, from where the job's looks and bumps leave the crank; the table
// behind it is the one that the terminal keeps.
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "sim/job/model.hpp"
#include "sim/plan/bump_plan.hpp"
#include "ui/kept/job_bumps.hpp"

namespace shutlane {

struct BumpQuestion {
  std::shared_ptr<const Engine> engine;  ///< never null; another pointer counts as another engine
  double margin_deg = kDefaultMargin_deg;
  ArcSet where;           ///< where the crank may stand, each angle equally likely; not empty
  std::vector<int> left;  ///< ports, none of which can be worked there; empty: only the table is fetched
  /// The job's rows of bumps, the last stop of the last one in place of `where`; none: `where` alone.
  std::vector<BumpRow> rows = {};
  /// A port counts as done where looks by these rules would allow it; nullopt: wherever it is surely shut.
  std::optional<JobRules> rules = {};
  std::optional<double> job_s = {};  ///< tells the job apart from earlier ones on the engine
  friend bool operator==(const BumpQuestion&, const BumpQuestion&) = default;
};

struct BumpView {
  std::optional<BumpPlan> plan;    ///< possible
  std::optional<MixedPlan> mixed;  ///< with a wrench at hand; its first press is that of `plan`
  int learnt_from = 0;             ///< bumps of this job that told of the starter and the friction
  double stronger = 0;  ///< by which factor the car goes against its friction more than stated, as logarithm
  bool stale = false;   ///< `plan` answers the question before, on the same engine
  std::string no_bump;  ///< why none is advised; empty: none such reason is known
  std::optional<double> reckoning;  ///< share done, 0..1; nullopt: nothing is being worked out
};

class BumpDesk {
 public:
  /// Gives the rest table of a model; null when its progress gave up.
  using TableFor =
      std::function<std::shared_ptr<const RestTable>(const CrankingModel&, const RestTableQuestion&)>;

  /// `wake` is called from the thread, after each percent and each answer.
  BumpDesk(std::function<void()> wake, TableFor table_for, BumpMemory memory = {});
  ~BumpDesk();  ///< gives up what is being worked out, within a tenth of a second or so
  BumpDesk(const BumpDesk&) = delete;
  BumpDesk& operator=(const BumpDesk&) = delete;

  /// The latest question counts; the same one again costs nothing. A table in work goes on for a further
  /// question on the same engine, and is given up for another engine's.
  void ask(const BumpQuestion& question);
  BumpView view() const;

 private:
  struct Answer {
    BumpQuestion to;
    std::optional<BumpPlan> plan;
    std::string no_bump;
    std::optional<MixedPlan> mixed;
    int learnt_from = 0;
    double stronger = 0;
  };
  void run();
  Answer reckon(BumpQuestion question);
  bool tell(double done, const Engine* engine);
  BumpStart start_of(const BumpQuestion& question, Answer& answer);
  std::optional<MixedPlan> mixed_plan(const BumpStart& start, const BumpQuestion& question, BumpPlan& plan);
  void make_planner(const BumpQuestion& question, const std::vector<double>& weights);
  void fetch_table(const BumpQuestion& question);

  std::function<void()> wake_;
  TableFor table_for_;
  BumpMemory memory_;

  mutable std::mutex mutex_;  // guards from here ...
  std::condition_variable changed_;
  std::optional<BumpQuestion> asked_;
  unsigned asked_count_ = 0, answered_count_ = 0;
  std::optional<Answer> answer_;
  double progress_ = 0;
  bool ending_ = false;  // ... to here

  // The thread's own.
  std::shared_ptr<const Engine> engine_;  // that the table is of
  std::string no_table_;                  // why there is none
  std::shared_ptr<const RestTable> table_;
  std::string table_key_;
  std::unique_ptr<BumpPlanner> planner_;
  BumpQuestion planned_;  // that the planner answers, but for where and what is left
  std::vector<double> planned_weights_;

  std::thread thread_;  // last: it uses all of the above
};

}  // namespace shutlane
