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
  explicit Saver(std::string path);
  ~Saver();  ///< writes what is still waiting
  Saver(const Saver&) = delete;
  Saver& operator=(const Saver&) = delete;

  void save(std::string text);
  std::optional<std::string> trouble();  ///< of the last save; taken once

 private:
  void run();
  std::string path_;
  std::mutex mutex_;
  std::condition_variable changed_;
  std::optional<std::string> waiting_, trouble_;
  bool ending_ = false;
  std::thread thread_;
};

}  // namespace shutlane
