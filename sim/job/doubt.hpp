#pragma once
// How likely is a port open although it was seen shut and is reckoned shut? Both witnesses can be wrong
// together: a look into the wrong port, a turn that missed, somebody who moved the crank in a pause. The
// belief carried along here knows how likely that is. It only ever forbids; what may be blasted is decided by
// the exact sets first (sim/job/evidence.hpp).
#include <memory>
#include <optional>
#include <variant>
#include <vector>

#include "sim/belief/belief.hpp"
#include "sim/job/event.hpp"
#include "sim/job/model.hpp"

namespace shutlane {

/// A time at one position in which somebody may have moved the crank: a port was blasted.
struct Pause {};
using ToldHere = std::variant<LookedInto, MarkRead, LobeSeen, Pause>;

/// Where the crank can stand when a lobe was seen so.
ArcSet lobe_arcs(const Engine& engine, const LobeSeen& lobe);

class Doubt {
 public:
  Doubt() = default;  ///< nothing is known: every port counts as open
  explicit Doubt(const JobModel& model);

  void tell(const JobModel& model, const ToldHere& told);
  void take_back_look(const JobModel& model, int cylinder);
  void take_back_looks(const JobModel& model);
  void turned(double min_deg, double max_deg);
  void lost();  ///< the crank may stand anywhere; of the other causes is kept what was learnt

  double chance_open(int cylinder) const;
  /// The answer of the last look into a port at this position; nullopt: none that told anything.
  std::optional<bool> answer_here(int cylinder) const;
  bool looked_since_pause(int cylinder) const;  ///< looking twice in a row into one port proves nothing
  bool lobe_told(int cylinder) const;           ///< at this position, "can't see" included
  bool lobe_unclear() const;                    ///< of any that was looked at here
  /// Null before there is a model.
  const Belief* belief() const { return now_.get(); }

 private:
  void weigh_again(const JobModel& model);
  Belief weighed(const JobModel& model, const Belief& belief, size_t index) const;
  void arrive(Belief belief);
  std::shared_ptr<const Belief> arrived_, now_;  ///< shared by copies of a state; never changed
  std::vector<ToldHere> told_;                   ///< at this position, in order
};

/// The look that says most about whether a port is open although both witnesses call it shut; nullopt when no
/// look that can still be made here says anything worth having.
std::optional<int> one_more_look(const Doubt& doubt, const std::vector<int>& can_look, int doubtful);

}  // namespace shutlane
