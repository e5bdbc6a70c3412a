// The press timer as a value, and what is heard of it. The times are read off the sound's samples by
// themselves: silence, the first sample that sounds, and the pitch by counting zero crossings.
#include <cmath>
#include <cstdlib>

#include "ui/window/bump/press_sound.hpp"
#include "ui/window/bump/press_timer.hpp"

#include <gtest/gtest.h>

namespace shutlane {
namespace {

TEST(PressTimer, GoesThroughItsPhasesInOrder) {
  const PressTimer timer{1000, 0.5};
  const auto phase = [&](double t) { return timer.at(1000 + t).phase; };
  EXPECT_EQ(phase(-5), PressPhase::get_ready) << "a clock that was set back";
  EXPECT_EQ(phase(0), PressPhase::get_ready);
  EXPECT_EQ(phase(0.49), PressPhase::get_ready);
  // Ticks at 0.5, 1.2, 1.9; the beeps at 2.6 and 3.1.
  EXPECT_EQ(phase(0.51), PressPhase::count_in);
  EXPECT_EQ(timer.at(1000.51).ticks_left, 3);
  EXPECT_EQ(timer.at(1001.19).ticks_left, 3);
  EXPECT_EQ(timer.at(1001.21).ticks_left, 2);
  EXPECT_EQ(timer.at(1001.91).ticks_left, 1);
  EXPECT_EQ(phase(2.59), PressPhase::count_in);
  EXPECT_EQ(timer.at(1002.59).share, 0);
  EXPECT_EQ(phase(2.61), PressPhase::press);
  EXPECT_NEAR(timer.at(1002.85).share, 0.5, 1e-6);
  EXPECT_EQ(phase(3.09), PressPhase::press);
  EXPECT_EQ(phase(3.11), PressPhase::let_go);
  EXPECT_EQ(timer.at(1003.11).share, 1);
  EXPECT_EQ(phase(4.09), PressPhase::let_go);
  EXPECT_EQ(phase(4.11), PressPhase::over);
  EXPECT_EQ(phase(1e6), PressPhase::over);
}

TEST(PressTimer, NeverGoesBackAndTheBarNeverJumps) {
  for (const double press_s : {0.06, 0.3, 0.6}) {
    const PressTimer timer{0, press_s};
    PressMoment before = timer.at(0);
    double pressed_s = 0;
    constexpr double kStep_s = 0.001;
    for (int i = 1; i < 5000; ++i) {
      const PressMoment now = timer.at(i * kStep_s);
      EXPECT_GE(static_cast<int>(now.phase), static_cast<int>(before.phase));
      EXPECT_LE(now.ticks_left, before.ticks_left);
      EXPECT_GE(now.share, before.share);
      EXPECT_LE(now.share - before.share, kStep_s / press_s + 1e-9);
      if (now.phase == PressPhase::press) pressed_s += kStep_s;
      before = now;
    }
    // The large word stands as long as the press, but never so short that nobody reads it.
    EXPECT_NEAR(pressed_s, press_s < 0.35 ? 0.35 : press_s, 2 * kStep_s);
    EXPECT_EQ(before.phase, PressPhase::over);
  }
}

TEST(PressTimer, AShortPressIsReadableAndItsBarIsExact) {
  const PressTimer timer{0, 0.06};
  EXPECT_EQ(timer.at(2.66).share, 1) << "full when the low beep comes";
  EXPECT_NEAR(timer.at(2.63).share, 0.5, 1e-6);
  EXPECT_EQ(timer.at(2.90).phase, PressPhase::press);
  EXPECT_EQ(timer.at(2.96).phase, PressPhase::let_go);
  PressTimer ended = timer;
  ended.end(2.7);
  EXPECT_EQ(ended.at(2.7).phase, PressPhase::over);
}

size_t first_sounding(const PressSound& s, size_t from) {
  while (from < s.samples.size() && s.samples[from] == 0) ++from;
  return from;
}
/// The start of at least `gap` silent samples.
size_t first_silent(const PressSound& s, size_t from, size_t gap) {
  for (size_t run = 0; from < s.samples.size(); ++from) {
    run = s.samples[from] == 0 ? run + 1 : 0;
    if (run == gap) return from + 1 - gap;
  }
  return from;
}
double hz_between(const PressSound& s, size_t from, size_t to) {
  int crossings = 0;
  for (size_t i = from + 1; i < to; ++i) crossings += (s.samples[i - 1] < 0) != (s.samples[i] < 0);
  return crossings / 2.0 * s.rate_hz / static_cast<double>(to - from);
}

TEST(PressSound, TheBeepsLieExactlyThePressApart) {
  for (const int rate : {44100, 48000})
    for (const double press_s : {0.06, 0.14, 0.3, 0.6}) {
      SCOPED_TRACE(press_s);
      const PressSound s = press_sound(press_s, rate);
      const size_t gap = static_cast<size_t>(rate / 200);  // 5 ms
      std::vector<size_t> starts, ends;
      for (size_t at = first_sounding(s, 0); at < s.samples.size(); at = first_sounding(s, ends.back())) {
        starts.push_back(at);
        ends.push_back(first_silent(s, at, gap));
      }
      ASSERT_EQ(starts.size(), 5u) << "three ticks and two beeps";
      // The edges are soft: a tone is heard from its second or third sample on, each tone alike.
      EXPECT_NEAR(static_cast<double>(starts[4] - starts[3]), press_s * rate, 2);
      EXPECT_EQ(s.let_go_at - s.press_at, static_cast<size_t>(std::lround(press_s * rate)));
      EXPECT_LE(starts[3] - s.press_at, 4u);
      EXPECT_LE(starts[4] - s.let_go_at, 4u);
      for (int i = 0; i < 3; ++i)
        EXPECT_NEAR(static_cast<double>(starts[static_cast<size_t>(i) + 1] - starts[static_cast<size_t>(i)]),
                    0.7 * rate, 6);
      EXPECT_NEAR(hz_between(s, starts[3], ends[3]), 880, 25);
      EXPECT_NEAR(hz_between(s, starts[4], ends[4]), 660, 15);
      if (press_s >= 0.14) {
        EXPECT_NEAR(static_cast<double>(ends[3] - starts[3]), 0.08 * rate, 0.003 * rate);
      }
      for (size_t i = 1; i < s.samples.size(); ++i)  // no clicks: at most what a full sine of 880 Hz climbs
        ASSERT_LE(std::abs(s.samples[i] - s.samples[i - 1]), 0.7 * 32767 * 6.2832 * 880 / rate + 2) << i;
    }
}

/// The frames show what is heard: the sound's beeps lie where the timer changes its word.
TEST(PressSound, SoundAndTimerAgree) {
  const PressSound s = press_sound(0.44);
  const PressTimer timer{0, 0.44};
  const auto at = [&](size_t sample, double off_s) {
    return timer.at(static_cast<double>(sample) / s.rate_hz + off_s).phase;
  };
  EXPECT_EQ(at(s.press_at, -0.001), PressPhase::count_in);
  EXPECT_EQ(at(s.press_at, 0.001), PressPhase::press);
  EXPECT_EQ(at(s.let_go_at, -0.001), PressPhase::press);
  EXPECT_EQ(at(s.let_go_at, 0.001), PressPhase::let_go);
}

}  // namespace
}  // namespace shutlane
