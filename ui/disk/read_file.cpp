#include "ui/disk/read_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>

namespace shutlane {

std::optional<std::string> read_regular_file(const std::string& path, size_t most) {
  const int file = ::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
  if (file < 0) return std::nullopt;
  struct stat now {};
  bool good = ::fstat(file, &now) == 0 && S_ISREG(now.st_mode) && static_cast<size_t>(now.st_size) <= most;
  std::string bytes(good ? static_cast<size_t>(now.st_size) : 0, '\0');
  size_t at = 0;
  while (good && at < bytes.size()) {
    const ssize_t n = ::read(file, bytes.data() + at, bytes.size() - at);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) break;  // it has become shorter
    at += static_cast<size_t>(n);
  }
  good = good && at == bytes.size();
  ::close(file);
  if (!good) return std::nullopt;
  return bytes;
}

}  // namespace shutlane
