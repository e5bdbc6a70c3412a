#include "ui/window/study/engine_file.hpp"

#include <chrono>
#include <filesystem>
#include <utility>

#include "engines/catalog.hpp"
#include "ui/disk/write_file.hpp"
#include "ui/window/study/texts.hpp"

namespace shutlane {

namespace fs = std::filesystem;

namespace {

FileStamp stamp_of(const std::string& path) {
  std::error_code wrong;
  FileStamp s;
  s.time = fs::last_write_time(path, wrong);
  if (wrong) return {};
  s.size = fs::file_size(path, wrong);
  s.there = !wrong;
  return s;
}

}  // namespace

FileWatch::FileWatch(std::string path, std::function<void()> wake, double every_s)
    : path_(std::move(path)),
      wake_(std::move(wake)),
      thread_([this, every_s, known = stamp_of(path_)] { run(every_s, known); }) {}

FileWatch::~FileWatch() {
  {
    const std::lock_guard lock(mutex_);
    stopping_ = true;
  }
  stop_.notify_all();
  thread_.join();
}

std::optional<ReadFile> FileWatch::take() {
  const std::lock_guard lock(mutex_);
  return std::exchange(read_, std::nullopt);
}

void FileWatch::run(double every_s, FileStamp known) {
  std::unique_lock lock(mutex_);
  while (!stop_.wait_for(lock, std::chrono::duration<double>(every_s), [this] { return stopping_; })) {
    lock.unlock();
    const FileStamp now = stamp_of(path_);
    // An editor may take the file away for a moment; that is no change yet.
    const bool changed = now.there && !(now == known);
    std::optional<ReadFile> read;
    if (changed) {
      known = now;
      read = find_engine(path_);
    }
    lock.lock();
    if (!read) continue;
    read_ = std::move(read);
    lock.unlock();
    if (wake_) wake_();
    lock.lock();
  }
}

std::optional<std::string> save_engine(const EngineSpec& spec, const std::string& path) {
  const std::string text = write_engine(spec);
  const auto back = read_engine(text);
  const auto* engine = std::get_if<Engine>(&back);
  if (!engine || !(engine->spec == spec)) return texts::save_cannot_be_read_back();
  std::error_code wrong;
  if (fs::exists(path, wrong)) return texts::save_exists(path);
  if (write_whole_file(path, text, {.must_be_new = true})) return texts::save_failed(path);
  return std::nullopt;
}

std::optional<std::string> path_in(const std::string& folder, const std::string& name) {
  const size_t from = name.find_first_not_of(" \t"), to = name.find_last_not_of(" \t");
  if (from == std::string::npos) return std::nullopt;
  std::string file = name.substr(from, to - from + 1);
  if (file.front() == '.' || file.find_first_of("/\\") != std::string::npos) return std::nullopt;
  if (!file.ends_with(".toml")) file += ".toml";
  return (fs::path(folder) / file).string();
}

std::string free_path(const std::string& folder, const std::string& name) {
  std::string stem = fs::path(name).filename().string();
  if (stem.ends_with(".toml")) stem.resize(stem.size() - 5);
  for (int n = 1;; ++n) {
    const fs::path path =
        fs::path(folder) / (stem + "-changed" + (n > 1 ? "-" + std::to_string(n) : "") + ".toml");
    std::error_code wrong;
    if (!fs::exists(path, wrong)) return path.string();
  }
}

}  // namespace shutlane
