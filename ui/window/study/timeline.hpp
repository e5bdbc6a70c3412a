#pragma once
// How the timeline is moved about: range, what-if needle, the events and positions it can be sent to. No
// screen: places come in, angles come out.
#include <optional>
#include <vector>

#include "sim/plan/wrench.hpp"
#include "ui/drawings/lanes.hpp"

namespace shutlane {

/// What is seen of the cycle, in degrees after the start: 0 <= from_deg < 720, from_deg < to_deg <= from_deg
/// + 720.
struct TimelineRange {
  double from_deg = 0, to_deg = kCycle_deg;
  double span_deg() const { return to_deg - from_deg; }
  friend bool operator==(const TimelineRange&, const TimelineRange&) = default;
};
inline constexpr double kNarrowest_deg = 15;

/// `factor` < 1 shows less; the angle at `part` (0 left end, 1 right end) stays where it is.
TimelineRange zoomed(TimelineRange range, double part, double factor);
TimelineRange panned(TimelineRange range, double by_deg);
/// Panned as little as brings the angle into view, a tenth of the span away from the edge; unchanged when it
/// is there.
TimelineRange holding(TimelineRange range, double after_start_deg);

enum class CrankEventKind {
  intake_opens,
  intake_closes,
  exhaust_opens,
  exhaust_closes,
  surely_shut_from,
  surely_shut_to
};
struct CrankEvent {
  double at_deg = 0;  ///< cycle angle, [0, 720)
  int cylinder = 0;
  CrankEventKind kind = CrankEventKind::intake_opens;
};
/// Seat events of every valve as stated, and the ends of every sure window, in the order of their angles.
std::vector<CrankEvent> crank_events(const Engine& engine, const std::vector<Windows>& windows);

enum class Way { forward, back };
/// All events at the nearest angle that lies more than kSame_deg on from `from_deg`; empty when there is none
/// at all.
std::vector<CrankEvent> next_events(const std::vector<CrankEvent>& events, double from_deg, Way way);
/// The nearest position of the plan that way; nullptr when the plan has none.
const Position* next_position(const WrenchPlan& plan, double from_deg, Way way);

inline constexpr double kDegPerSecondPerRpm = 6;
inline constexpr double kRunSpeeds_rpm[] = {1, 2, 5, 10, 20};

struct TimelineState {
  TimelineRange range;
  LaneOrder order = LaneOrder::firing;
  int start_cylinder = 1;
  StartAt start_at = StartAt::firing_tdc;
  bool running = false;
  size_t speed = 2;  ///< index into kRunSpeeds_rpm
  // Of the pointer:
  enum class Grip { none, needle, range } grip = Grip::none;
  double grip_x = 0;
  std::optional<double> hover_deg;
  std::optional<int> hover_cylinder;
  bool hover_muted = false;  ///< the keyboard moved the needle since the pointer last moved
};

struct TimelinePointer {
  Point at;
  bool over = false;          ///< the pointer is the timeline's: nothing lies on top
  bool left = false;          ///< held
  bool pan = false;           ///< right or middle button held, or shift with the left one
  double wheel = 0;           ///< notches, positive away from the hand: shows less
  double wheel_sideways = 0;  ///< notches to the right
};
/// Follows the pointer. The new place of the needle, when it was moved.
std::optional<double> follow(TimelineState& state, const LanesGeometry& geometry,
                             const TimelinePointer& pointer);

/// The needle after running for a time; [0, 720).
double run_on(double needle_deg, const TimelineState& state, double seconds);

}  // namespace shutlane
