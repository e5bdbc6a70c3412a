#pragma once
// The plan by starter: how long to press, what to expect, and how the habits of the trade compare.
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/cranking/rest_table.hpp"
#include "sim/plan/bump_solver.hpp"
#include "sim/shut/windows.hpp"

namespace shutlane {

inline constexpr double kNearlyAsGood =
    0.05;  ///< of the best expectation: presses within it are "nearly as good"

/// Where the crank may stand before the first bump.
struct BumpStart {
  std::vector<double> weight;  ///< per bin of one degree, summing to 1; 720 entries
  /// Arc that holds the start: ports surely shut over the whole of it are done first. nullopt: the angle is
  /// not known, and looks find the ports that are surely shut where the crank really stands; these are done
  /// first.
  std::optional<Arc> known;
  /// A press so long has just gained nothing: the first press is a longer one, and where there is none, any
  /// other. Whoever bumps again and again to the same end sees it before the reckoning does. 0: any.
  double gainless_s = 0;
};
/// A known angle is smeared over two degrees to both sides for the chances (nobody reads a crank closer than
/// that, and five bins' trials tell more than one bin's); what is surely shut at the start follows from the
/// interval as given.
BumpStart start_at(double from_deg, double plus_minus_deg = 0);
BumpStart start_unknown();                                     ///< every angle equally likely
BumpStart start_believed(std::vector<double> weight_per_bin);  ///< looks tell, as for an unknown start
/// The same where everything has been done that can be, so that nothing is done at the start.
BumpStart start_worked(std::vector<double> weight_per_bin);
/// Anywhere in the arcs, each angle equally likely; an arc is smeared like a known angle. Nothing is done at
/// the start: whoever asks has worked every port there that can be, and names only those that are left.
BumpStart start_within(const ArcSet& where);

struct PressScore {
  double press_s = 0;
  double expected_bumps = 0;   ///< this press first, then the plan's
  double worst_car_bumps = 0;  ///< the same with the first bump on the least fortunate car of the set
  double finish_first = 0;     ///< chance that this one bump finishes
};

struct Habit {
  std::string name;
  double press_s = 0;
  double goes_on = 0;  ///< share of such presses that carry the crank on by half a firing interval or more;
                       ///< the others bounce back off the next compression
  double expected_bumps = 0;  ///< kNever: it may never end
};

struct BumpPlan {
  std::vector<int> no_plan;    ///< cylinders whose sure windows hold no whole bin; then nothing else is set
  bool may_never_end = false;  ///< no sequence of presses is certain to finish; then nothing else is set
  std::vector<int> done_at_start;           ///< with a known start: ports worked before the first bump
  double press_s = 0;                       ///< the best first press; 0 when nothing is left to do
  double press_min_s = 0, press_max_s = 0;  ///< around it, all within kNearlyAsGood of the best
  double expected_bumps = 0;
  double relative_error = 0;        ///< bound on expected_bumps' error against the rest table's exact optimum
  double finish_first = 0;          ///< chance that the first bump finishes (1 where nothing is left)
  std::vector<PressScore> presses;  ///< every press of the table
  std::vector<Habit> habits;
  bool possible() const { return no_plan.empty() && !may_never_end; }
};

/// Bumps first, the wrench to finish.
struct MixedPlan {
  double expected_moves = 0, expected_bumps = 0, expected_turns = 0;
  bool wrench_first = false;  ///< no bump at all
  double press_s = 0;         ///< of the first bump; 0 with wrench_first
  int turns_if_wrench_only = 0;
  double expected_bumps_only = 0;
};

/// Holds the rest table's chances and every value worked out so far, so that later questions are quick.
class BumpPlanner {
 public:
  /// `weights` one a car of the table; empty: the table's own. `done_in`: bins in which a port left is done;
  /// nullopt: those in which it is surely shut.
  BumpPlanner(const Engine& engine, std::shared_ptr<const RestTable> table, std::vector<double> weights = {},
              double margin_deg = kDefaultMargin_deg, std::optional<SureBins> done_in = std::nullopt);

  BumpPlan plan(const BumpStart& start, const std::vector<int>& left);
  /// Habits only; plan() has them in it.
  std::vector<Habit> habits(const BumpStart& start, const std::vector<int>& left);
  /// A turn of the wrench counts `turn_cost` bumps and ends within `accuracy_deg` of its aim.
  MixedPlan mixed(const BumpStart& start, const std::vector<int>& left, double accuracy_deg,
                  double turn_cost = 1);

  /// The press for a crank that stands in a bin with these ports left (sure ones are done first); 0: none
  /// needed.
  double press_at(int bin, const std::vector<int>& left);
  double bumps_at(int bin, const std::vector<int>& left);

  const SureBins& sure_bins() const { return bins_; }
  PortSet ports(const std::vector<int>& numbers) const;
  std::vector<int> numbers(PortSet ports) const;
  const RestTable& table() const { return *table_; }
  const RestLaw& law() const { return law_; }
  size_t sets_solved() const { return solver_.sets_solved(); }

 private:
  struct Case {  // bins of the start that have the same ports left
    PortSet left = 0;
    std::vector<std::pair<int, double>> bins;
  };
  std::vector<Case> cases(const BumpStart& start, PortSet left) const;
  std::vector<int> first_presses(const BumpStart& start) const;
  double expected(BumpSolver& solver, const std::vector<Case>& cases, const std::vector<int>& first) const;
  double in_number_order(const std::vector<Case>& cases, PortSet left, int press) const;
  int shortest_tap() const;
  double goes_on(int press) const;
  int wrench_turns(PortSet left, const std::vector<PortSet>& aims) const;

  std::shared_ptr<const RestTable> table_;
  std::vector<double> weights_;
  std::vector<Windows> windows_;
  std::vector<int> number_at_;  // cylinder number at each place of the firing order
  SureBins bins_;
  RestLaw law_;
  BumpSolver solver_;
};

/// Sure windows by bins, and whether they repeat with the rest table's period.
SureBins sure_bins(const Engine& engine, const std::vector<Windows>& windows, const RestTable& table);
int repeats_after(const SureBins& bins, const RestTable& table);  ///< the bins' period

}  // namespace shutlane
