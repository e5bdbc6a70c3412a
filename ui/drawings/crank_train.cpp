#include "ui/drawings/crank_train.hpp"

#include <cmath>
#include <glm/geometric.hpp>
#include <glm/matrix.hpp>

#include "sim/cycle/trig.hpp"

namespace shutlane {

double turning(const Engine& engine) { return engine.spec.layout.rotation == Rotation::clockwise ? 1.0 : -1.0; }

glm::dvec2 clock_direction(double clockwise_deg) { return {sin_deg(clockwise_deg), cos_deg(clockwise_deg)}; }

glm::dmat2 bore_frame(double tilt_deg) {
  const glm::dvec2 along = clock_direction(tilt_deg);
  return {glm::dvec2(along.y, -along.x), along};
}

glm::dvec2 CylinderPose::in_bore(glm::dvec2 front) const { return glm::transpose(frame) * front; }

CylinderPose pose_of(const Engine& engine, const Cylinder& cylinder, double crank_deg) {
  // Cylinder 1's pin leads; every other pin keeps its angle from it, as the pins of a real crankshaft do.
  const Cylinder& first = *engine.find(1);
  const double d = turning(engine);
  const SliderCrank& c = cylinder.crank;
  const double pin_1_deg = first.tilt_deg + d * (first.crank.top_dead_centre_deg() + crank_deg);

  CylinderPose pose;
  pose.number = cylinder.number;
  pose.local_deg = cylinder.local_deg(crank_deg);
  pose.frame = bore_frame(cylinder.tilt_deg);
  pose.bore_across_mm = d * c.offset_mm;
  pose.crank_pin = c.crank_radius_mm * clock_direction(pin_1_deg + d * cylinder.crank_pin_deg);
  const glm::dvec2 pin = pose.in_bore(pose.crank_pin);
  const double lean_mm = pin.x - pose.bore_across_mm;
  const double along_mm = pin.y + std::sqrt(c.rod_mm * c.rod_mm - lean_mm * lean_mm);
  pose.piston_pin = pose.frame * glm::dvec2(pose.bore_across_mm, along_mm);
  const double reach_mm = c.rod_mm + c.crank_radius_mm;
  pose.below_top_mm = std::sqrt(reach_mm * reach_mm - c.offset_mm * c.offset_mm) - along_mm;
  return pose;
}

std::vector<CylinderPose> poses_of(const Engine& engine, double crank_deg) {
  std::vector<CylinderPose> poses;
  for (const Cylinder& cylinder : engine.cylinders) poses.push_back(pose_of(engine, cylinder, crank_deg));
  return poses;
}

std::vector<SharedPin> shared_pins(const std::vector<CylinderPose>& poses) {
  std::vector<SharedPin> pins;
  for (const CylinderPose& pose : poses) {
    const double near_mm = 1e-3 * glm::length(pose.crank_pin);
    bool found = false;
    for (SharedPin& pin : pins)
      if (glm::distance(pin.at, pose.crank_pin) <= near_mm) {
        pin.cylinders.push_back(pose.number);
        found = true;
        break;
      }
    if (!found) pins.push_back({pose.crank_pin, {pose.number}});
  }
  return pins;
}

}  // namespace shutlane
