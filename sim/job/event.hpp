#pragma once
// What happened at the engine, in order. The job's state is reckoned from these and from nothing else; undo
// takes the last one away and reckons again.
#include <cstddef>
#include <optional>
#include <variant>

#include "sim/witness/disagreement.hpp"
#include "sim/witness/told.hpp"

namespace shutlane {

struct LooksForgotten {  ///< every look at this position is to be made again
  friend bool operator==(const LooksForgotten&, const LooksForgotten&) = default;
};
/// Of a disagreement, what is at fault. What is named is taken back (a look, the mark, a lobe, how the crank
/// came here); a moved crank is lost; all else takes back every look and all that is known of the crank. A
/// look that was taken back is to be made again before anything is blasted at this position.
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
  int cylinder = 0;
  friend bool operator==(const BlastStopped&, const BlastStopped&) = default;
};
struct PortDone {  ///< clean, sucked out, its bung is in
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
struct NoMark {  ///< the crank has none that can be seen
  friend bool operator==(const NoMark&, const NoMark&) = default;
};
struct ChalkSeen {       ///< a line across pulley and cover; the first time at a position: it was drawn
  bool in_line = false;  ///< false: somebody moved the crank
  friend bool operator==(const ChalkSeen&, const ChalkSeen&) = default;
};
struct NoChalk {  ///< none can be drawn or seen: fresh looks take its place
  friend bool operator==(const NoChalk&, const NoChalk&) = default;
};
struct SuckedOut {  ///< every port opened so far
  friend bool operator==(const SuckedOut&, const SuckedOut&) = default;
};
enum class Inside { clean, sucked_out, parked };
/// A cylinder that abrasive may have got into was looked into, through its plug hole or its open valve: it is
/// clean, or was sucked clean; or it is left for another day, and the crank as it stands with it.
struct InsideLooked {
  int cylinder = 0;
  Inside found = Inside::clean;
  friend bool operator==(const InsideLooked&, const InsideLooked&) = default;
};
struct PortsEmptied {  ///< nothing is left in any port: wand, hose, lamp, bung
  friend bool operator==(const PortsEmptied&, const PortsEmptied&) = default;
};
struct BungsCounted {  ///< and all are there
  friend bool operator==(const BungsCounted&, const BungsCounted&) = default;
};
struct BungMissing {  ///< at the count: it may be in a port, or behind a valve
  friend bool operator==(const BungMissing&, const BungMissing&) = default;
};
/// The crank was turned forward, by no less than min and no more than max.
struct Turned {
  double min_deg = 0, max_deg = 0;  ///< 0 <= min <= max <= 7200
  friend bool operator==(const Turned&, const Turned&) = default;
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
struct CrankMoved {  ///< by somebody, or turned too far or too little: by an unknown amount
  friend bool operator==(const CrankMoved&, const CrankMoved&) = default;
};
/// A blast was taken back, but nobody sucked out what it may have blown into the port.
struct AbrasiveLeft {
  int cylinder = 0;
  friend bool operator==(const AbrasiveLeft&, const AbrasiveLeft&) = default;
};

using JobEvent = std::variant<LookedInto, LooksForgotten, CauseChosen, BlastStarted, BlastStopped, PortDone,
                              PortAgain, Reachable, OnlyBank, MarkRead, NoMark, LobeSeen, ChalkSeen, NoChalk,
                              SuckedOut, InsideLooked, PortsEmptied, BungsCounted, BungMissing, Turned,
                              Bumped, PressStarted, CrankMoved, AbrasiveLeft>;

}  // namespace shutlane
