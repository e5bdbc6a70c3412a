#pragma once
// Whole A4 pages, written to a file: what `shutlane draw` makes and a workshop pins to the wall.
#include <optional>
#include <string>
#include <vector>

#include "sim/cranking/heaps.hpp"
#include "sim/cranking/record.hpp"
#include "sim/plan/wrench.hpp"
#include "ui/drawings/lanes.hpp"

namespace shutlane {

enum class PageKind {
  lanes,  ///< every cylinder over 720 degrees, with the plan; landscape
  dial,   ///< the valve-timing circle of one cylinder; portrait
  lift,   ///< lift and velocity of one cylinder's valves; landscape
  bump,   ///< one bump over time: speed, angle, pressures, torques; landscape
};

/// What one press of the starter from `from_deg` does to the crank.
struct PressFan {
  double press_s = 0;
  double advance_p05_deg = 0, advance_p95_deg = 0;  ///< nine bumps in ten carry the crank on by so much
  std::vector<double> weights;                      ///< of rests at each degree, 720 of them, summing to 1
};

/// One bump as it goes, and the model that it was reckoned with.
struct BumpCourse {
  CrankingModel model;
  BumpRecord record;
  std::vector<Heap> rests{};  ///< where most bumps of that press end, degrees on from where they began
};

struct PageRequest {
  PageKind kind = PageKind::lanes;
  std::optional<double> from_deg;  ///< where the crank stands, any finite angle; without it no plan is drawn
  double plus_minus_deg = 0;       ///< 0..360
  double margin_deg = kDefaultMargin_deg;      ///< 0..360
  double accuracy_deg = kDefaultAccuracy_deg;  ///< 0..360
  std::optional<int> cylinder;  ///< dial, lift and bump; default: the lowest number, of a bump none. Must be
                                ///< one of the engine's
  std::optional<PressFan> fan;  ///< lanes, with from_deg: the next move is this bump, not a turn
  std::optional<BumpCourse> bump;  ///< the page bump needs it
  std::vector<int> done;           ///< ports already blasted: not planned again
  std::vector<int> only;           ///< limits what is left; empty: all
  LaneOrder order = LaneOrder::firing;
  Theme theme = Theme::light;
};

/// Draws one page to `path`, whose ending names the format (.pdf, .svg or .png). The same request gives the
/// same bytes. The page is written beside `path` and renamed, so that no half-written file is left. nullopt
/// when all went well, otherwise one line that says what is wrong.
std::optional<std::string> draw_page(const Engine& engine, const PageRequest& request,
                                     const std::string& path);

}  // namespace shutlane
