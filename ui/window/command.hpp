#pragma once
// What the window asks of the session. Benches queue commands while a frame is drawn; they are applied
// together after it.
#include <optional>
#include <string>
#include <variant>

#include "ui/window/document.hpp"

namespace shutlane {

struct LogEvent {
  JobEvent event;
};
/// The press whose beeps were started was not made: as if it had never been logged. Nothing when the last
/// step of the job is another.
struct TakeBackPress {};
struct Undo {};
struct Redo {};
struct Pick {
  std::optional<int> cylinder;
};
struct ShowBench {
  Bench bench = Bench::work;
};
struct ShowPage {
  Page page = Page::none;
};
struct SetPreferences {
  Preferences preferences;
};
struct SetRules {
  JobRules rules;
  std::string reason;  ///< needed when the margin becomes smaller than its default
};
/// A bundled name or a path. Starts a new job on it.
struct OpenEngine {
  std::string name;
  TurnBy turn_by = TurnBy::wrench;
  bool demo = false;
  bool wrench_too = false;  ///< by starter, with a wrench at hand
};
/// An engine made in the window (Tinker). Keeps the job.
struct ChangeEngine {
  std::shared_ptr<const Engine> engine;
};
struct StartOver {};  ///< a new job on the same engine
/// The what-if needle; nullopt puts it back. Not undone: it changes nothing of the job.
struct MoveWhatIf {
  std::optional<double> at_deg;
};
struct Say {  ///< one line, until the next command
  std::string message;
};
struct Dismiss {};  ///< the message line

using Command = std::variant<LogEvent, TakeBackPress, Undo, Redo, Pick, ShowBench, ShowPage, SetPreferences,
                             SetRules, OpenEngine, ChangeEngine, StartOver, MoveWhatIf, Say, Dismiss>;

}  // namespace shutlane
