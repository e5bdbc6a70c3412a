#pragma once
// Everything of a session that is saved, comes back and can be undone: the job and how it is shown.
#include <memory>
#include <string>
#include <vector>

#include "sim/job/event.hpp"
#include "sim/job/model.hpp"
#include "ui/drawings/palette.hpp"

namespace shutlane {

enum class Bench { work, teach, explore };
enum class Page {
  none,
  start,
  settings,
  cautions,
  bump_cautions,
  came_back,
  job_menu
};  ///< a page that covers the bench; none: the bench
enum class Measures { metric, us };

struct Preferences {
  Theme theme = Theme::dark;
  double scale = 1;  ///< 1, 1.25, 1.5 or 2: of text that has no least size
  double dpi = 0;    ///< of the screen; 0: as the system says, else as for 15.6 inches
  Measures measures = Measures::metric;
  bool turned_round = false;  ///< the board is seen from the gearbox end
  std::vector<std::string> engines_without_mark;  ///< names of engines whose crank shows none
  friend bool operator==(const Preferences&, const Preferences&) = default;
};

struct LoggedEvent {
  JobEvent event;
  double at_s = 0;  ///< seconds since 1970, as the machine's clock said
};

struct Document {
  std::string engine_name;               ///< a bundled name, or the path of a file
  std::shared_ptr<const Engine> engine;  ///< null before the first start's questions are answered
  bool demo = false;                     ///< invented: the demo job
  JobRules rules;
  std::string margin_reason;  ///< why the margin was lowered; empty while it is not
  std::vector<LoggedEvent> events;
  Bench bench = Bench::work;
  Preferences preferences;
};

}  // namespace shutlane
