#pragma once
// Ctrl-C during a long answer: it ends with a line and a status of its own instead of in the middle of one.
#include <csignal>
#include <stdexcept>

namespace shutlane::terminal {

/// While one lives, Ctrl-C is remembered instead of ending the program. A program that was started deaf to it
/// (nohup) stays so. One at a time.
class Interrupt {
 public:
  Interrupt();
  ~Interrupt();
  Interrupt(const Interrupt&) = delete;
  Interrupt& operator=(const Interrupt&) = delete;

  bool asked() const;  ///< from any thread

 private:
  struct sigaction before_ {};
};

/// Thrown when the answer was given up; what() says what was stopped.
class Interrupted : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

}  // namespace shutlane::terminal
