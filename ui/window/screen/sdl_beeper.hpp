#pragma once
// The beeps through SDL's sound. Opening a device may take a while, so it is done on a thread of its own and
// what has passed by then is left out; the device is closed after each sound, so that silence costs nothing.
#include <chrono>
#include <condition_variable>
#include <mutex>
#include <optional>
#include <thread>

#include "ui/window/bump/press_sound.hpp"

namespace shutlane {

class SdlBeeper : public Beeper {
 public:
  SdlBeeper() = default;
  ~SdlBeeper() override;  ///< before SDL_Quit
  SdlBeeper(const SdlBeeper&) = delete;
  SdlBeeper& operator=(const SdlBeeper&) = delete;

  void play(PressSound sound) override;
  void stop() override;

 private:
  using Clock = std::chrono::steady_clock;
  void run();
  void sound_out(const PressSound& sound, Clock::time_point began, unsigned count);
  bool wait_while_current(double seconds, unsigned count);

  std::mutex mutex_;
  std::condition_variable changed_;
  std::optional<PressSound> waiting_;
  Clock::time_point began_;
  unsigned count_ = 0;  ///< grows with each play and stop: what is older falls silent
  bool ending_ = false;
  std::thread thread_;  ///< from the first sound on
};

}  // namespace shutlane
