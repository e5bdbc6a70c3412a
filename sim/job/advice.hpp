#pragma once
// What to do next: one sentence, a second line, the answers that may be given, and the face of every port.
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "sim/job/situation.hpp"

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
enum class Bung { goes_in, in, comes_out, out };

struct PortView {
  int cylinder = 0;
  Face face = Face::look;
  bool seen = false;  ///< at this position; an open port not seen is reckoned open and drawn so
  bool reckoned_shut = false;
  bool certain = false;               ///< two witnesses and hardly a doubt: it may be blasted
  std::optional<WaitsFor> waits_for;  ///< of a port seen and reckoned shut that may not be blasted yet
  Bung bung = Bung::goes_in;
  bool open = false;  ///< seen or reckoned so, whatever the face says
  bool next = false;  ///< the port that the sentence is about
  std::string word;   ///< "SEEN SHUT"; a space is where it may be broken
  std::string note;   ///< small, below it
};

/// What one press of a button does.
struct Press {
  enum class Does { nothing, tell, undo, back, new_job };
  std::string label;
  std::vector<JobEvent> tells = {};  ///< all of them, in order
  Does does = Does::tell;
  bool ticked = false;  ///< a line of a check list that was told already
  bool enabled() const { return does != Does::nothing && !ticked; }
};

struct OfferedCause {
  Suspicion what = Suspicion::missed_look;
  std::string name, check;     ///< in plain words; the check takes a minute
  Press choose;                ///< takes it for the cause
  std::vector<Press> instead;  ///< the same of other looks: one for each that would mend it alone
};

struct Advice {
  Stage stage = Stage::look;
  std::string rule;  ///< by which it was given
  std::string sentence, second;
  /// What is done, told as done. Empty label: there is nothing but answers.
  Press wide{"", {}, Press::Does::nothing};
  /// Further lines of a check list, beside the wide one, to be ticked one by one.
  std::vector<Press> ticks;
  /// What was seen. They never lie where the wide button lay.
  std::vector<Press> answers;
  std::array<Press, 3> beside;
  std::vector<OfferedCause> causes;    ///< while it cannot all be true, likeliest first
  std::optional<bool> clockwise;       ///< of the advised turn, as the hand at its place sees it
  std::vector<PortView> ports;         ///< in number order
  ArcSet where;                        ///< where the crank can stand
  std::vector<PlannedPosition> ahead;  ///< the positions after this one; empty while the crank is lost
  std::optional<NextMove> move;        ///< that comes next or after this position
  int port = 0;                        ///< that the sentence is about; 0: none
  int done = 0, of = 0;
  int position = 1, positions = 0;  ///< positions 0: not known yet

  /// Every button that tells something, in the window's order.
  std::vector<Press> told() const;
};

/// `picked`: the port the technician pressed, whose actions are then offered instead.
Advice advise(const JobModel& model, const JobState& state, std::optional<int> picked = {});

}  // namespace shutlane
