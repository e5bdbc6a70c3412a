#pragma once
// What Teach and Explore keep between frames: the engine they look at, its numbers, how the timeline stands.
// They read the job and never change it; the only thing of the session that they move is the what-if needle.
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "ui/window/session.hpp"
#include "ui/window/study/bump_study.hpp"
#include "ui/window/study/engine_file.hpp"
#include "ui/window/study/engine_list.hpp"
#include "ui/window/study/timeline.hpp"
#include "ui/window/study/tinker.hpp"

namespace shutlane {

class Study {
 public:
  Tinker tinker;
  TimelineState timeline;
  BumpStudy bump;  ///< of Teach
  int cylinder = 1;
  std::string term;   ///< the word of the trade that is explained; empty: what happens at the needle
  std::string query;  ///< of the engine list
  size_t first_entry = 0, first_knob = 0;  ///< scrolled to
  std::string note;                        ///< one line: saved, read again
  std::string file_mistakes;  ///< the reader's lines, of a file that changed or was opened; the last good
                              ///< engine stays

  /// Takes over the job's engine when that has changed, and what a watched file has become.
  void follow(const Snapshot& snapshot);
  /// Looks at another engine (a bundled name or a path), leaving the job alone. Mistakes leave the engine as
  /// it was.
  void open(const std::string& name);
  void knob(KnobKind kind, size_t valve, double value,
            bool same_pull);  ///< same_pull: goes on with the last step
  void keep_crank(bool keep);
  void back_to_file();
  bool undo();  ///< of the knobs; false when there is nothing to undo
  bool redo();
  /// Where a changed engine is saved: beside its own file, else in the folder of the person's engines.
  std::string save_folder() const;
  /// Opens the field for the name of a new file, with a free name in it.
  void ask_save_name();
  /// Writes the engine under the name that was given and goes on with that file. What is there already stays.
  void save();
  std::optional<std::string> save_name;  ///< the field for it is open
  bool save_name_fresh = false;          ///< it takes the keyboard
  std::string save_trouble;              ///< why the last try wrote nothing; empty: none
  std::string own_folder;                ///< of the person's engines; empty: where the program was started

  /// Numbers that were tried on an engine and not saved when another one was chosen.
  struct Unsaved {
    std::string name;
    Tinker tinker;
    std::vector<Tinker> past, future;
  };
  const std::vector<Unsaved>& unsaved() const { return unsaved_; }
  void open_unsaved(size_t index);
  /// The person's own files that were opened or saved, the newest first.
  const std::vector<EngineEntry>& own_entries() const { return own_; }
  void list_own(const std::string& path);  ///< leaves out what cannot be read
  void pick_cylinder_by(int places);       ///< the next or the one before, in number order

  const Engine& engine() const { return *tinker.engine(); }
  const std::string& engine_name() const { return name_; }
  /// A cycle angle as Teach and Explore write it: after the start of the timeline, [0, 720).
  double counted_deg(double crank_deg) const;
  bool of_the_job() const { return of_the_job_; }
  const std::vector<Windows>& windows() const { return windows_; }
  const Windows& windows_of(int cylinder) const;
  const std::vector<CrankEvent>& events() const { return events_; }
  /// From the needle, every port left. Reckoned once for each place.
  const WrenchPlan& plan(double from_deg);
  /// The job's own engine file changed and reads well with the same cylinders: its engine now, once.
  std::shared_ptr<const Engine> take_changed_job_engine() {
    return std::exchange(changed_job_engine_, nullptr);
  }
  /// A line about the job's file, once.
  std::optional<std::string> take_job_file_trouble() {
    return std::exchange(job_file_trouble_, std::nullopt);
  }
  bool watching() const { return watch_ != nullptr; }
  std::function<void()> wake;  ///< called from the watching thread

 private:
  void take(const Engine& engine, const std::string& name, bool of_the_job);
  void keep_unsaved();
  void follow_job_file();
  void list_own(const std::string& path, const EngineSpec& spec);
  void reckon();
  void remember();
  std::string name_;
  bool of_the_job_ = true;
  std::shared_ptr<const Engine> jobs_;  ///< the job's engine as last seen
  std::string jobs_name_, offered_name_;
  JobRules rules_;
  std::vector<Windows> windows_;
  std::vector<CrankEvent> events_;
  std::optional<double> plan_from_deg_;
  WrenchPlan plan_;
  std::vector<Tinker> past_, future_;
  std::vector<Unsaved> unsaved_;
  std::vector<EngineEntry> own_;
  std::shared_ptr<const Engine> changed_job_engine_;
  std::unique_ptr<FileWatch> watch_, job_watch_;  ///< of the shown engine; of the job's where it is another
  std::optional<std::string> job_file_trouble_;
};

/// Where the needle of Teach and Explore stands: the what-if needle, else where the job's crank is reckoned
/// to stand, else cylinder 1's firing TDC.
double needle_deg(const Snapshot& snapshot);
/// The job's crank, when it is known to stand in one arc.
std::optional<double> jobs_crank_deg(const Snapshot& snapshot);

}  // namespace shutlane
