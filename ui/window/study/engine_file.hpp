#pragma once
// An engine file that is open: read again when it changes, and a new one written.
#include <atomic>
#include <condition_variable>
#include <filesystem>
#include <functional>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <variant>

#include "engines/reader.hpp"

namespace shutlane {

/// The engine, or the reader's lines.
using ReadFile = std::variant<Engine, std::string>;

/// How a file looked from outside; a change of it means that it was written.
struct FileStamp {
  std::filesystem::file_time_type time{};
  std::uintmax_t size = 0;
  bool there = false;
  friend bool operator==(const FileStamp&, const FileStamp&) = default;
};

/// Looks at a file's time and size on a thread of its own and reads it anew when they change. `wake` is
/// called from that thread when there is something to take.
class FileWatch {
 public:
  FileWatch(std::string path, std::function<void()> wake, double every_s = 0.5);
  ~FileWatch();
  FileWatch(const FileWatch&) = delete;
  FileWatch& operator=(const FileWatch&) = delete;

  const std::string& path() const { return path_; }
  /// What was read since the last time, once.
  std::optional<ReadFile> take();

 private:
  void run(double every_s, FileStamp known);
  std::string path_;
  std::function<void()> wake_;
  std::mutex mutex_;
  std::condition_variable stop_;
  bool stopping_ = false;
  std::optional<ReadFile> read_;
  std::thread thread_;
};

/// Writes the engine to a new file. nullopt when all went well, else one
/// sentence. A file that is there already is left alone.
std::optional<std::string> save_engine(const EngineSpec& spec, const std::string& path);

/// The path of a new file of that name in the folder, ".toml" added where it is missing; nullopt when it is
/// no name of a file: empty, hidden, or with a folder in it.
std::optional<std::string> path_in(const std::string& folder, const std::string& name);

/// A name in `folder` for an engine changed from `name` (a bundled name or a path) that no file bears yet.
std::string free_path(const std::string& folder, const std::string& name);

}  // namespace shutlane
