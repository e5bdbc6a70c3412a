#pragma once
// The parts of a cutaway, each drawn from geometry in millimetres through one transform to the canvas.
#include <glm/mat2x2.hpp>
#include <glm/mat3x3.hpp>
#include <glm/vec2.hpp>
#include <span>
#include <vector>

#include "sim/shut/windows.hpp"
#include "ui/drawings/canvas.hpp"
#include "ui/drawings/crank_train.hpp"
#include "ui/drawings/cylinder_shape.hpp"
#include "ui/drawings/palette.hpp"

namespace shutlane {

Colour blended(Colour a, Colour b, double part_of_b);

/// Front view millimetres to canvas units: uniform scale, y turned over.
class Projection {
 public:
  Projection() = default;
  Projection(Point origin, double per_mm);
  /// The largest that brings [low, high] (front view) into the box, centred.
  static Projection fitting(Box box, glm::dvec2 low, glm::dvec2 high);
  Point operator()(glm::dvec2 front) const;
  double per_mm() const { return per_mm_; }

 private:
  glm::dmat3 matrix_{1.0};
  double per_mm_ = 1;
};

enum class Depth { front, behind };  ///< behind: outlines only

/// What the parts are drawn on and with.
struct CutStage {
  Canvas& canvas;
  const Palette& p;
  Projection to;
  double hairline = 1;  ///< width of a thin line, canvas units
  Colour metal() const { return blended(p.panel, p.dim_text, 0.28); }
  Colour bright_metal() const { return blended(p.panel, p.dim_text, 0.62); }
};

void draw_bore(const CutStage& stage, const CylinderPose& pose, const CylinderShape& shape);
void draw_head(const CutStage& stage, const CylinderPose& pose, const CylinderShape& shape,
               std::span<const ValveShape> valves, ShutState state);
void draw_valves(const CutStage& stage, const CylinderPose& pose, const CylinderShape& shape,
                 std::span<const ValveShape> valves, ShutState state);
void draw_piston(const CutStage& stage, const CylinderPose& pose, const CylinderShape& shape, Depth depth);
void draw_rod(const CutStage& stage, const CylinderPose& pose, const CylinderShape& shape, Depth depth);
/// The web from the crank axis to a pin, with its counterweight.
void draw_web(const CutStage& stage, glm::dvec2 pin, double counterweight_mm);
/// A round arrow, the way the crank turns.
void draw_rotation(Canvas& canvas, Point centre, double radius, bool clockwise, Stroke stroke);

}  // namespace shutlane
