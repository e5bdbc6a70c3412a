#pragma once
// The engine cut open: crank train in true geometry with pistons, valves, ports and lobes, seen from the
// pulley end.
#include <optional>
#include <vector>

#include "sim/shut/windows.hpp"
#include "ui/drawings/canvas.hpp"
#include "ui/drawings/palette.hpp"

namespace shutlane {

/// What a cutaway shows. Pointers must outlive the call.
struct CutawayView {
  const Engine* engine = nullptr;
  const std::vector<Windows>* windows =
      nullptr;                  ///< of this engine, in number order; null: lifts alone decide
  double crank_deg = 0;         ///< any finite angle
  std::optional<int> selected;  ///< drawn in front and marked
  Theme theme = Theme::light;
  double text = 12;   ///< height of a line of text, canvas units
  bool words = true;  ///< state words, direction of rotation
};

/// The whole engine from the pulley end: banks at their tilt, crank pins and pistons with their numbers,
/// direction of rotation.
void draw_front_view(Canvas& canvas, Box box, const CutawayView& view);

/// One cylinder beside the other in number order, each turned upright.
void draw_cylinder_row(Canvas& canvas, Box box, const CutawayView& view);

/// One cylinder, large and upright. Nothing is drawn for a number that the engine has not.
void draw_cylinder(Canvas& canvas, Box box, const CutawayView& view, int number);

/// The cell of the row under a point, as a cylinder number.
std::optional<int> row_cylinder_at(Box box, const CutawayView& view, Point at);

}  // namespace shutlane
