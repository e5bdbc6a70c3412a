#pragma once
// What is heard while the press is timed, as one piece of sound, so that the beeps lie exactly the press
// apart whatever the frames or the sound device do.
#include <cstddef>
#include <cstdint>
#include <vector>

namespace shutlane {

struct PressSound {
  int rate_hz = 48000;
  std::vector<std::int16_t> samples;   ///< one channel
  size_t press_at = 0, let_go_at = 0;  ///< the beeps' first samples
};

/// Three ticks, a high beep (880 Hz) to press at and a low one (660 Hz) to let go at, after PressTimes. The
/// beeps are 80 ms long with soft edges; the first is cut short of a press that is shorter.
PressSound press_sound(double press_s, int rate_hz = 48000);

/// Plays such sounds where there is a device, and is silent where there is none: never an error.
class Beeper {
 public:
  virtual ~Beeper() = default;
  virtual void play(PressSound sound) = 0;  ///< from now on; returns at once
  virtual void stop() = 0;
};

}  // namespace shutlane
