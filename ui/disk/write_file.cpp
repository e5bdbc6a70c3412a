#include "ui/disk/write_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <random>

namespace shutlane {
namespace {

namespace fs = std::filesystem;

std::string reason() { return std::strerror(errno); }

std::string folder_of(const std::string& path) {
  const std::string folder = fs::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

/// A file that nobody had before; -1: none could be made. A planted link or file of that name is never
/// followed.
int open_unfinished(const std::string& folder, mode_t mode, std::string& name) {
  std::random_device random;
  for (int i = 0; i < 100; ++i) {
    name = folder + "/" + kUnfinishedPrefix;
    for (int digit = 0; digit < 12; ++digit) name += "0123456789abcdef"[random() & 15];
    name += kUnfinishedEnding;
    const int file = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode);
    if (file >= 0 || errno != EEXIST) return file;
  }
  return -1;
}

bool write_all(int file, const std::string& bytes) {
  size_t at = 0;
  while (at < bytes.size()) {
    const ssize_t n = ::write(file, bytes.data() + at, bytes.size() - at);
    if (n < 0 && errno == EINTR) continue;
    if (n <= 0) return false;
    at += static_cast<size_t>(n);
  }
  return true;
}

/// EINVAL, EROFS: a file system that does not sync.
bool synced(int file) { return ::fsync(file) == 0 || errno == EINVAL || errno == EROFS; }

/// A rename is safe on the disk only when the folder is synced too.
void sync_folder(const std::string& folder) {
  const int file = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (file < 0) return;
  ::fsync(file);
  ::close(file);
}

bool put_in_place(const std::string& beside, const std::string& path, bool must_be_new) {
  if (!must_be_new) return std::rename(beside.c_str(), path.c_str()) == 0;
  // A link is made only where nothing is; some file systems have none.
  if (::link(beside.c_str(), path.c_str()) == 0) return ::unlink(beside.c_str()) == 0;
  if (errno == EEXIST) return false;
  struct stat there {};
  if (::lstat(path.c_str(), &there) == 0) {
    errno = EEXIST;
    return false;
  }
  return std::rename(beside.c_str(), path.c_str()) == 0;
}

}  // namespace

std::optional<std::string> replace_file(const std::string& path, const std::string& bytes,
                                        const NewFile& rules) {
  struct stat old {};
  const bool named = ::lstat(path.c_str(), &old) == 0;
  if (!named && errno != ENOENT) return reason();
  std::string end = path;
  if (named) {
    if (rules.must_be_new) return std::strerror(EEXIST);
    if (S_ISLNK(old.st_mode)) {
      std::error_code error;
      end = fs::canonical(path, error).string();
      if (error || ::lstat(end.c_str(), &old) != 0) return "it is a link that leads to no file";
    }
    if (!S_ISREG(old.st_mode)) return "it is not a regular file";
    // Root may write everything, so the mode is asked too.
    if ((old.st_mode & 0222) == 0) return "it is read-only";
    if (::faccessat(AT_FDCWD, end.c_str(), W_OK, AT_EACCESS) != 0) return reason();
  }
  const std::string folder = folder_of(end);
  std::string beside;
  const int file = open_unfinished(folder, rules.only_for_me || named ? 0600 : 0666, beside);
  if (file < 0) return reason();
  bool good = true;
  if (named) {
    // The owner where that is allowed; the mode after it, since a change of owner may take bits away.
    if (::fchown(file, old.st_uid, old.st_gid) != 0) errno = 0;
    good = ::fchmod(file, old.st_mode & 07777) == 0;
  }
  good = good && write_all(file, bytes) && synced(file);
  std::string why = good ? "" : reason();
  if (::close(file) != 0 && good) {
    good = false;
    why = reason();
  }
  if (good && !put_in_place(beside, end, rules.must_be_new)) {
    good = false;
    why = reason();
  }
  if (!good) {
    ::unlink(beside.c_str());
    return why;
  }
  sync_folder(folder);
  return std::nullopt;
}

std::optional<std::string> write_whole_file(const std::string& path, const std::string& bytes,
                                            const NewFile& rules) {
  if (const auto why = replace_file(path, bytes, rules)) return path + ": cannot be written: " + *why;
  return std::nullopt;
}

}  // namespace shutlane
