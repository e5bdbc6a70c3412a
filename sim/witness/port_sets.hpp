#pragma once
// What one port's answers and windows mean for the crank, worked out once for an engine.
#include <vector>

#include "sim/shut/windows.hpp"
#include "sim/witness/told.hpp"

namespace shutlane {

inline constexpr double kDefaultEye_mm = 0.5;

struct PortSets {
  int cylinder = 0;
  ArcSet if_shut;   ///< where the crank can stand when the port is seen shut
  ArcSet if_open;   ///< ... when it is seen open
  ArcSet nominal;   ///< shut, events as stated
  ArcSet tolerant;  ///< shut within tolerance
  ArcSet sure;      ///< surely shut: within tolerance over the margin to both sides
  ArcSet touching;  ///< where the eye can't tell shut from open
};

/// One entry a cylinder, in number order. eye_mm 0..3, margin_deg 0..360.
std::vector<PortSets> port_sets(const Engine& engine, double eye_mm = kDefaultEye_mm,
                                double margin_deg = kDefaultMargin_deg);
const PortSets* sets_of(const std::vector<PortSets>& ports, int cylinder);

enum class Reckoned { shut, open, unknown };
/// Shut: surely, margin and all. Open: under every tolerance. A contradiction (no arcs) tells nothing.
Reckoned reckon(const PortSets& port, const ArcSet& where);

/// Where the crank can stand with its mark in line: both turns of the cycle.
ArcSet mark_arcs(const MarkRead& mark);
/// Where the crank can stand when a lobe was seen so.
ArcSet lobe_arcs(const Engine& engine, const LobeSeen& lobe);
/// Where the crank can stand when the nose of a cylinder's lobe is seen `past_valve_deg` cam degrees past
/// pointing at its valve, read to within `plus_minus_deg` cam degrees; phase range and timing tolerance
/// added.
ArcSet lobe_seen_at(const Engine& engine, int cylinder, ValveKind kind, double past_valve_deg,
                    double plus_minus_deg);
inline constexpr double kLobeRead_deg =
    45;  ///< cam degrees: away, at the valve, the two sides are told apart

}  // namespace shutlane
