#pragma once
// What the four plots of a bump have in common: scales, grid, headings, the line at an instant.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "ui/drawings/bump_curves.hpp"

namespace shutlane::bump_plots {

using Plot = BumpCurvesGeometry::Plot;
using Value = std::function<double(const BumpSample&)>;

/// Of a plot's scale; zero lies in it.
struct Range {
  double low = 0, high = 1;
};

inline constexpr double kPsiPerBar = 14.503773773;   // 1 psi = 6894.757293 Pa
inline constexpr double kLbFtPerNm = 0.73756214928;  // 1 lbf = 4.4482216153 N, 1 ft = 0.3048 m

struct CurvesPen {
  Canvas& canvas;
  const BumpCurvesView& view;
  const BumpCurvesGeometry& g;
  const Palette& colours;
  double u;

  double hair() const { return 0.045 * u; }
  double thin() const { return 0.085 * u; }
  /// Bar or psi a pascal.
  double bar() const { return view.us_units ? kPsiPerBar / kPaPerBar : 1 / kPaPerBar; }
  /// N m or lb ft a newton metre.
  double torque() const { return view.us_units ? kLbFtPerNm : 1; }
  double y_of(Plot plot, const Range& r, double value) const {
    const Box& box = g.plots[plot];
    return box.bottom() - box.h * (value - r.low) / (r.high - r.low);
  }
};

/// Room for all values, at least as much as `least_span`.
Range range_of(const BumpRecord& record, const std::vector<Value>& values, double least_span);

/// Samples as points, leaving out what no eye can tell from its neighbour.
std::vector<Point> points_of(const CurvesPen& pen, Plot plot, const Range& range, const Value& value);

/// The press as a band, seconds and values as hairlines with their numbers.
void draw_grid(const CurvesPen& pen, Plot plot, const Range& range);

struct HeadPart {
  std::string words;
  Colour colour;
  Weight weight = Weight::regular;
  std::optional<Stroke> sample;  ///< a short piece of the line before the words
};
/// One line over the plot, made smaller where it does not fit.
void draw_head(const CurvesPen& pen, Plot plot, const std::vector<HeadPart>& parts);

/// The line at the instant, and a ring on each curve.
void draw_now(const CurvesPen& pen, Plot plot, const Range& range, const std::vector<Value>& values);

/// With a true minus and no minus zero.
std::string number(double value, int digits);

}  // namespace shutlane::bump_plots
