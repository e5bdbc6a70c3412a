#pragma once
// Saves on a thread of its own, so that a slow disk never holds up a frame. Only the latest text counts.
#include <condition_variable>
#include <mutex>
#include <optional>
#include <string>
#include <thread>

namespace shutlane {

class Saver {
 public:
  /// An empty path: there is nowhere to save, and that is said. A save that failed is tried again after
  /// `again_s`, until one succeeds.
  explicit Saver(std::string path, double again_s = 3);
  ~Saver();
  Saver(const Saver&) = delete;
  Saver& operator=(const Saver&) = delete;

  void save(std::string text);
  /// Why the last save failed, or why none can succeed; empty: all is well, or not yet known.
  std::string failing() const;
  /// Writes what is still waiting, once more what failed. nullopt: all that was given is on the disk; else
  /// why not. Nothing can be saved after it.
  std::optional<std::string> finish();

 private:
  void run();
  std::optional<std::string> written(const std::string& text) const;
  std::string path_;
  double again_s_;
  mutable std::mutex mutex_;
  std::condition_variable changed_;
  std::optional<std::string> waiting_;  ///< not yet on the disk
  std::string failing_;
  bool fresh_ = false;  ///< `waiting_` has not been tried
  bool ending_ = false;
  std::thread thread_;
};

}  // namespace shutlane
