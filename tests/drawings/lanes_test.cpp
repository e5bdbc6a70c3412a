// The lanes drawing, read back from a recording canvas. The angles expected are those of the contract's
// example engine (its printed windows and plan), laid on the page by the plain rule of three: no code of the
// drawing is used.
#include "ui/drawings/lanes.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "tests/drawings/bundled.hpp"
#include "tests/drawings/page_record.hpp"

namespace shutlane {
namespace {

constexpr double kNear = 1e-6;

struct Lanes : testing::Test {
  Engine engine = bundled("inline-six");
  std::vector<Windows> windows = shut_windows(engine);
  Box box{10, 20, 260, 110};
  LanesView view;
  Lanes() {
    view.engine = &engine;
    view.windows = &windows;
    view.order = LaneOrder::number;
    view.text = 3.5;
  }
  const Palette& colours() const { return palette(view.theme); }
  PageRecord drawn() const {
    PageRecord canvas;
    draw_lanes(canvas, box, view);
    return canvas;
  }
};

// [from, to] of every box of a colour whose middle lies in the row, in degrees of the visible range.
std::vector<std::pair<double, double>> stretches(const PageRecord& canvas, const LanesGeometry& g, size_t row,
                                                 Colour colour, double from_deg, double to_deg) {
  std::vector<std::pair<double, double>> found;
  const double row_h = g.plot.h / 6;
  for (const DrawnBox& b : canvas.boxes) {
    const double middle = b.box.y + b.box.h / 2 - g.plot.y;
    if (!(b.colour == colour) || middle < row_h * static_cast<double>(row) ||
        middle > row_h * static_cast<double>(row + 1))
      continue;
    const auto deg = [&](double x) { return from_deg + (to_deg - from_deg) * (x - g.plot.x) / g.plot.w; };
    found.emplace_back(deg(b.box.x), deg(b.box.right()));
  }
  std::sort(found.begin(), found.end());
  return found;
}

TEST_F(Lanes, SureWindowSpansTheContractsAngles) {
  const PageRecord canvas = drawn();
  const LanesGeometry g = lay_out_lanes(view, box);
  // Cylinder 1: surely shut from 601 for 454 degrees, so to 335 of the next cycle.
  const auto sure = stretches(canvas, g, 0, colours().shut, 0, 720);
  ASSERT_EQ(sure.size(), 2u);
  EXPECT_NEAR(sure[0].first, 0, kNear);
  EXPECT_NEAR(sure[0].second, 335, kNear);
  EXPECT_NEAR(sure[1].first, 601, kNear);
  EXPECT_NEAR(sure[1].second, 720, kNear);
  // Shut as stated: from 588 for 480, to 348.
  const auto shut = stretches(canvas, g, 0, colours().shut_soft, 0, 720);
  ASSERT_EQ(shut.size(), 2u);
  EXPECT_NEAR(shut[0].second, 348, kNear);
  EXPECT_NEAR(shut[1].first, 588, kNear);
}

TEST_F(Lanes, EveryLaneIsTheFirstOneShiftedByItsFiringTdc) {
  const PageRecord canvas = drawn();
  const LanesGeometry g = lay_out_lanes(view, box);
  const double firing_tdc[] = {0, 480, 240, 600, 120, 360};  // 1-5-3-6-2-4 every 120 degrees
  for (size_t row = 0; row < 6; ++row) {
    double total = 0;
    const double opens = std::fmod(601 + firing_tdc[row], 720);
    bool begins = false;
    for (const auto& [from, to] : stretches(canvas, g, row, colours().shut, 0, 720)) {
      total += to - from;
      begins = begins || std::abs(from - opens) < kNear;
    }
    EXPECT_NEAR(total, 454, kNear) << "row " << row;
    EXPECT_TRUE(begins) << "row " << row << " should begin at " << opens;
  }
}

TEST_F(Lanes, ZoomShowsOnlyWhatIsThereAndPointsRight) {
  view.start_deg = start_deg(engine, 5, StartAt::overlap_tdc);
  EXPECT_EQ(view.start_deg, 480);
  EXPECT_EQ(start_deg(engine, 5, StartAt::firing_tdc), 120);
  EXPECT_EQ(start_deg(engine, 9, StartAt::firing_tdc), 0) << "no such cylinder";
  view.from_deg = 100;
  view.to_deg = 180;  // cycle angles 580 to 660
  const LanesGeometry g = lay_out_lanes(view, box);
  const auto sure = stretches(drawn(), g, 0, colours().shut, 580, 660);
  ASSERT_EQ(sure.size(), 1u);
  EXPECT_NEAR(sure[0].first, 601, kNear);
  EXPECT_NEAR(sure[0].second, 660, kNear);
  EXPECT_NEAR(g.crank_deg_at(g.plot.x), 580, kNear);
  EXPECT_NEAR(g.crank_deg_at(g.plot.x + g.plot.w / 2), 620, kNear);
  EXPECT_EQ(g.cylinder_at(g.plot.y + 0.5 * g.plot.h / 6), 1);
  EXPECT_EQ(g.cylinder_at(g.plot.y + 5.5 * g.plot.h / 6), 6);
  EXPECT_EQ(g.cylinder_at(g.plot.y - 1), std::nullopt);
  ASSERT_EQ(g.visible_x(620).size(), 1u);
  EXPECT_TRUE(g.visible_x(579).empty());
}

TEST_F(Lanes, TicksCountFromTheStartWhereTheyAreToldTo) {
  view.start_deg = start_deg(engine, 5, StartAt::firing_tdc);  // 120, by the firing order
  view.crank_deg = 200;
  const auto tick_x = [&](const PageRecord& canvas, const std::string& words) -> std::optional<double> {
    for (const DrawnText& t : canvas.texts)
      if (t.words == words) return t.box.x + t.box.w / 2;
    return std::nullopt;
  };
  const LanesGeometry g = lay_out_lanes(view, box);
  const PageRecord crank = drawn();
  EXPECT_NEAR(tick_x(crank, "360°").value(), g.plot.x + g.plot.w * 240 / 720, kNear);
  EXPECT_TRUE(tick_x(crank, "now 200°").has_value());
  view.count_from_start = true;
  const PageRecord counted = drawn();
  EXPECT_NEAR(tick_x(counted, "0°").value(), g.plot.x, kNear);
  EXPECT_NEAR(tick_x(counted, "360°").value(), g.plot.x + g.plot.w / 2, kNear);
  EXPECT_NEAR(tick_x(counted, "720°").value(), g.plot.right(), kNear);
  EXPECT_TRUE(tick_x(counted, "now 80°").has_value());
}

TEST_F(Lanes, PanningBeyondTheCycleWrapsAround) {
  const LanesGeometry whole = lay_out_lanes(view, box);
  EXPECT_EQ(whole.visible_x(0).size(), 2u) << "0 and 720 are both on the page";
  view.from_deg = -360;
  view.to_deg = 360;
  const LanesGeometry g = lay_out_lanes(view, box);
  double total = 0;
  for (const auto& [from, to] : stretches(drawn(), g, 0, colours().shut, -360, 360)) total += to - from;
  EXPECT_NEAR(total, 454, kNear);
  ASSERT_EQ(g.visible_x(601).size(), 1u);
  EXPECT_NEAR(g.visible_x(601)[0], g.plot.x + g.plot.w * (601 - 720 + 360) / 720, kNear);
}

TEST_F(Lanes, CrankAndPositionsStandAtTheContractsAngles) {
  WrenchQuestion q;
  q.from_deg = 35;
  q.left = {1, 2, 3, 4, 5, 6};
  const WrenchPlan plan = plan_wrench(windows, q);
  view.plan = &plan;
  view.crank_deg = 35;
  const PageRecord canvas = drawn();
  const LanesGeometry g = lay_out_lanes(view, box);
  const auto x = [&](double deg) { return g.plot.x + g.plot.w * deg / 720; };
  const auto upright_at = [&](double deg, Colour colour) {
    return std::any_of(canvas.lines.begin(), canvas.lines.end(), [&](const DrawnLine& l) {
      return l.stroke.colour == colour && l.points.size() == 2 && std::abs(l.points[0].x - x(deg)) < kNear &&
             std::abs(l.points[1].x - x(deg)) < kNear && std::abs(l.points[1].y - l.points[0].y) > g.plot.h;
    });
  };
  EXPECT_TRUE(upright_at(35, colours().crank));
  EXPECT_TRUE(upright_at(395, colours().position));
  EXPECT_FALSE(upright_at(395, colours().crank));
  // The range of the turn: from 35 + 206 to 35 + 540.
  EXPECT_TRUE(std::any_of(canvas.lines.begin(), canvas.lines.end(), [&](const DrawnLine& l) {
    return l.points.size() == 2 && std::abs(l.points[0].x - x(241)) < kNear &&
           std::abs(l.points[1].x - x(575)) < kNear;
  }));
  // A disc on every lane worked at a position, and on no other.
  const auto discs = [&](Colour colour) {
    std::vector<int> rows;
    for (const DrawnCircle& c : canvas.circles)
      if (c.colour == colour) rows.push_back(static_cast<int>((c.centre.y - g.plot.y) / (g.plot.h / 6)) + 1);
    std::sort(rows.begin(), rows.end());
    return rows;
  };
  EXPECT_EQ(discs(colours().crank), (std::vector<int>{1, 2, 4, 5}));
  EXPECT_EQ(discs(colours().position), (std::vector<int>{3, 6}));
}

TEST_F(Lanes, WhatIfNeedleIsHollowAndGivesNoAdvice) {
  view.what_if_deg = 200;
  const PageRecord canvas = drawn();
  size_t uprights = 0;
  for (const DrawnLine& l : canvas.lines)
    if (l.stroke.colour == colours().what_if && l.points.size() == 2) ++uprights;
  EXPECT_EQ(uprights, 2u);
  for (const DrawnCircle& c : canvas.circles) EXPECT_FALSE(c.colour == colours().crank);
}

// Of an unknown crank, or of one that stands elsewhere, a plan from the needle claims nothing.
TEST_F(Lanes, PlanFromTheNeedleSaysSo) {
  WrenchQuestion q;
  q.from_deg = 35;
  q.left = {1, 2, 3, 4, 5, 6};
  const WrenchPlan plan = plan_wrench(windows, q);
  view.plan = &plan;
  const auto says = [](const PageRecord& canvas, const std::string& words) {
    return std::any_of(canvas.texts.begin(), canvas.texts.end(),
                       [&](const DrawnText& t) { return t.words.find(words) != std::string::npos; });
  };
  const auto worked_now = [&](const PageRecord& canvas) {
    return std::count_if(canvas.circles.begin(), canvas.circles.end(),
                         [&](const DrawnCircle& c) { return c.colour == colours().crank; });
  };
  for (const std::optional<double> crank_deg : {std::optional<double>{}, std::optional<double>{300}}) {
    view.crank_deg = crank_deg;
    view.what_if_deg = 35;
    const PageRecord canvas = drawn();
    EXPECT_TRUE(says(canvas, "2 from the needle: ports 3, 6"));
    EXPECT_FALSE(says(canvas, "1: now"));
    EXPECT_FALSE(says(canvas, "ports 1, 2, 4, 5"));
    EXPECT_EQ(worked_now(canvas), 0);
  }
  view.crank_deg = 35 + 720;
  const PageRecord canvas = drawn();
  EXPECT_TRUE(says(canvas, "2: ports 3, 6"));
  EXPECT_TRUE(says(canvas, "ports 1, 2, 4, 5"));
  EXPECT_FALSE(says(canvas, "needle"));
  EXPECT_EQ(worked_now(canvas), 4);
}

TEST_F(Lanes, BeliefIsDrawnAsItIs) {
  const ArcSet belief({{700, 40}, {100, 5}});
  view.belief = &belief;
  const PageRecord canvas = drawn();
  const LanesGeometry g = lay_out_lanes(view, box);
  double width = 0;
  for (const DrawnBox& b : canvas.boxes)
    if (b.colour == colours().crank) width += b.box.w;
  EXPECT_NEAR(width * 720 / g.plot.w, 45, kNear);

  view.belief = nullptr;
  std::vector<double> weights(720, 0.0);
  weights[10] = 1;
  weights[500] = 3;
  view.belief_weights = weights;
  const PageRecord weighed = drawn();
  std::vector<DrawnBox> columns;
  for (const DrawnBox& b : weighed.boxes)
    if (b.colour == colours().crank) columns.push_back(b);
  ASSERT_EQ(columns.size(), 2u);
  EXPECT_NEAR(columns[1].box.h, 3 * columns[0].box.h, kNear);
}

TEST_F(Lanes, FanStandsWhereTheBumpMayEnd) {
  std::vector<double> weights(720, 0.0);
  weights[10] = 0.002;  // under a twentieth of the greatest: no band
  weights[300] = 0.6;
  weights[301] = 0.3;
  weights[719] = 0.098;
  view.fan_weights = weights;
  const PageRecord canvas = drawn();
  const LanesGeometry g = lay_out_lanes(view, box);
  const auto degree = [&](double x) { return 720 * (x - g.plot.x) / g.plot.w; };
  std::vector<DrawnBox> bars;
  double bands_deg = 0;
  for (const DrawnBox& b : canvas.boxes) {
    if (b.colour == colours().position) bars.push_back(b);
    if (b.colour == colours().position_soft) bands_deg += degree(b.box.right()) - degree(b.box.x);
  }
  ASSERT_EQ(bars.size(), 4u);
  const double expected_deg[] = {10, 300, 301, 719};
  for (size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(degree(bars[i].box.x), expected_deg[i], kNear);
    EXPECT_NEAR(degree(bars[i].box.right()), expected_deg[i] + 1, kNear);
    EXPECT_GE(bars[i].box.y, g.plot.bottom());  // under the lanes, never over a track
  }
  EXPECT_NEAR(bars[1].box.h, 2 * bars[2].box.h, kNear);
  EXPECT_NEAR(bands_deg, 3, kNear);  // 300 to 302 and 719 to 720
  for (const DrawnText& t : canvas.texts)
    if (t.words.ends_with("°")) {
      EXPECT_GT(t.box.y, bars[1].box.bottom()) << t.words;
    }
}

TEST_F(Lanes, OpenHumpCoversTheStatedOpeningAndNothingElse) {
  const PageRecord canvas = drawn();
  const LanesGeometry g = lay_out_lanes(view, box);
  bool found = false;
  for (const DrawnLine& p : canvas.polygons) {
    if (!(p.stroke.colour == colours().open_soft) || p.points.front().y > g.plot.y + g.plot.h / 6) continue;
    found = true;  // cylinder 1's: off the seat from 348 to 588
    EXPECT_NEAR(p.points.front().x, g.plot.x + g.plot.w * 348 / 720, kNear);
    EXPECT_NEAR(p.points.back().x, g.plot.x + g.plot.w * 588 / 720, kNear);
    const auto top =
        std::min_element(p.points.begin(), p.points.end(), [](Point a, Point b) { return a.y < b.y; });
    EXPECT_NEAR(top->x, g.plot.x + g.plot.w * 468 / 720, g.plot.w * 5 / 720)
        << "peak half way between the events";
  }
  EXPECT_TRUE(found);
}

TEST_F(Lanes, EveryClipIsTakenOffAgain) {
  view.what_if_deg = 10;
  view.hover_deg = 20;
  EXPECT_EQ(drawn().open_clips(), 0);
}

}  // namespace
}  // namespace shutlane
