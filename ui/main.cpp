// The program: verbs in the terminal, or the window when it is started alone.
#include <unistd.h>

#include "ui/terminal/command_line.hpp"

int main(int argc, char** argv) {
  using namespace shutlane::terminal;
  const std::vector<std::string> words(argv + (argc > 0 ? 1 : 0), argv + argc);
  return deliver(run(words, style_of_environment(STDOUT_FILENO), {}));
}
