// The program: verbs in the terminal, or the window when it is started alone.
#include <unistd.h>

#include "ui/terminal/command_line.hpp"
#if SHUTLANE_HAS_WINDOW
#include "ui/window/open.hpp"
#endif

namespace {

shutlane::terminal::OpenWindow window_of_this_build() {
#if SHUTLANE_HAS_WINDOW
  return []() -> std::optional<int> {
    const int status = shutlane::open_window({});
    if (status == shutlane::kNoDisplay) return std::nullopt;
    return status;
  };
#else
  return {};
#endif
}

}  // namespace

int main(int argc, char** argv) {
  using namespace shutlane::terminal;
  const std::vector<std::string> words(argv + (argc > 0 ? 1 : 0), argv + argc);
  return deliver(run(words, style_of_environment(STDOUT_FILENO), window_of_this_build()));
}
