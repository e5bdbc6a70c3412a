#include "ui/window/bump/press_timer.hpp"

#include <algorithm>

namespace shutlane {

PressTimes press_times(double press_s) {
  PressTimes times;
  for (int i = 0; i < kTicks; ++i) times.ticks_s[static_cast<size_t>(i)] = kLeadIn_s + i * kTickEvery_s;
  times.press_s = kLeadIn_s + kTicks * kTickEvery_s;
  times.let_go_s = times.press_s + std::clamp(press_s, kLeastPress_s, kMostPress_s);
  times.word_ends_s = std::max(times.let_go_s, times.press_s + kPressShown_s);
  times.over_s = times.word_ends_s + kLetGoShown_s;
  return times;
}

PressMoment PressTimer::at(double now_s) const {
  const PressTimes times = press_times(press_s);
  const double t = now_s - started_s;
  PressMoment moment;
  if (t < times.ticks_s[0]) return moment;
  moment.phase = PressPhase::count_in;
  if (t < times.press_s) {
    for (const double tick_s : times.ticks_s)
      if (t >= tick_s && tick_s > times.ticks_s[0]) --moment.ticks_left;
    return moment;
  }
  moment.ticks_left = 0;
  moment.share = std::min(1.0, (t - times.press_s) / (times.let_go_s - times.press_s));
  moment.phase = t < times.word_ends_s ? PressPhase::press
                 : t < times.over_s    ? PressPhase::let_go
                                       : PressPhase::over;
  return moment;
}

void PressTimer::end(double now_s) { started_s = now_s - press_times(press_s).over_s - 1e-6; }

}  // namespace shutlane
