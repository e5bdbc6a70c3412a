#pragma once
// The state behind the window: a document with its history, and the snapshot that benches read.
#include <deque>
#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "sim/job/advice.hpp"
#include "ui/window/command.hpp"

namespace shutlane {

/// What a bench may read. Rebuilt after every applied command; never changed while a frame is drawn.
struct Snapshot {
  Document document;
  std::optional<JobModel> model;  ///< set when there is an engine
  JobState job;
  Advice advice;
  std::optional<int> picked;
  std::optional<double> what_if_deg;  ///< while it is out, no advice is given
  Page page = Page::none;
  bool can_undo = false, can_redo = false;
  bool undo_of_job = false;  ///< undo takes back a step of this job, or brings the one before it back
  std::string message;       ///< one line, shown until dismissed; empty: none
  std::optional<double> job_started_s;
};

/// The last step of the job is that the beeps of a press were started: nothing was said of it yet.
bool press_under_way(const Document& document);

class Session {
 public:
  using Clock = std::function<double()>;  ///< seconds since 1970
  /// Finds an engine by name or path, or says why not.
  using FindEngine = std::function<std::variant<Engine, std::string>(const std::string&)>;

  Session(Clock clock, FindEngine find_engine);
  /// Begins with a saved document; without an engine the start page comes up.
  void restore(Document document);

  void queue(Command command) { queue_.push_back(std::move(command)); }
  /// Applies what was queued, in order. True when anything changed.
  bool apply();
  const Snapshot& snapshot() const { return snapshot_; }
  /// Grows with every change of the document: what is worth saving.
  unsigned revision() const { return revision_; }
  void say(std::string message);
  double now_s() const { return clock_(); }

 private:
  /// Work is not shown before the cautions of its job were read; Teach and Explore need none.
  Page page_of(Bench bench) const {
    return bench == Bench::work && cautions_due_ ? Page::cautions : Page::none;
  }
  bool cautions_due_ = false;
  void run(const Command& command);
  void change(Document next);  ///< the old one goes into the history
  void step(std::vector<Document>& from, std::vector<Document>& to);
  void refresh();
  void log(const JobEvent& event);
  void undo();
  void take_back_press();
  void open(const OpenEngine& command);

  Clock clock_;
  FindEngine find_engine_;
  std::deque<Command> queue_;
  std::vector<Document> past_, future_;
  Snapshot snapshot_;
  std::shared_ptr<const Engine> modelled_;  ///< what snapshot_.model was made from
  std::vector<JobEvent> folded_;            ///< what snapshot_.job was folded from
  unsigned revision_ = 0;
};

/// A start page, or the engine that was asked for.
inline constexpr const char* kDemoEngine = "inline-six";

}  // namespace shutlane
