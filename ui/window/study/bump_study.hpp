#pragma once
// The bump of Teach between frames: the press, the plugs, what the worker has found, how far the replay is.
// It moves the what-if needle and nothing else.
#include <array>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <variant>

#include "ui/window/session.hpp"
#include "ui/window/study/bump_worker.hpp"

namespace shutlane {

inline constexpr double kShortestPress_s = 0.05, kLongestPress_s = 1.0, kPressStep_s = 0.01;
inline constexpr double kFirstPress_s = 0.3;  ///< the habit that the plan is measured against

/// How many times slower than the crank itself the replay goes.
inline constexpr std::array kReplaySlower{20, 10, 5, 1};

/// Whose angle the bump begins at.
enum class FanStart {
  needle,      ///< the what-if needle's
  jobs_crank,  ///< the job's crank, reckoned to stand in one arc
  example      ///< nobody's: the crank is not known
};

class BumpStudy {
 public:
  int trials = 10000;

  bool open() const { return open_; }
  void set_open(bool open);
  double press_s() const { return press_s_; }
  void set_press(double press_s);  ///< taken to the range and to whole steps
  Plugs plugs() const { return plugs_; }
  void set_plugs(Plugs plugs);
  int slower() const { return kReplaySlower[pace_]; }
  void next_pace() { pace_ = (pace_ + 1) % kReplaySlower.size(); }

  /// Takes over the engine and the needle, and asks for what is missing. `wake` is called from the worker's
  /// thread.
  void follow(const std::shared_ptr<const Engine>& engine, const Snapshot& snapshot,
              const std::function<void()>& wake);
  /// Why the engine cannot be bumped; nullptr when it can.
  const std::string* refused() const;
  const CrankingModel* model() const { return model_.get(); }
  double start_deg() const { return start_deg_; }
  FanStart start() const { return start_; }

  // What has been reckoned; null until there is any. Stale: of an earlier press, start or plugs.
  const BumpRecord* record() const { return record_.get(); }
  bool record_stale() const { return !(record_of_ == asked_); }
  const RestFan* fan() const { return fan_.get(); }
  bool fan_stale() const { return !(fan_of_ == asked_); }
  bool busy() const { return worker_ && worker_->busy(); }
  double done() const { return worker_ ? worker_->done() : 0; }
  void stop_reckoning();
  void reckon_again();  ///< with other numbers drawn

  // The replay. Each gives where the what-if needle goes, if anywhere.
  bool playing() const { return playing_; }
  double time_s() const { return time_s_; }
  bool at_end() const { return record_ && time_s_ >= record_->ends_s(); }
  std::optional<double> play_or_pause();
  std::optional<double> run_on(double seconds);  ///< while it plays
  std::optional<double> scrub(double time_s);
  std::optional<double> back_to_start() { return scrub(0); }
  void go_on_from_here();  ///< the next bump starts where the needle is
  void pause() { playing_ = false; }
  /// The needle has to go back to the start since the press or the plugs changed; once.
  std::optional<double> take_return();

 private:
  void ask(const std::function<void()>& wake);
  double needle_at(double time_s) const;
  void changed();

  bool open_ = false;
  double press_s_ = kFirstPress_s;
  Plugs plugs_ = Plugs::in;
  size_t pace_ = 1;
  uint64_t seed_ = 1;

  std::shared_ptr<const Engine> engine_;
  std::optional<Plugs> modelled_;
  std::shared_ptr<const CrankingModel> model_;
  std::string refused_;
  double start_deg_ = 0;
  FanStart start_ = FanStart::example;
  std::optional<double> sent_deg_;  ///< where the replay sent the needle; anywhere else it is the hand's

  FanQuestion asked_;
  std::shared_ptr<const BumpRecord> record_;
  std::shared_ptr<const RestFan> fan_;
  FanQuestion record_of_, fan_of_;
  bool playing_ = false, go_back_ = false;
  double time_s_ = 0;
  std::unique_ptr<BumpWorker> worker_;
};

}  // namespace shutlane
