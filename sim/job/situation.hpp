#pragma once
// What is to be done next, still without words: the first rule of a table that applies.
#include <optional>
#include <string>
#include <vector>

#include "sim/job/may.hpp"
#include "sim/plan/turn_words.hpp"

namespace shutlane {

enum class Stage {
  inside,   ///< abrasive may be in a cylinder
  missing,  ///< a bung, at the count
  disagreement,
  look_again,
  blasting,
  blast,
  look,
  lobe,  ///< looks cannot witness each other here: which way does a lobe point?
  chalk,
  mark,  ///< turn the crank to its mark, or on to it
  clear,
  turn,
  bump,
  unseen,
  finished,
  picked
};

/// Why a look is asked for.
enum class LookFor {
  blast,  ///< its own: when it says shut the port is blasted
  turn,   ///< which of the mark's two places the crank stands at
  pass,   ///< one of all ports in the order in which they stand
  where,  ///< tells where the crank stands
  surer,  ///< of another port
};

struct PlannedPosition {
  double at_deg = 0;
  Arc range;  ///< where the turn may end
  std::vector<int> blast;
};

struct NextMove {
  bool mark_alone = false;  ///< without the mark no number of turns would do
  bool a_little = false;    ///< what is left is a hair open, and surely shut a little further on
  bool blind = false;       ///< the crank is lost or no plan is found: one full turn, as good as any
  bool anywhere = false;    ///< on to the mark, from nobody knows where
  ToldTurn turn;
  std::vector<int> then;  ///< ports to be worked after it
};

struct Situation {
  Stage stage = Stage::look;
  const char* rule = "";  ///< name of the rule that gave it
  int port = 0;           ///< the one that is to be looked into or blasted; 0 = none
  LookFor look_for = LookFor::where;
  bool frees = false;           ///< a look that says shut goes straight on to the blast
  int surer_of = 0;             ///< look, surer, and lobe: the port that it is a witness for
  bool chalk_drawn = false;     ///< the line is there: it is to be looked at
  int after_port = 0;           ///< chalk: the port that was blasted since
  std::vector<int> looks_left;  ///< of a pass, or of own looks, this one included
  std::optional<NextMove> move;
  std::vector<PlannedPosition> ahead;

  bool lost = false;  ///< nothing is known of the crank
  bool untouched = false;        ///< no port was looked into or worked: no bung is in, no look goes with a turn
  std::vector<int> loose;        ///< blasted, stopped ones too, and not sucked out since
  std::vector<int> stopped;      ///< of those the ones not done
  std::vector<int> not_in_job;   ///< out of reach today or of a bank left out, not done
  std::vector<int> unseen_left;  ///< left only because they can't be seen
  std::vector<int> looks_due;    ///< taken back in a disagreement
  std::vector<int> maybe_inside;
  std::string bank;  ///< name of the bank that the cause is about; empty: the engine has one
};

/// Empty for an engine of one bank.
std::string bank_name(const Engine& engine, size_t bank);

/// `picked`: the port the technician pressed, whose actions are then offered instead.
Situation situation(const JobModel& model, const JobState& state, const Reckoning& reckoned,
                    std::optional<int> picked);

}  // namespace shutlane
