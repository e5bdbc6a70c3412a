#include "ui/drawings/write_file.hpp"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

namespace shutlane {

std::optional<std::string> write_whole_file(const std::string& path, const std::string& bytes) {
  namespace fs = std::filesystem;
  const auto fails = [&](const std::string& why) { return path + ": cannot be written: " + why; };
  std::error_code error;
  const fs::file_status target = fs::status(path, error);
  if (fs::exists(target) && !fs::is_regular_file(target)) return fails("it is not a regular file");
  // Through a link the file it points at is replaced, not the link.
  const std::string end = fs::is_symlink(fs::symlink_status(path, error)) && fs::exists(target)
                              ? fs::canonical(path, error).string()
                              : path;

  std::FILE* file = nullptr;
  std::string beside;
  for (int i = 0; i < 100 && !file; ++i) {
    beside = end + ".part" + std::to_string(i);
    errno = 0;
    file = std::fopen(beside.c_str(), "wbx");  // x: never over another's file
    if (!file && errno != EEXIST) return fails(std::strerror(errno));
  }
  if (!file) return fails("too many unfinished files beside it");
  errno = 0;
  bool good = std::fwrite(bytes.data(), 1, bytes.size(), file) == bytes.size();
  good = std::fclose(file) == 0 && good;
  int why = errno;
  if (good) {
    if (std::rename(beside.c_str(), end.c_str()) == 0) return std::nullopt;
    why = errno;
  }
  std::remove(beside.c_str());
  return fails(std::strerror(why));
}

}  // namespace shutlane
