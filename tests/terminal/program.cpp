#include "tests/terminal/program.hpp"

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

namespace shutlane::terminal {
namespace {

/// Becomes the command; only returns when that fails. Both outputs go to files, which never fill up as pipes
/// do.
[[noreturn]] void become(std::vector<std::string> words, const Around& around, const std::string& out,
                         const std::string& err) {
  const int out_fd = open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  const int err_fd = open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  dup2(open("/dev/null", O_RDONLY), STDIN_FILENO);
  dup2(out_fd, STDOUT_FILENO);
  dup2(err_fd, STDERR_FILENO);
  if (around.out_closed) close(STDOUT_FILENO);
  if (chdir(around.folder.c_str()) != 0) _exit(126);
  std::vector<std::string> settings;
  const char* path = std::getenv("PATH");
  if (path != nullptr) settings.push_back(std::string("PATH=") + path);
  for (const auto& [name, value] : around.env) settings.push_back(name + "=" + value);
  std::vector<char*> argv, envp;
  for (std::string& word : words) argv.push_back(word.data());
  for (std::string& setting : settings) envp.push_back(setting.data());
  argv.push_back(nullptr);
  envp.push_back(nullptr);
  execvpe(argv[0], argv.data(), envp.data());
  _exit(127);
}

}  // namespace

size_t Ran::err_lines() const { return static_cast<size_t>(std::count(err.begin(), err.end(), '\n')); }

Ran run_command(const std::vector<std::string>& words, const Around& around) {
  const std::string base = scratch_folder("run-" + std::to_string(getpid()));
  const std::string out = around.out_file.empty() ? base + "/out" : around.out_file;
  const std::string err = base + "/err";
  const pid_t child = fork();
  if (child == 0) become(words, around, out, err);
  int state = 0;
  waitpid(child, &state, 0);
  Ran ran{.status = WIFEXITED(state) ? WEXITSTATUS(state) : -1, .out = {}, .err = text_of_file(err)};
  if (around.out_file.empty()) ran.out = text_of_file(out);
  std::filesystem::remove_all(base);
  return ran;
}

Ran shutlane(const std::vector<std::string>& words, const Around& around) {
  std::vector<std::string> command{SHUTLANE_PROGRAM};
  command.insert(command.end(), words.begin(), words.end());
  return run_command(command, around);
}

std::vector<std::string> engine_names() { return lines_of(shutlane({"engines", "--names"}).out); }

std::string scratch_folder(const std::string& name) {
  const auto folder = std::filesystem::temp_directory_path() / ("shutlane-terminal-" + name);
  std::filesystem::remove_all(folder);
  std::filesystem::create_directories(folder);
  return folder.string();
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

std::string without_space(const std::string& text) {
  std::string kept;
  std::copy_if(text.begin(), text.end(), std::back_inserter(kept),
               [](char c) { return c != ' ' && c != '\n'; });
  return kept;
}

std::string text_of_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace shutlane::terminal
