#pragma once
// The whole job as a technician does it: what is the next thing to do, given the evidence and what is left?
#include "sim/belief/belief.hpp"
#include "sim/belief/plan_from_looks.hpp"

namespace shutlane {

enum class StepKind { finished, blast, look, turn, disagree };

struct NextStep {
  StepKind kind = StepKind::finished;
  std::vector<int> ports;  ///< blast: seen shut and witnessed; look: the one port
  double turn_deg = 0;     ///< turn
};

/// What the belief may still object: two witnesses can both be wrong, and the belief knows how likely that
/// is.
struct DoubtLimit {
  const Belief* belief = nullptr;  ///< of the same looks and turns; nullptr: the two witnesses alone decide
  double most_open =
      kMostOpen;  ///< 0..1, a port more likely open than this is not blasted without another look
  /// Ports looked into since the crank could last have been moved unseen (a pause, the blasting of a port):
  /// the others may be looked into again. Looking twice in a row into one port proves nothing.
  std::vector<int> fresh;
};

/// Works the position out before it leaves it: blasts what can be blasted, looks while a look is likely to
/// let another port left be blasted here, then turns. `ports` as port_sets(engine, eye, margin) made them.
NextStep next_step(const Engine& engine, const std::vector<PortSets>& ports, const Evidence& evidence,
                   const LooksPlanQuestion& question, const DoubtLimit& doubt = {});

/// Where the crank can stand after a turn, carried from the evidence before it.
ArcSet after_turn(const std::vector<PortSets>& ports, const Evidence& evidence, double turn_deg,
                  double accuracy_deg);

}  // namespace shutlane
