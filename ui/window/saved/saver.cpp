#include "ui/window/saved/saver.hpp"

#include <utility>

#include "ui/window/saved/state_file.hpp"

namespace shutlane {

Saver::Saver(std::string path) : path_(std::move(path)), thread_([this] { run(); }) {}

Saver::~Saver() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
  }
  changed_.notify_one();
  thread_.join();
}

void Saver::save(std::string text) {
  {
    const std::lock_guard lock(mutex_);
    waiting_ = std::move(text);
  }
  changed_.notify_one();
}

std::optional<std::string> Saver::trouble() {
  const std::lock_guard lock(mutex_);
  return std::exchange(trouble_, std::nullopt);
}

void Saver::run() {
  std::unique_lock lock(mutex_);
  while (true) {
    changed_.wait(lock, [this] { return waiting_ || ending_; });
    if (!waiting_) return;
    const std::string text = std::move(*std::exchange(waiting_, std::nullopt));
    lock.unlock();
    std::optional<std::string> failed = path_.empty() ? std::nullopt : save_whole(path_, text);
    lock.lock();
    if (failed) trouble_ = std::move(failed);
  }
}

}  // namespace shutlane
