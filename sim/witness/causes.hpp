#pragma once
// What may be wrong without anybody knowing: the hidden causes that a belief carries beside the crank angle.
#include <vector>

#include "sim/mechanism/engine.hpp"

namespace shutlane {

enum class CauseKind {
  none,    ///< all is as told
  moved,   ///< somebody moved the crank since
  phaser,  ///< the intake phaser of a bank is not parked
  chain,   ///< the chain of a bank is a tooth off
  crumb,   ///< a crumb holds a seat of one port open
};

struct Cause {
  CauseKind kind = CauseKind::none;
  size_t bank = 0;         ///< phaser, chain
  int cylinder = 0;        ///< crumb
  double earlier_deg = 0;  ///< phaser, chain: the bank's intake stands this many crank degrees earlier
  double prior = 0;        ///< 0..1, over all causes 1
};

/// Assumed, no source. One tooth of the crank's sprocket is 360 / teeth crank degrees.
struct CausePriors {
  double moved = 0.01;        ///< before the first look
  double moved_each = 2e-5;   ///< between one look and the next
  double moved_pause = 1e-4;  ///< while a port was blasted: a wand is in it, and somebody stands there
  double phaser = 0.004;      ///< each bank
  double chain = 0.0005;      ///< each bank
  double crumb = 0.001;       ///< each port
  int sprocket_teeth = 20;    ///< of the crank, 10..60
  double phaser_deg = 25;     ///< how far an unparked phaser stands past the stated range, crank degrees
  double crumb_mm = 1.0;      ///< how far a crumb holds the valve off its seat
};

/// `none` first, `moved` second, then the others bank by bank and port by port; their priors sum to 1.
std::vector<Cause> causes_of(const Engine& engine, const CausePriors& priors = {});

}  // namespace shutlane
