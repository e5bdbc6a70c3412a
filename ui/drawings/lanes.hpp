#pragma once
// The lanes: one row a cylinder over the 720 degree cycle. The track of a row is solid where the port is
// surely shut, hatched where it is shut but not surely, and a hatched hump of intake lift where it is open.
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "sim/plan/wrench.hpp"
#include "ui/drawings/canvas.hpp"
#include "ui/drawings/palette.hpp"

namespace shutlane {

enum class LaneOrder { number, firing };
enum class StartAt {
  firing_tdc,
  overlap_tdc
};  ///< overlap TDC: gas exchange, where the intake stroke begins

/// The cycle angle at which a cylinder is at that dead centre, [0, 720): a start for LanesView. 0 when the
/// engine has no such cylinder.
double start_deg(const Engine& engine, int cylinder, StartAt at);

/// What the lanes show. Pointers must outlive the call; the optional ones may be null.
struct LanesView {
  const Engine* engine = nullptr;
  const std::vector<Windows>* windows = nullptr;  ///< of this engine, in number order
  const WrenchPlan* plan = nullptr;               ///< positions with the ranges of their turns
  LaneOrder order = LaneOrder::firing;
  double start_deg = 0;  ///< the cycle angle at 0 of the visible range
  double from_deg = 0;   ///< visible range, degrees after start_deg; from < to <= from + 720
  double to_deg = 720;
  std::optional<double> crank_deg;    ///< the job's crank: a solid needle
  double plus_minus_deg = 0;          ///< drawn as a band round it
  std::optional<double> what_if_deg;  ///< a hollow needle
  std::optional<double> hover_deg;    ///< a hairline
  const ArcSet* belief = nullptr;     ///< where the crank can stand: a strip under the lanes
  std::span<const double>
      belief_weights;  ///< or how likely each degree is: 720 weights >= 0, weight i for [i, i+1)
  /// Where a bump may leave the crank: 720 weights as above. A strip of heights under the lanes, and soft
  /// bands through them where it may well come to rest.
  std::span<const double> fan_weights;
  bool fan_stale = false;                ///< greyed: of an earlier question
  std::optional<double> fan_from_deg{};  ///< where that bump starts: a mark in the strip
  bool count_from_start = false;  ///< angles are written as degrees after start_deg, not as the crank's own
  bool exhaust = true;            ///< draw the exhaust lift
  bool axis = true;               ///< degrees below the lanes
  bool labels = true;             ///< "now 35°", "position 2" under the axis, brackets above
  Theme theme = Theme::light;
  double text = 12;  ///< height of a line of text, canvas units; every other size follows from it
};

/// Where things lie: for drawing, and for a pointer on it.
struct LanesGeometry {
  Box plot;  ///< the lanes themselves, without numbers, axis and labels
  double lane_height = 0;
  double text = 12;  ///< height of a line of text
  double start_deg = 0, from_deg = 0, to_deg = 720;
  std::vector<int> cylinders;  ///< top to bottom

  double x_of(double after_start_deg) const;  ///< not limited to the plot
  double crank_deg_at(double x) const;        ///< cycle angle under x, [0, 720)
  Box lane(size_t row) const;
  Box track(size_t row) const;  ///< the bar inside the lane
  std::optional<int> cylinder_at(double y) const;
  /// The x of a cycle angle where it is visible: none, one or (at both ends of a whole cycle) two.
  std::vector<double> visible_x(double crank_deg) const;
};

/// Whether the plan is reckoned from the what-if needle, where the crank does not stand or nobody knows that
/// it does: then its positions are the needle's, and none of them is worked now.
bool plan_is_what_if(const LanesView& view);

LanesGeometry lay_out_lanes(const LanesView& view, Box box);
void draw_lanes(Canvas& canvas, Box box, const LanesView& view);

}  // namespace shutlane
