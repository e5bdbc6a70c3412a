#include "ui/window/saved/saver.hpp"

#include <chrono>
#include <utility>

#include "ui/window/saved/state_file.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {

Saver::Saver(std::string path, double again_s)
    : path_(std::move(path)), again_s_(again_s), failing_(path_.empty() ? texts::nowhere_to_save() : "") {
  thread_ = std::thread([this] { run(); });
}

Saver::~Saver() { finish(); }

void Saver::save(std::string text) {
  {
    const std::lock_guard lock(mutex_);
    waiting_ = std::move(text);
    fresh_ = true;
  }
  changed_.notify_one();
}

std::string Saver::failing() const {
  const std::lock_guard lock(mutex_);
  return failing_;
}

std::optional<std::string> Saver::finish() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
  }
  changed_.notify_one();
  if (thread_.joinable()) thread_.join();
  if (!waiting_) return std::nullopt;
  return failing_;
}

std::optional<std::string> Saver::written(const std::string& text) const {
  if (path_.empty()) return texts::nowhere_to_save();
  return save_whole(path_, text);
}

void Saver::run() {
  std::unique_lock lock(mutex_);
  while (true) {
    const auto due = [this] { return fresh_ || ending_; };
    if (waiting_ && !path_.empty())
      changed_.wait_for(lock, std::chrono::duration<double>(again_s_), due);
    else
      changed_.wait(lock, due);
    const bool last = ending_ && !fresh_;
    if (waiting_) {
      const std::string text = *waiting_;
      fresh_ = false;
      lock.unlock();
      const std::optional<std::string> failed = written(text);
      lock.lock();
      failing_ = failed.value_or("");
      if (!failed && !fresh_) waiting_.reset();
    }
    if (last) return;
  }
}

}  // namespace shutlane
