#pragma once
// Shapes made of the canvas's own: hatches, brackets, labels, needles. Sizes in canvas units.
#include <span>
#include <string_view>
#include <vector>

#include "ui/drawings/canvas.hpp"

namespace shutlane {

enum class Hatch { rising, falling };  ///< / or \, at 45 degrees

/// Parallel lines over the inside of a polygon (even-odd), `spacing` apart, in step across neighbouring
/// polygons. Only what lies inside `visible` is drawn.
void hatch(Canvas& canvas, std::span<const Point> polygon, Hatch direction, double spacing, Stroke stroke,
           Box visible);
void hatch_box(Canvas& canvas, Box box, Hatch direction, double spacing, Stroke stroke, Box visible);

/// The corners of a box, clockwise on the page.
std::vector<Point> corners(Box box);

/// The part of a box inside another; w or h 0 when they do not meet.
Box overlap(Box a, Box b);

/// A label on a filled, rounded box centred on `centre`; gives the box.
Box draw_label(Canvas& canvas, Point centre, std::string_view utf8, double size, Colour fill, Colour text,
               Weight weight = Weight::bold);
double label_width(Canvas& canvas, std::string_view utf8, double size, Weight weight = Weight::bold);
inline constexpr double kLabelHeight = 1.45;  ///< of a label whose text has line height 1

/// A horizontal bracket |---| ; an end that is not real (cut off by the view) gets no upright.
void draw_bracket(Canvas& canvas, double x0, double x1, double y, double upright, Stroke stroke,
                  bool real_start, bool real_end);

/// Moves labels of the given widths along a line, as little as possible, so that they keep `gap` apart and
/// inside [from, to]. `centres` come in rising order and are changed. False when they cannot all fit.
bool spread_labels(std::span<double> centres, std::span<const double> widths, double from, double to,
                   double gap);

}  // namespace shutlane
