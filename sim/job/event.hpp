#pragma once
// What happened at the engine, in order. The job's state is reckoned from these and from nothing else; undo
// takes the last one away and reckons again.
#include <cstddef>
#include <optional>
#include <variant>

#include "sim/belief/disagreement.hpp"

namespace shutlane {

/// Touching: on its seat only just, or a hair off it. Hidden: the port can't be seen.
enum class Saw { shut, open, hidden, touching };

struct LookedInto {
  int cylinder = 0;
  Saw saw = Saw::hidden;
  friend bool operator==(const LookedInto&, const LookedInto&) = default;
};
struct LooksForgotten {  ///< every look at this position is to be made again
  friend bool operator==(const LooksForgotten&, const LooksForgotten&) = default;
};
/// Of a disagreement, what is at fault. A look that misled or went into another port is taken back; a moved
/// crank is lost; all else takes back every look and all that is known of the crank. What was taken back is
/// to be looked into again before anything is blasted at this position.
struct CauseChosen {
  Suspicion what = Suspicion::missed_look;
  int cylinder = 0;  ///< missed_look, wrong_port: whose look; 0: all of them. crumb: the port
  size_t bank = 0;   ///< phaser, chain: an index into the engine's banks
  friend bool operator==(const CauseChosen&, const CauseChosen&) = default;
};
struct BlastStarted {
  int cylinder = 0;
  friend bool operator==(const BlastStarted&, const BlastStarted&) = default;
};
struct BlastStopped {  ///< stopped before the port was clean
  friend bool operator==(const BlastStopped&, const BlastStopped&) = default;
};
struct PortDone {
  int cylinder = 0;
  friend bool operator==(const PortDone&, const PortDone&) = default;
};
struct PortAgain {  ///< a port taken for done is to be done once more
  int cylinder = 0;
  friend bool operator==(const PortAgain&, const PortAgain&) = default;
};
struct Reachable {  ///< a port that cannot be reached today is left out of the job until it can
  int cylinder = 0;
  bool reachable = false;
  friend bool operator==(const Reachable&, const Reachable&) = default;
};
struct OnlyBank {  ///< an index into the engine's banks; nullopt: all banks again
  std::optional<size_t> bank;
  friend bool operator==(const OnlyBank&, const OnlyBank&) = default;
};
struct MarkRead {             ///< the crank's mark, which repeats every turn
  double at_deg = 0;          ///< read modulo 360
  double plus_minus_deg = 5;  ///< 0.5..180
  friend bool operator==(const MarkRead&, const MarkRead&) = default;
};
struct NoMark {  ///< the crank has none that can be seen
  friend bool operator==(const NoMark&, const NoMark&) = default;
};
/// Which way the lobe of a cylinder's intake valve points, seen at the oil filler: a witness that is no look.
/// To within 45 cam degrees. Unclear, neither of the two, tells nothing, and nor does hidden: it can't be
/// seen.
enum class Lobe { away, at_valve, unclear, hidden };
struct LobeSeen {
  int cylinder = 0;
  Lobe points = Lobe::unclear;
  friend bool operator==(const LobeSeen&, const LobeSeen&) = default;
};
struct SuckedOut {  ///< every port unplugged so far
  friend bool operator==(const SuckedOut&, const SuckedOut&) = default;
};
/// A cylinder that abrasive may have got into was looked into, through its plug hole or its open valve, and
/// is clean, or was sucked clean.
struct InsideClean {
  int cylinder = 0;
  friend bool operator==(const InsideClean&, const InsideClean&) = default;
};
struct PortsEmptied {  ///< nothing is left in any port: wand, hose, lamp, plug
  friend bool operator==(const PortsEmptied&, const PortsEmptied&) = default;
};
struct PlugsCounted {  ///< and all are there
  friend bool operator==(const PlugsCounted&, const PlugsCounted&) = default;
};
/// The crank was turned forward, by no less than min and no more than max.
struct Turned {
  double min_deg = 0, max_deg = 0;  ///< 0 <= min <= max <= 7200
  friend bool operator==(const Turned&, const Turned&) = default;
};
struct TurnedTooFar {  ///< or too little: nobody knows how far
  friend bool operator==(const TurnedTooFar&, const TurnedTooFar&) = default;
};
struct Bumped {        ///< by the starter: the crank may rest anywhere
  double press_s = 0;  ///< as advised; 0: not known. 0..60
  bool timed = false;  ///< by the beeps, so that it was about that long
  friend bool operator==(const Bumped&, const Bumped&) = default;
};
/// The beeps of a press were started: from here on nobody knows whether the starter turned the crank, so it
/// counts as bumped. Taken back when it was not pressed after all.
struct PressStarted {
  double press_s = 0;  ///< 0..60
  friend bool operator==(const PressStarted&, const PressStarted&) = default;
};
struct CrankMoved {  ///< by somebody, by an unknown amount
  friend bool operator==(const CrankMoved&, const CrankMoved&) = default;
};
/// A blast was taken back, but nobody sucked out what it may have blown into the port.
struct AbrasiveLeft {
  int cylinder = 0;
  friend bool operator==(const AbrasiveLeft&, const AbrasiveLeft&) = default;
};

using JobEvent =
    std::variant<LookedInto, LooksForgotten, CauseChosen, BlastStarted, BlastStopped, PortDone, PortAgain,
                 Reachable, OnlyBank, MarkRead, LobeSeen, SuckedOut, InsideClean, PortsEmptied, PlugsCounted,
                 Turned, TurnedTooFar, Bumped, CrankMoved, PressStarted, AbrasiveLeft, NoMark>;

}  // namespace shutlane
