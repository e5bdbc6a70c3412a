#include "ui/terminal/progress.hpp"

#include <unistd.h>

#include <utility>

namespace shutlane::terminal {

Progress::Progress(std::string what)
    : Progress(std::move(what), stderr, isatty(STDERR_FILENO) == 1, &std::chrono::steady_clock::now) {}

Progress::Progress(std::string what, std::FILE* to, bool on_terminal, Now now)
    : what_(std::move(what)), to_(to), on_terminal_(on_terminal), now_(std::move(now)), begin_(now_()) {}

Progress::~Progress() {
  if (shown_ >= 0) std::fputs("\r\033[K", to_);
}

void Progress::tell(double done) {
  const int percent = static_cast<int>(100 * done);
  if (!on_terminal_ || percent == shown_ || now_() - begin_ < std::chrono::seconds(1)) return;
  shown_ = percent;
  std::fprintf(to_, "\r%s: %3d %%", what_.c_str(), percent);
  std::fflush(to_);
}

}  // namespace shutlane::terminal
