#pragma once
// The crank train in true geometry, in the plane seen from the pulley end: x to the right, y up, millimetres,
// the crank axis at the origin. Pins stand by their angles, pistons where rod and bore put them.
#include <glm/mat2x2.hpp>
#include <glm/vec2.hpp>
#include <vector>

#include "sim/mechanism/engine.hpp"

namespace shutlane {

/// +1 when the crank turns clockwise seen from the pulley end, -1 otherwise.
double turning(const Engine& engine);

/// The direction `clockwise_deg` from upright, exact at multiples of 90 degrees.
glm::dvec2 clock_direction(double clockwise_deg);

/// Columns: across the bore (the side to which a positive tilt leans), along the bore. Takes bore coordinates
/// to the front view.
glm::dmat2 bore_frame(double tilt_deg);

struct CylinderPose {
  int number = 0;
  double local_deg = 0;       ///< [0, 720)
  double bore_across_mm = 0;  ///< the bore axis beside the crank axis, in bore coordinates
  glm::dvec2 crank_pin{};     ///< front view
  glm::dvec2 piston_pin{};    ///< front view
  double below_top_mm = 0;    ///< piston below its true top, from the drawn points alone
  glm::dmat2 frame{1.0};
  /// Front view points as bore coordinates: (across, along).
  glm::dvec2 in_bore(glm::dvec2 front) const;
};

/// One cylinder at a cycle angle (any finite angle, degrees).
CylinderPose pose_of(const Engine& engine, const Cylinder& cylinder, double crank_deg);

/// All cylinders, in number order.
std::vector<CylinderPose> poses_of(const Engine& engine, double crank_deg);

/// Crank pins that share a place (within 1e-3 of the radius), each with its cylinders in number order.
struct SharedPin {
  glm::dvec2 at{};
  std::vector<int> cylinders;
};
std::vector<SharedPin> shared_pins(const std::vector<CylinderPose>& poses);

}  // namespace shutlane
