#pragma once
// Reckons one bump on a thread of its own: first its course, then where thousands of bumps like it would
// rest.
#include <condition_variable>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>

#include "sim/cranking/record.hpp"
#include "sim/cranking/rest_fan.hpp"

namespace shutlane {

struct FanQuestion {
  std::shared_ptr<const CrankingModel> model;
  double from_deg = 0;  ///< cycle angle
  double press_s = 0.3;
  int trials = 10000;
  uint64_t seed = 1;
  friend bool operator==(const FanQuestion&, const FanQuestion&) = default;
};

/// What is known of a question so far: the course comes first, the fan last.
struct BumpAnswer {
  FanQuestion question;
  std::shared_ptr<const BumpRecord> record;
  std::shared_ptr<const RestFan> fan;
};

class BumpWorker {
 public:
  ~BumpWorker();

  /// Begins a question; one that is still being worked on is dropped.
  void ask(const FanQuestion& question);
  void cancel();
  bool busy() const;
  double done() const;  ///< of the question that is being worked on, 0..1
  BumpAnswer answer() const;
  /// Called from the worker's thread when the answer has grown, and ten times a second while it grows.
  std::function<void()> wake;

 private:
  void run();
  void work(const FanQuestion& question);
  bool dropped(const FanQuestion& question) const;

  mutable std::mutex mutex_;
  std::condition_variable asked_;
  std::optional<FanQuestion> wanted_;  ///< until it is answered or dropped
  BumpAnswer answer_;
  double done_ = 0;
  bool stopping_ = false;
  std::thread thread_;  ///< begun with the first question
};

}  // namespace shutlane
