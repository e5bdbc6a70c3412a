#pragma once
// The shape of one cylinder in bore coordinates (across, along; millimetres, the crank axis at the origin):
// deck, roof, piston, valves and lobes. Bore, stroke, rod, offset, chamber volume and lift are the engine's;
// what a file does not state (piston height, valve length, lobe size, which side the intake is on) follows
// from the bore so that it looks right.
#include <glm/vec2.hpp>
#include <vector>

#include "sim/mechanism/engine.hpp"

namespace shutlane {

struct CylinderShape {
  double bore_mm = 0;
  double axis_mm = 0;         ///< the bore axis, across
  double deck_mm = 0;         ///< the head's face, along: just above the piston's crown at top dead centre
  double wall_foot_mm = 0;    ///< lower end of the bore
  double wall_mm = 0;         ///< thickness of the bore's wall
  double roof_mm = 0;         ///< ridge of the chamber above the deck; the roof holds the clearance volume
  double roof_deg = 0;        ///< slope of either side of the roof
  double crown_mm = 0;        ///< piston crown above its pin
  double skirt_mm = 0;        ///< foot of the skirt below its pin
  double head_half_mm = 0;    ///< half the width of the head
  double head_height_mm = 0;  ///< of the head above the deck
  double lobe_mm = 0;         ///< radius of a lobe's base circle
  double top_mm = 0;          ///< nothing is drawn above
  double foot_mm = 0;         ///< nor below (negative: under the crank axis)
  int intake_side = -1;       ///< -1: towards negative across
};
CylinderShape shape_of(const Engine& engine, const Cylinder& cylinder);

/// A valve with its lift at a local angle, in bore coordinates.
struct ValveShape {
  ValveKind kind = ValveKind::intake;
  size_t train = 0;  ///< index into Engine::trains
  double lift_mm = 0;
  glm::dvec2 seat{};     ///< middle of the closed head's face
  glm::dvec2 away{};     ///< unit, from the chamber up the stem
  double radius_mm = 0;  ///< of the head
  double length_mm = 0;  ///< face to the end of the stem
  glm::dvec2 cam_centre{};
  std::vector<glm::dvec2>
      lobe;  ///< closed outline; where it meets the stem's axis it is exactly one lift out
};

/// One valve for each train of the cylinder, intake first, file order.
std::vector<ValveShape> valves_of(const Engine& engine, const Cylinder& cylinder, const CylinderShape& shape,
                                  double local_deg);

}  // namespace shutlane
