#include "ui/window/saved/state_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <filesystem>

#include "engines/catalog.hpp"

namespace shutlane {
namespace {

namespace fs = std::filesystem;

bool write_all(int file, const std::string& text) {
  size_t at = 0;
  while (at < text.size()) {
    const ssize_t n = ::write(file, text.data() + at, text.size() - at);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    at += static_cast<size_t>(n);
  }
  return ::fsync(file) == 0;
}

/// A rename is safe on the disk only when the folder is synced too.
void sync_folder(const std::string& folder) {
  const int file = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (file < 0) return;
  ::fsync(file);
  ::close(file);
}

}  // namespace

std::string state_path() {
  if (const char* state = std::getenv("XDG_STATE_HOME"); state && state[0] == '/')
    return std::string(state) + "/shutlane/state.json";
  if (const char* home = std::getenv("HOME"); home && home[0] == '/')
    return std::string(home) + "/.local/state/shutlane/state.json";
  return "";
}

std::optional<std::string> save_whole(const std::string& path, const std::string& text) {
  std::error_code failed;
  const std::string folder = fs::path(path).parent_path().string();
  fs::create_directories(folder, failed);
  const std::string beside = path + ".part";
  const int file = ::open(beside.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
  const bool written = file >= 0 && write_all(file, text);
  const int why = errno;
  if (file >= 0) ::close(file);
  if (!written || std::rename(beside.c_str(), path.c_str()) != 0) {
    const std::string reason = std::strerror(written ? errno : why);
    ::unlink(beside.c_str());
    return "the state could not be saved: " + reason;
  }
  sync_folder(folder);
  return {};
}

Loaded load_state(const std::string& path) {
  std::error_code failed;
  if (path.empty() || !fs::exists(path, failed)) return {};
  const auto bytes = read_file(path);
  if (const auto* text = std::get_if<std::string>(&bytes)) {
    auto document = from_json(*text);
    if (auto* good = std::get_if<Document>(&document)) return {std::move(*good), ""};
  }
  Loaded damaged;
  for (int n = 1; n < 1000; ++n) {
    damaged.set_aside = path + ".damaged-" + std::to_string(n);
    if (!fs::exists(damaged.set_aside, failed)) break;
  }
  fs::rename(path, damaged.set_aside, failed);
  return damaged;
}

}  // namespace shutlane
