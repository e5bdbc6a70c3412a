#include "ui/window/bump/press_sound.hpp"

#include <algorithm>
#include <cmath>

#include "ui/window/bump/press_timer.hpp"

namespace shutlane {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kBeep_s = 0.080, kTick_s = 0.025, kEdge_s = 0.005;
constexpr double kBeepLoud = 0.7, kTickLoud = 0.35;  // of full scale
constexpr double kTick_hz = 440, kPress_hz = 880, kLetGo_hz = 660;
constexpr double kTail_s = 0.05;

/// A sine from sample `at` on, with raised-cosine edges, so that it does not click.
void add_tone(PressSound& sound, size_t at, double hz, double length_s, double loud) {
  const size_t length = static_cast<size_t>(std::lround(length_s * sound.rate_hz));
  const double edge = std::min(kEdge_s * sound.rate_hz, static_cast<double>(length) / 2);
  for (size_t i = 0; i < length && at + i < sound.samples.size(); ++i) {
    const double from_end = static_cast<double>(std::min(i, length - 1 - i));
    const double envelope = from_end >= edge ? 1 : (1 - std::cos(kPi * from_end / edge)) / 2;
    const double wave = std::sin(2 * kPi * hz * static_cast<double>(i) / sound.rate_hz);
    sound.samples[at + i] = static_cast<std::int16_t>(std::lround(32767 * loud * envelope * wave));
  }
}

}  // namespace

PressSound press_sound(double press_s, int rate_hz) {
  const PressTimes times = press_times(press_s);
  PressSound sound;
  sound.rate_hz = rate_hz;
  const auto sample = [&](double s) { return static_cast<size_t>(std::lround(s * rate_hz)); };
  sound.press_at = sample(times.press_s);
  sound.let_go_at = sound.press_at + sample(times.let_go_s - times.press_s);
  sound.samples.assign(sound.let_go_at + sample(kBeep_s + kTail_s), 0);
  for (const double tick_s : times.ticks_s) add_tone(sound, sample(tick_s), kTick_hz, kTick_s, kTickLoud);
  const double first_s = std::min(kBeep_s, 0.75 * (times.let_go_s - times.press_s));
  add_tone(sound, sound.press_at, kPress_hz, first_s, kBeepLoud);
  add_tone(sound, sound.let_go_at, kLetGo_hz, kBeep_s, kBeepLoud);
  return sound;
}

}  // namespace shutlane
