#pragma once
// What the Work bench keeps of bumps between frames: the desk where the press is worked out, and the timer
// while it runs.
#include <atomic>
#include <memory>
#include <optional>

#include "ui/window/bump/bump_desk.hpp"
#include "ui/window/bump/press_timer.hpp"
#include "ui/window/session.hpp"
#include "ui/window/ui.hpp"

namespace shutlane {

class BumpBench {
  std::shared_ptr<std::atomic<bool>> shown_ = std::make_shared<std::atomic<bool>>(false);

 public:
  /// `wake` wakes the window from another thread; empty: nothing does, and frames are asked for instead.
  BumpBench(std::function<void()> wake, BumpDesk::TableFor table_for, BumpMemory memory = {});

  BumpDesk desk;
  std::optional<PressTimer> timer;  ///< runs, or is over and waits to be told what happened; in Ui's time
  /// The job's rows of bumps, read anew only after a change.
  const std::vector<BumpRow>& rows(const Session& session);
  void show(bool shown) {
    *shown_ = shown;
  }  ///< the desk's progress is on the screen: it may wake the window
  const bool wakes;

 private:
  std::optional<unsigned> rows_of_;  // revision of the session, and its engine
  const Engine* rows_engine_ = nullptr;
  std::vector<BumpRow> rows_;
};

/// A bump of the starter is what the Work bench advises now, or its press is being timed.
bool bump_is_next(const Ui& ui, const Snapshot& snapshot);

/// Before every frame, whatever it shows: asks the desk what the job will want to know, and stops a timer
/// that nobody looks at any more.
void attend_bump(Ui& ui, Session& session);

}  // namespace shutlane
