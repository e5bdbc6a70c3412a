// `shutlane plan` as a process (aim: under 30 ms) against an empty C++ program, started in turn in the same
// run.
#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>

#include "tests/bench/bench_shared.hpp"

namespace shutlane::bench {
namespace {

/// Runs a program to its end with its output thrown away; seconds, or -1 when it failed.
double run(std::vector<std::string> words) {
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  const auto begun = std::chrono::steady_clock::now();
  pid_t child = 0;
  int status = 1;
  const bool started = posix_spawn(&child, arguments[0], &actions, nullptr, arguments.data(), environ) == 0;
  if (started) waitpid(child, &status, 0);
  const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begun;
  posix_spawn_file_actions_destroy(&actions);
  return started && status == 0 ? took.count() : -1;
}

void plan_as_a_process(benchmark::State& state) {
  double ours = 0, empty = 0;
  for (auto _ : state) {
    const double plan = run({SHUTLANE_PROGRAM, "plan", "inline-six", "--from", "35"});
    const double nothing = run({EMPTY_PROGRAM});
    if (plan < 0 || nothing < 0) {
      state.SkipWithError("a program did not end with 0");
      break;
    }
    state.SetIterationTime(plan);
    ours += plan;
    empty += nothing;
  }
  state.counters["over_empty_program"] = ours / empty;
  state.counters["empty_ms"] = 1e3 * empty / static_cast<double>(state.iterations());
}
BENCHMARK(plan_as_a_process)->Unit(benchmark::kMillisecond)->UseManualTime();

}  // namespace
}  // namespace shutlane::bench
