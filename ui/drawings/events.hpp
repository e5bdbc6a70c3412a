#pragma once
// The four (or more) valve events of a cylinder, for drawing and in words.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "sim/mechanism/engine.hpp"

namespace shutlane {

/// One opening or closing. Angles are local (0 firing TDC, 360 overlap TDC) and not wrapped.
struct ValveEvent {
  ValveKind kind = ValveKind::intake;
  bool opens = true;
  size_t train = 0;     ///< index into Engine::trains
  double seat_deg = 0;  ///< where the valve leaves or touches its seat, as stated, phaser at 0
  double earliest_deg = 0, latest_deg = 0;  ///< of the seat event, under every tolerance
  std::optional<double> stated_deg;         ///< where the file states it; nullopt with a table
  double stated_at_mm = 0;                  ///< at this valve lift

  /// The dead centre the trade counts it from: 180 or 540 (BDC) or 360 (overlap TDC).
  double reference_deg() const;
};

/// Intake before exhaust, each train's opening before its closing.
std::vector<ValveEvent> valve_events(const Engine& engine, const Cylinder& cylinder);

/// "intake opens", "exhaust closes"; with more than one train of the kind "intake a opens", "intake b opens".
/// Without `which` the letter is left out.
std::string event_name(const Cylinder& cylinder, const ValveEvent& event, bool which = true);
/// "12° before overlap TDC", "48° after BDC", "at BDC".
std::string event_angle(const ValveEvent& event, double local_deg);
/// The same event of several lobes in the order of their letters: "a 18°, b 6° before overlap TDC",
/// "a 2° before, b 4° after BDC"; as one when they are alike.
std::string event_angles(std::span<const ValveEvent> events);
/// The seat event's span over the tolerances: "19° to 5° before overlap TDC", "6° before to 8° after BDC".
std::string event_span(const ValveEvent& event);

}  // namespace shutlane
