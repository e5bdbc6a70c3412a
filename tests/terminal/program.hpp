#pragma once
// Runs the real program, as a shell would.
#include <map>
#include <string>
#include <vector>

namespace shutlane::terminal {

struct Ran {
  int status = -1;  ///< exit status; -1 when it died from a signal
  std::string out{}, err{};
  size_t err_lines() const;
};

struct Around {
  std::string folder = "/";                  ///< working folder
  std::map<std::string, std::string> env{};  ///< on top of an environment that holds PATH alone
  std::string out_file{};                    ///< where standard output goes; empty: it is caught
  bool out_closed = false;
};

Ran run_command(const std::vector<std::string>& words, const Around& around = {});
/// The program of this build.
Ran shutlane(const std::vector<std::string>& words, const Around& around = {});

/// Every bundled engine's name, from the program itself.
std::vector<std::string> engine_names();

/// A folder of the test's own, made empty.
std::string scratch_folder(const std::string& name);

std::vector<std::string> lines_of(const std::string& text);
std::string without_space(const std::string& text);
std::string text_of_file(const std::string& path);

}  // namespace shutlane::terminal
