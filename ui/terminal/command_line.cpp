#include "ui/terminal/command_line.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <cstring>

#include "ui/terminal/grammar.hpp"

namespace shutlane::terminal {
namespace {

constexpr const char* kDemoEngine = "inline-six";
constexpr double kDemoFrom_deg = 35;

Answer alone(const OpenWindow& open_window) {
  if (open_window) {
    if (const auto status = open_window()) return {.status = *status};
  }
  Answer answer = plan_verb({.engine = kDemoEngine, .from_deg = kDemoFrom_deg});
  answer.err = fmt::format("shutlane: {}; here is the demonstration plan (see shutlane --help)\n",
                           open_window ? "no window can be opened" : "this build has no window");
  return answer;
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
