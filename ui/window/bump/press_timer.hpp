#pragma once
// The press of the starter, timed for a person whose hand is on the remote switch: three ticks to get into
// the rhythm, then the beep to press at and the beep to let go at. A value: where it stands follows from the
// time alone.
#include <array>

namespace shutlane {

inline constexpr double kLeadIn_s = 0.5;  ///< from the button to the first tick: for the hand to get there
inline constexpr double kTickEvery_s = 0.7;
inline constexpr int kTicks = 3;
inline constexpr double kPressShown_s = 0.35;  ///< the word stands at least so long, or nobody reads it
inline constexpr double kLetGoShown_s = 1.0;   ///< then it is asked what happened
inline constexpr double kLeastPress_s = 0.01, kMostPress_s = 5;  ///< others are brought within

/// When things happen, seconds from the start.
struct PressTimes {
  std::array<double, kTicks> ticks_s{};
  double press_s = 0, let_go_s = 0;    ///< of the beeps
  double word_ends_s = 0, over_s = 0;  ///< of what is shown
};
PressTimes press_times(double press_s);

/// As shown: a short press is still shown while the low beep sounds; the bar is full by then.
enum class PressPhase { get_ready, count_in, press, let_go, over };

struct PressMoment {
  PressPhase phase = PressPhase::get_ready;
  int ticks_left = kTicks;  ///< in count_in: 3, 2, 1, the tick just heard counted
  double share = 0;         ///< of the press, 0..1
};

struct PressTimer {
  double started_s = 0;  ///< on any clock that runs on
  double press_s = 0;
  /// Before the start it is the start's.
  PressMoment at(double now_s) const;
  void end(double now_s);  ///< over from now on
};

}  // namespace shutlane
