#pragma once
// A folder of a test's own, gone with it. Tests run side by side, each in a process of its own.
#include <unistd.h>

#include <filesystem>
#include <string>

namespace shutlane {

class Folder {
 public:
  Folder() : path_(std::filesystem::temp_directory_path() / ("shutlane-" + std::to_string(getpid()))) {
    std::filesystem::remove_all(path_);
    std::filesystem::create_directories(path_);
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::string file(const std::string& name) const { return (path_ / name).string(); }
  std::string path() const { return path_.string(); }

 private:
  std::filesystem::path path_;
};

}  // namespace shutlane
