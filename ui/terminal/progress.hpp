#pragma once
// A line on standard error that says how far a long answer has got.
#include <chrono>
#include <cstdio>
#include <functional>
#include <string>

namespace shutlane::terminal {

/// Silent for the first second and where there is no terminal; written over, and taken away at the end.
class Progress {
 public:
  using Now = std::function<std::chrono::steady_clock::time_point()>;
  /// On standard error, when that is a terminal.
  explicit Progress(std::string what);
  Progress(std::string what, std::FILE* to, bool on_terminal, Now now);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  void tell(double done);  ///< 0..1; one call at a time

 private:
  std::string what_;
  std::FILE* to_;
  bool on_terminal_;
  Now now_;
  std::chrono::steady_clock::time_point begin_;
  int shown_ = -1;  ///< percent
};

}  // namespace shutlane::terminal
