#pragma once
// What to do next: one sentence, a second line, one wide button and three beside it, and the face of every
// port.
#include <array>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "sim/job/evidence.hpp"
#include "sim/plan/turn_words.hpp"

namespace shutlane {

enum class Face {
  suspect,
  look,
  seen_shut,
  touching,
  open,
  hidden,
  blasting,
  done,
  out_of_reach,
  left_out,
  waits
};

/// Goes in, comes out: it is the next thing to do. Out: none is in, and the crank moves next.
enum class Plug { goes_in, in, comes_out, out };

struct PortView {
  int cylinder = 0;
  Face face = Face::look;
  bool seen = false;  ///< at this position; an open port not seen is reckoned open and drawn so
  bool reckoned_shut = false;
  bool certain = false;     ///< two witnesses and hardly a doubt: it may be blasted
  bool doubted = false;     ///< two witnesses, but they may well be wrong together
  bool look_again = false;  ///< two witnesses, but its own look is not the last thing done
  Plug plug = Plug::goes_in;
  bool open = false;  ///< seen or reckoned so, whatever the face says
  bool next = false;  ///< the port that the wide button is about
  std::string word;   ///< "SEEN SHUT"; a space is where it may be broken
  std::string note;   ///< small, below it
};

struct UndoLast {
  friend bool operator==(const UndoLast&, const UndoLast&) = default;
};
struct PickPort {
  std::optional<int> cylinder;  ///< nullopt: back to what is advised
  friend bool operator==(const PickPort&, const PickPort&) = default;
};
struct NewJob {
  friend bool operator==(const NewJob&, const NewJob&) = default;
};
struct Press {
  std::string label;
  std::variant<std::monostate, JobEvent, UndoLast, PickPort, NewJob>
      does;                               ///< monostate: nothing, drawn disabled
  std::optional<JobEvent> and_then = {};  ///< told by the same press
};

enum class Stage {
  inside,  ///< abrasive may be in a cylinder
  contradiction,
  look_again,
  blasting,
  blast,
  look,
  lobe,  ///< looks cannot witness each other here: which way does a lobe point?
  unseen_left,
  suck_out,
  empty,
  count,
  turn,
  finished,
  picked
};

struct PlannedPosition {
  double at_deg = 0;
  Arc range;  ///< where the turn may end
  std::vector<int> blast;
};

struct Advice {
  Stage stage = Stage::look;
  std::string sentence, second;
  Press wide;
  /// Further answers, drawn as large as the wide one: what was seen is asked, not suggested.
  std::vector<Press> others;
  std::array<Press, 3> beside;
  std::optional<bool> clockwise;       ///< of the advised turn, as the hand at its place sees it
  std::vector<PortView> ports;         ///< in number order
  ArcSet where;                        ///< where the crank can stand
  std::vector<PlannedPosition> ahead;  ///< the positions after this one; empty while the crank is lost
  int done = 0, of = 0;
  int position = 1, positions = 0;  ///< positions 0: not known yet
};

/// `picked`: the port the technician pressed, whose actions are then offered instead.
Advice advise(const JobModel& model, const JobState& state, std::optional<int> picked = {});

}  // namespace shutlane
