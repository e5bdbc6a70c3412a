#pragma once
// What a verb has to say. Verbs are pure: they read engine files and return this; only the program prints it.
#include <stdexcept>
#include <string>

namespace shutlane::terminal {

inline constexpr int kDone = 0;           ///< exit status
inline constexpr int kNoAnswer = 1;       ///< the question has no answer; `out` says why
inline constexpr int kInterrupted = 130;  ///< Ctrl-C, as shells have it; `out` is empty
inline constexpr int kBadInput = 2;       ///< bad usage or bad input; `out` is empty

struct Answer {
  int status = kDone;
  std::string out{};  ///< for standard output, whole lines
  std::string err{};  ///< for standard error, whole lines
};

/// Bad usage or bad input, in whole lines for standard error (the last newline may be left off).
class BadInput : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace shutlane::terminal
