#pragma once
// Where is the crank, and what may be wrong? A distribution over the cycle for each hidden cause.
#include <functional>
#include <memory>
#include <optional>
#include <span>

#include "sim/cycle/arc_set.hpp"
#include "sim/witness/look_model.hpp"

namespace shutlane {

/// A turn by wrench: the crank ends within `accuracy_deg` of it (most often near the middle, now and then
/// further off), then may roll back when the wrench lets go.
struct WrenchTurn {
  double turn_deg = 0;            ///< forward, >= 0
  double accuracy_deg = 10;       ///< 0..360
  double roll_back_deg = 0;       ///< 0..360, at most this far back, all equally likely
  double roll_back_chance = 0;    ///< 0..1
  double off_by_turn_chance = 0;  ///< 0..1, it was one full turn more or less, which a mark cannot tell
  double lost_chance = 0;         ///< 0..1, the turn was miscounted or another one: the crank may be anywhere
};

/// Chances of the rest angle after a bump from a start angle: kBeliefBins of them, bin i = angle i * 0.5 deg;
/// need not sum to 1. An empty span: not known, the crank may be anywhere.
using RestChances = std::function<std::span<const double>(double start_deg)>;

/// A value; every operation makes a new one and none can leave it empty, because every answer keeps a chance
/// under some cause. What is told of the hidden causes is their posterior chance, nothing more.
class Belief {
 public:
  static Belief uniform(std::shared_ptr<const LookModel> model);
  /// Evenly over the arcs (an empty set: the whole cycle).
  static Belief over(std::shared_ptr<const LookModel> model, const ArcSet& arcs);
  /// As the crank tends to rest: kBeliefBins chances.
  static Belief resting(std::shared_ptr<const LookModel> model, std::span<const double> chances);

  struct Seen;
  Seen looked(int cylinder, bool shut) const;
  /// The same answer once more, at the same position: the same eye at the same valve repeats its mistake, so
  /// it tells only of a crank that somebody has moved since (the cause `moved`).
  Seen looked_again(int cylinder, bool shut) const;
  /// A crank mark read modulo 360: sure within plus_minus, falling to the chance of a misread at
  /// twice that.
  Seen marked(double at_deg, double plus_minus_deg) const;
  /// Something that places the crank in a set of arcs, such as a lobe seen at the filler; wrong now and then.
  Seen placed(const ArcSet& arcs, double chance_wrong = 0.02) const;
  /// The lobe of a cylinder's intake valve seen at the filler (lobe_seen_at): sure within plus_minus, falling
  /// to a chance of the wrong lobe at twice that.
  Seen lobe_seen(const Engine& engine, int cylinder, double past_valve_deg, double plus_minus_deg) const;

  Belief turned(const WrenchTurn& turn) const;
  Belief bumped(const RestChances& rest) const;
  /// Somebody may have moved the crank: mixed to uniform.
  Belief somebody_moved(double chance) const;
  /// A pause at this position, such as the blasting of a port: that much of every cause goes to `moved`.
  Belief paused(double chance) const;
  /// The crank is known to have moved: who moved it before is no hidden cause any more.
  Belief settled() const;

  const LookModel& model() const { return *model_; }
  std::shared_ptr<const LookModel> shared_model() const { return model_; }
  std::vector<double> angles() const;                      ///< chance of each bin, over all causes
  std::vector<double> cause_chances() const;               ///< as model().causes()
  double doubt() const { return 1 - cause_chances()[0]; }  ///< chance that not all is as told
  double chance_in(const ArcSet& arcs) const;
  double chance_shut(int cylinder) const;    ///< really shut
  double chance_open(int cylinder) const;    ///< really open
  double chance_harmed(int cylinder) const;  ///< open by more than kHarm_mm
  double chance_seen_shut(int cylinder) const;
  /// What a look would do to the chance that a port is open (its own chance to be called shut, and the chance
  /// after either answer); the small leak between looks left out.
  struct AfterLook {
    double called_shut = 0, open_if_shut = 0, open_if_open = 0;
  };
  /// `again`: the answer of a look into that port at this position before; only `moved` learns from the same
  /// one.
  AfterLook open_after_look(int doubtful, int look, std::optional<bool> again = {}) const;
  double bits() const;                       ///< entropy of the angle, 0..10.5
  ArcSet likely(double share = 0.95) const;  ///< the shortest set of bins that holds this share

 private:
  Belief(std::shared_ptr<const LookModel> model, std::vector<double> one_angle_distribution);
  template <typename ChanceOfAnswer>
  Seen weighed(ChanceOfAnswer chance_of_answer) const;  ///< of (cause, bin); leaks a little to `moved` first
  std::span<double> row(size_t cause) { return {mass_.data() + cause * kBeliefBins, kBeliefBins}; }
  std::span<const double> row(size_t cause) const {
    return {mass_.data() + cause * kBeliefBins, kBeliefBins};
  }
  std::shared_ptr<const LookModel> model_;
  std::vector<double> mass_;  ///< cause by cause, kBeliefBins each; sums to 1
};

/// The greatest chance that a port is open at which it may be blasted (tests/job/whole_jobs_test shows the
/// curve of looks a job against ports blasted open).
inline constexpr double kMostOpen = 3e-3;
/// ... and that it is open by more than kHarm_mm: a hair open over loose dust is not the same as wide open.
inline constexpr double kMostHarmed = 2e-4;

inline constexpr double kSurprise = 0.05;  ///< an answer that was less likely than this is a surprise

struct Belief::Seen {
  Belief belief;
  double chance = 1;  ///< of this answer, before it was given
  bool surprise() const { return chance < kSurprise; }
};

}  // namespace shutlane
