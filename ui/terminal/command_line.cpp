#include "ui/terminal/command_line.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

#include "ui/terminal/grammar.hpp"
#include "ui/terminal/interrupt.hpp"

namespace shutlane::terminal {
namespace {

Answer alone(const OpenWindow& open_window) {
  if (open_window) {
    if (const auto status = open_window()) return {.status = *status};
  }
  throw BadInput(
      fmt::format("{}; the verbs work without one, such as shutlane plan ENGINE --from DEG (see shutlane "
                  "--help)",
                  open_window ? "no window can be opened" : "this build has no window"));
}

/// The program's name before lines of its own; the lines about an engine file begin with the file.
std::string error_lines(std::string_view what) {
  std::string lines(what);
  if (lines.empty() || lines.back() != '\n') lines = "shutlane: " + lines + "\n";
  return lines;
}

}  // namespace

Answer run(const std::vector<std::string>& words, const Style& style, const OpenWindow& open_window) {
  try {
    return words.empty() ? alone(open_window) : Grammar(style).run(words);
  } catch (const Interrupted& e) {
    return {.status = kInterrupted, .out = {}, .err = error_lines(e.what())};
  } catch (const std::exception& e) {
    return {.status = kBadInput, .out = {}, .err = error_lines(e.what())};
  }
}

int deliver(const Answer& answer) {
  std::fputs(answer.err.c_str(), stderr);
  errno = 0;
  const bool written = std::fwrite(answer.out.data(), 1, answer.out.size(), stdout) == answer.out.size();
  if (written && std::fflush(stdout) == 0) return answer.status;
  std::fprintf(stderr, "shutlane: standard output can't be written: %s\n", std::strerror(errno));
  return kBadInput;
}

}  // namespace shutlane::terminal
