// The drawn mechanism against the slider-crank that computes: the drawing places pins by their angles from
// cylinder 1's pin and pistons by rod and bore alone, the simulator goes from each cylinder's own dead
// centre.
#include "ui/drawings/crank_train.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <glm/geometric.hpp>

#include "sim/cycle/trig.hpp"
#include "tests/drawings/demo_engines.hpp"
#include "ui/drawings/cylinder_shape.hpp"

namespace shutlane {
namespace {

constexpr double kSame_mm = 1e-9;  // rounding of a handful of operations on lengths of some 100 mm

TEST(CrankTrain, RodsKeepTheirLengthAndPistonsTheirPlace) {
  for (const EngineSpec& spec : demo::all_specs()) {
    const Engine engine = demo::built(spec);
    for (double crank_deg = -720; crank_deg <= 1440; crank_deg += 7.3)
      for (size_t i = 0; i < engine.cylinders.size(); ++i) {
        const Cylinder& cylinder = engine.cylinders[i];
        const CylinderPose pose = pose_of(engine, cylinder, crank_deg);
        SCOPED_TRACE(spec.name + ", cylinder " + std::to_string(cylinder.number) + ", " +
                     std::to_string(crank_deg));
        EXPECT_NEAR(glm::distance(pose.crank_pin, pose.piston_pin), spec.cylinder.rod_mm, kSame_mm);
        EXPECT_NEAR(glm::length(pose.crank_pin), spec.cylinder.stroke_mm / 2, kSame_mm);
        EXPECT_NEAR(pose.below_top_mm, cylinder.crank.at_local(cylinder.local_deg(crank_deg)).below_top_mm,
                    kSame_mm);
        // The piston pin lies on its bore's axis, on the side to which the bank leans.
        const double t = cylinder.tilt_deg * std::acos(-1.0) / 180;
        const double offset_mm =
            spec.layout.banks[cylinder.bank].bore_offset_mm.value_or(spec.cylinder.bore_offset_mm);
        const double across_mm = pose.piston_pin.x * std::cos(t) - pose.piston_pin.y * std::sin(t);
        EXPECT_NEAR(across_mm, offset_mm, kSame_mm);
      }
  }
}

// Hand facts: at a firing TDC of cylinder 1, upright and without offset, its pin stands straight up; a
// quarter turn later it has gone to the right when the crank turns clockwise, to the left otherwise.
TEST(CrankTrain, TurnsTheWayTheEngineTurns) {
  EngineSpec spec = demo::spec("Single", {1}, {{0, {1}}});
  for (const Rotation turns : {Rotation::clockwise, Rotation::anticlockwise}) {
    spec.layout.rotation = turns;
    const Engine engine = demo::built(spec);
    const double right = turns == Rotation::clockwise ? 44.8 : -44.8;
    EXPECT_EQ(pose_of(engine, engine.cylinders[0], 0).crank_pin, glm::dvec2(0, 44.8));
    EXPECT_EQ(pose_of(engine, engine.cylinders[0], 90).crank_pin, glm::dvec2(right, 0));
    EXPECT_EQ(pose_of(engine, engine.cylinders[0], 180).crank_pin, glm::dvec2(0, -44.8));
  }
}

std::vector<std::vector<int>> pin_groups(const std::string& name) {
  std::vector<std::vector<int>> groups;
  for (const SharedPin& pin : shared_pins(poses_of(demo::named(name), 35))) groups.push_back(pin.cylinders);
  return groups;
}

// Which cylinders share a place of the crank: common practice for these layouts, no source.
TEST(CrankTrain, CylindersThatMoveTogetherShareAPlace) {
  using Groups = std::vector<std::vector<int>>;
  EXPECT_EQ(pin_groups("Inline four"), (Groups{{1, 4}, {2, 3}}));
  EXPECT_EQ(pin_groups("Inline six"), (Groups{{1, 6}, {2, 5}, {3, 4}}));
  EXPECT_EQ(pin_groups("Flat six").size(), 6u);
  EXPECT_EQ(pin_groups("V8").size(), 4u);
  EXPECT_EQ(pin_groups("V12").size(), 3u);
  EXPECT_EQ(pin_groups("Radial seven").size(), 1u);
}

TEST(CrankTrain, BoxerPistonsMeetAndPart) {
  const Engine engine = demo::named("Flat six");
  for (double crank_deg = 0; crank_deg < 720; crank_deg += 10)
    for (const auto& [left, right] : {std::pair{1, 4}, {2, 5}, {3, 6}}) {
      const auto a = pose_of(engine, *engine.find(left), crank_deg),
                 b = pose_of(engine, *engine.find(right), crank_deg);
      EXPECT_NEAR(a.piston_pin.x, -b.piston_pin.x, kSame_mm);
    }
}

TEST(CylinderShape, LobesMeetTheirStemsOneLiftOut) {
  for (const EngineSpec& spec : demo::all_specs()) {
    const Engine engine = demo::built(spec);
    const Cylinder& cylinder = engine.cylinders.back();
    const CylinderShape shape = shape_of(engine, cylinder);
    for (double local_deg = 0; local_deg < 720; local_deg += 30)
      for (const ValveShape& v : valves_of(engine, cylinder, shape, local_deg)) {
        // The outline is a closed polygon; where a ray down the stem leaves it is worked out edge by edge.
        double reach_mm = -1;
        for (size_t i = 0; i < v.lobe.size(); ++i) {
          const glm::dvec2 a = v.lobe[i] - v.cam_centre, b = v.lobe[(i + 1) % v.lobe.size()] - v.cam_centre;
          const glm::dvec2 down = -v.away, side{-down.y, down.x};
          const double sa = glm::dot(a, side), sb = glm::dot(b, side);
          if ((sa < 0) == (sb < 0) || glm::dot(a, down) < 0) continue;
          reach_mm = glm::dot(a + (b - a) * (sa / (sa - sb)), down);
        }
        EXPECT_NEAR(reach_mm, shape.lobe_mm + v.lift_mm, 1e-6) << spec.name << " " << local_deg;
      }
  }
}

TEST(CylinderShape, NosePointsAtTheValveAtPeakLiftAndTurnsAtHalfSpeed) {
  const Engine engine = demo::named("Inline six");
  const Cylinder& cylinder = engine.cylinders.front();
  const CylinderShape shape = shape_of(engine, cylinder);
  auto nose = [&](double local_deg) {
    const ValveShape v = valves_of(engine, cylinder, shape, local_deg).front();
    glm::dvec2 far{0, 0};
    for (const glm::dvec2 p : v.lobe)
      if (glm::length(p - v.cam_centre) > glm::length(far)) far = p - v.cam_centre;
    return std::pair{glm::normalize(far), v.away};
  };
  const double peak_deg = engine.trains[cylinder.intake[0]].profile.peak_deg();
  const auto [at_peak, away] = nose(peak_deg);
  EXPECT_NEAR(glm::dot(at_peak, -away), 1, 1e-9);
  // 60 crank degrees later the nose has turned 30 degrees, clockwise as the crank does.
  const auto [later, same] = nose(peak_deg + 60);
  EXPECT_NEAR(glm::dot(at_peak, later), std::cos(std::acos(-1.0) / 6), 1e-9);
  EXPECT_LT(at_peak.x * later.y - at_peak.y * later.x, 0);
}

TEST(CylinderShape, ChamberHoldsTheClearanceVolume) {
  // With the roof not at its limits: half the roof's height over the bore is the clearance.
  EngineSpec spec = demo::spec("Diesel", {1}, {{0, {1}}});
  spec.cylinder.compression_ratio = 17;
  const Engine engine = demo::built(spec);
  const CylinderShape shape = shape_of(engine, engine.cylinders[0]);
  EXPECT_NEAR(shape.roof_mm / 2, 89.6 / 16, 1e-9);
}

}  // namespace
}  // namespace shutlane
