#pragma once
// What is known while the crank stands at one position: what was known on arriving, and what was told since.
// Exact sets decide what may be blasted; the belief beside them only ever forbids.
#include <memory>
#include <optional>
#include <vector>

#include "sim/witness/belief.hpp"
#include "sim/witness/port_sets.hpp"

namespace shutlane {

/// What the witnesses need of an engine.
struct WitnessModel {
  Engine engine;
  std::vector<PortSets> ports;             ///< in number order, as engine.cylinders
  std::shared_ptr<const LookModel> looks;  ///< how likely a look misleads
  size_t index_of(int cylinder) const;     ///< ports.size() when the engine has no such cylinder
};

/// A value. Methods take the model it was made with.
class Here {
 public:
  Here() = default;  ///< of no engine: nothing is known
  /// `with_belief` false: the sets alone, and every chance is 1.
  Here(const WitnessModel& model, bool with_belief);

  void tell(const WitnessModel& model, const Told& told);
  void forget_look(const WitnessModel& model, int cylinder);
  void forget_looks(const WitnessModel& model);
  void forget_marks(const WitnessModel& model);
  void forget_lobes(const WitnessModel& model);
  /// What was known on arriving goes; what was told since stays.
  void forget_arrival(const WitnessModel& model);
  /// What was told here goes with the crank, for each port without its own looks.
  void turned(const WitnessModel& model, double min_deg, double max_deg);
  /// The crank may stand anywhere; of the hidden causes is kept what was learnt.
  void lost(const WitnessModel& model);

  const std::vector<Told>& told() const { return told_; }
  const ArcSet& arrived() const { return arrived_; }

  /// Where the crank can stand by everything said; empty: it contradicts itself.
  ArcSet where(const WitnessModel& model) const;
  /// By everything but the looks into that port, at any position: a port is never its own witness.
  ArcSet where_without(const WitnessModel& model, size_t port) const;
  /// By everything but the looks of this position.
  ArcSet where_before_looks(const WitnessModel& model) const;

  /// Of being really open, all faults weighed; 1 without a belief.
  double chance_open(int cylinder) const { return now_ ? now_->chance_open(cylinder) : 1; }
  /// Of being open by more than kHarm_mm; 1 without a belief.
  double chance_harmed(int cylinder) const { return now_ ? now_->chance_harmed(cylinder) : 1; }
  std::optional<Saw> seen(int cylinder) const;  ///< the last answer at this position
  /// The last answer that told anything.
  std::optional<bool> answer(int cylinder) const;
  bool looked_since_pause(int cylinder) const;  ///< looking twice in a row into one port proves nothing
  bool lobe_told(int cylinder) const;           ///< "can't see" included
  bool lobe_unclear() const;                    ///< of any that was looked at
  const Belief* belief() const { return now_.get(); }  ///< null without one

 private:
  ArcSet narrowed(const WitnessModel& model, ArcSet where, size_t left_out) const;
  void weigh_again(const WitnessModel& model);
  Belief weighed(const WitnessModel& model, const Belief& belief, size_t index) const;
  void arrive(Belief belief);

  ArcSet arrived_ = ArcSet::all();
  std::vector<ArcSet> arrived_without_;          ///< for each port
  std::vector<Told> told_;                       ///< in order
  std::shared_ptr<const Belief> arrival_, now_;  ///< shared by copies; never changed
};

}  // namespace shutlane
