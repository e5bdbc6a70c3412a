#pragma once
// What is to be done next, still without words.
#include <optional>
#include <string>
#include <vector>

#include "sim/job/advice.hpp"

namespace shutlane {

struct NextMove {
  bool bump = false;        ///< by the starter; nothing is known of where it ends
  bool by_mark = false;     ///< better: on to where the crank's mark stands at its pointer
  bool mark_alone = false;  ///< without it no number of turns would do
  bool mark_first = false;  ///< before any port was looked into
  bool a_little = false;    ///< what is left is just touching, and surely shut a little further on
  bool blind = false;       ///< the crank is lost or no plan is found: one full turn, as good as any
  ToldTurn turn;
  std::vector<int> then;  ///< ports to be worked after it
};

struct Situation {
  Stage stage = Stage::look;
  int port = 0;       ///< the one the wide button is about; 0 = none
  bool lost = false;  ///< nothing is known of the crank
  bool port_reckoned_shut = false;
  bool port_open = false;        ///< seen or reckoned so: its plug keeps grit out of the engine
  bool port_left_out = false;    ///< of a bank that is not worked: looked into as a witness only
  std::vector<int> looks_ahead;  ///< reckoned shut, not seen yet (the port itself included while looking)
  std::optional<int>
      ready;  ///< may be blasted: there is one at most, for its own look was the last thing done
  std::vector<int> to_suck_out;
  std::vector<int> loose;         ///< blasted, stopped ones too, and not sucked out since
  std::vector<int> stopped;       ///< of those the ones not done
  std::vector<int> maybe_inside;  ///< cylinders that abrasive may have got into
  std::vector<int> doubtful;      ///< both witnesses agree, but they may well be wrong together
  std::optional<int> one_more;    ///< the doubtful port that the next look is for
  int lobe_for = 0;               ///< the port that the lobe is to witness
  std::vector<int> stuck;         ///< doubtful, and no look here would help
  std::vector<int> unseen_left;   ///< left only because they can't be seen
  std::vector<int> not_in_job;    ///< out of reach today or of a bank left out, not done
  std::vector<int> seen;          ///< looks made at this position
  std::optional<NextMove> move;
  std::vector<int> looks_due;  ///< taken back in a disagreement
  std::optional<CauseChosen> cause;
  std::string bank;  ///< name of the bank that the cause is about; empty: the engine has one
  size_t ports = 0;
  TurnBy turn_by = TurnBy::wrench;
  Turns turns = Turns::clockwise;
  bool plugged = false;
  bool untouched = false;  ///< no port was opened yet and none worked: no plug is in
  bool mark_here = false,
       mark_suffices = false;  ///< the crank's mark was read here; two of its places will do
  bool port_seen_shut = false, port_done = false, port_out_of_reach = false;  ///< of a picked port
  bool may_blast = false, port_doubted = false;
  std::vector<PlannedPosition> ahead;
};

/// Empty for an engine of one bank.
std::string bank_name(const Engine& engine, size_t bank);

Situation situation(const JobModel& model, const JobState& state, const Weighed& evidence,
                    std::optional<int> picked);

}  // namespace shutlane
