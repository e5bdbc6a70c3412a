// The program: verbs in the terminal, or the window when it is started alone.
#include <unistd.h>

#include "ui/terminal/command_line.hpp"
#ifdef SHUTLANE_HAS_WINDOW
#include "ui/window/window_words.hpp"
#endif

int main(int argc, char** argv) {
  using namespace shutlane::terminal;
  const std::vector<std::string> words(argv + (argc > 0 ? 1 : 0), argv + argc);
  const Style style = style_of_environment(STDOUT_FILENO);
#ifdef SHUTLANE_HAS_WINDOW
  if (const auto status = shutlane::window_words(words)) return *status;
#endif
  return deliver(run(words, style, {}));
}
