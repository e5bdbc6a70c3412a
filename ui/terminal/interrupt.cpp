#include "ui/terminal/interrupt.hpp"

#include <atomic>

namespace shutlane::terminal {
namespace {

std::atomic<bool> pressed{false};
static_assert(std::atomic<bool>::is_always_lock_free, "set in a signal handler");

extern "C" void remember_interrupt(int) { pressed = true; }

}  // namespace

Interrupt::Interrupt() {
  pressed = false;
  struct sigaction now {};
  now.sa_handler = remember_interrupt;
  sigemptyset(&now.sa_mask);
  now.sa_flags = SA_RESTART;
  sigaction(SIGINT, nullptr, &before_);
  if (before_.sa_handler != SIG_IGN) sigaction(SIGINT, &now, nullptr);
}

Interrupt::~Interrupt() { sigaction(SIGINT, &before_, nullptr); }

bool Interrupt::asked() const { return pressed; }

}  // namespace shutlane::terminal
