// Cutaways stay inside their box, for every layout all the way round, and say what they show.
#include "ui/drawings/cutaway.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "tests/drawings/demo_engines.hpp"
#include "tests/drawings/page_record.hpp"
#include "tests/drawings/recording_canvas.hpp"
#include "ui/drawings/crank_train.hpp"
#include "ui/drawings/layout_icon.hpp"

namespace shutlane {
namespace {

struct Shown {
  Engine engine;
  std::vector<Windows> windows;
  CutawayView view;
  explicit Shown(Engine e) : engine(std::move(e)), windows(shut_windows(engine)) {
    view.engine = &engine;
    view.windows = &windows;
  }
};

TEST(Cutaway, StaysInItsBox) {
  for (const EngineSpec& spec : demo::all_specs()) {
    Shown shown(demo::built(spec));
    for (const Box box : {Box{10, 20, 300, 400}, {0, 0, 900, 220}, {5, 5, 160, 160}})
      for (double crank_deg = 0; crank_deg < 720; crank_deg += 40) {
        shown.view.crank_deg = crank_deg;
        RecordingCanvas front, row, one;
        draw_front_view(front, box, shown.view);
        draw_cylinder_row(row, box, shown.view);
        draw_cylinder(one, box, shown.view, shown.engine.cylinders.back().number);
        // A line's own width and a label over a bank may reach out by less than one line of text.
        EXPECT_TRUE(front.inside(box, shown.view.text)) << spec.name << " " << crank_deg;
        EXPECT_TRUE(row.inside(box, 2)) << spec.name << " " << crank_deg;
        EXPECT_TRUE(one.inside(box, 2)) << spec.name << " " << crank_deg;
        EXPECT_GT(one.shapes, 20u);
      }
  }
}

TEST(Cutaway, StateWordsFollowTheWindows) {
  Shown shown(demo::named("Inline six"));
  // The contract's own answer at 35 degrees: 1, 2, 4 and 5 surely shut, 3 and 6 open.
  shown.view.crank_deg = 35;
  RecordingCanvas row;
  draw_cylinder_row(row, {0, 0, 900, 300}, shown.view);
  EXPECT_EQ(std::count(row.words.begin(), row.words.end(), "shut"), 4);
  EXPECT_EQ(std::count(row.words.begin(), row.words.end(), "open"), 2);
  EXPECT_EQ(std::count(row.words.begin(), row.words.end(), "surely"), 4);
  // Cylinder 1 between its sure and its shut window (601 and 588): never called shut.
  shown.view.crank_deg = 595;
  RecordingCanvas between;
  draw_cylinder_row(between, {0, 0, 900, 300}, shown.view);
  EXPECT_TRUE(between.said("not surely"));
}

TEST(Cutaway, RowIsFoundUnderThePointer) {
  Shown shown(demo::named("Inline six"));
  const Box box{100, 50, 600, 200};
  EXPECT_EQ(row_cylinder_at(box, shown.view, {101, 60}), 1);
  EXPECT_EQ(row_cylinder_at(box, shown.view, {699, 240}), 6);
  EXPECT_EQ(row_cylinder_at(box, shown.view, {99, 60}), std::nullopt);
  EXPECT_EQ(row_cylinder_at(box, shown.view, {300, 251}), std::nullopt);
}

TEST(Cutaway, NoSuchCylinderDrawsNothing) {
  Shown shown(demo::named("Single"));
  RecordingCanvas canvas;
  draw_cylinder(canvas, {0, 0, 100, 100}, shown.view, 7);
  EXPECT_EQ(canvas.shapes, 0u);
}

/// Degrees clockwise on the page from `a` to `b` round a centre, (-180, 180].
double clockwise_deg(Point centre, Point a, Point b) {
  const double from = std::atan2(a.y - centre.y, a.x - centre.x),
               to = std::atan2(b.y - centre.y, b.x - centre.x);
  return std::remainder((to - from) * 180 / std::numbers::pi, 360.0);  // y grows downwards
}

// The arrow, the word and the crank that moves agree, and the head is at the end that leads: at the right for
// clockwise, where the common sign for it has it too.
TEST(Cutaway, TheArrowTurnsAsTheCrankDoesAndAsTheWordSays) {
  for (const Rotation turns : {Rotation::clockwise, Rotation::anticlockwise}) {
    EngineSpec spec = demo::named("Inline six").spec;
    spec.layout.rotation = turns;
    Shown shown(demo::built(spec));
    const double sign = turns == Rotation::clockwise ? 1 : -1;
    PageRecord page;
    draw_cylinder(page, {0, 0, 400, 500}, shown.view, 1);
    ASSERT_FALSE(page.lines.empty());
    const std::vector<Point>& arc = page.lines.back().points;  // the arrow is drawn last
    const std::vector<Point>& head = page.polygons.back().points;
    ASSERT_EQ(head.size(), 3u);
    double low_y = 1e9, low_x = 1e9, high_x = -1e9;
    for (const Point& p : arc) {
      low_y = std::min(low_y, p.y);
      low_x = std::min(low_x, p.x);
      high_x = std::max(high_x, p.x);
    }
    const double radius = (high_x - low_x) / 2;
    const Point centre{(low_x + high_x) / 2, low_y + radius};
    for (size_t i = 1; i < arc.size(); ++i) EXPECT_GT(sign * clockwise_deg(centre, arc[i - 1], arc[i]), 0);
    EXPECT_GT(sign * clockwise_deg(centre, arc.back(), head[0]), 20) << "the tip leads";
    EXPECT_GT(sign * (head[0].x - centre.x), 0.5 * radius) << "at the side towards which the top moves";
    EXPECT_GT(std::hypot(head[0].x - arc.front().x, head[0].y - arc.front().y), radius)
        << "far from the tail";
    const std::string word = turns == Rotation::clockwise ? "turns clockwise" : "turns anticlockwise";
    EXPECT_TRUE(page.texts.back().words.starts_with(word)) << page.texts.back().words;
    // The drawn crank pin, ten degrees on (front view: y grows upwards).
    const auto pin = [&](double deg) {
      const glm::dvec2 at = pose_of(shown.engine, *shown.engine.find(1), deg).crank_pin;
      return Point{at.x, -at.y};
    };
    EXPECT_NEAR(sign * clockwise_deg({0, 0}, pin(40), pin(50)), 10, 1e-6);
  }
}

TEST(LayoutIcon, NamesEveryLayout) {
  std::vector<std::string> names;
  for (const EngineSpec& spec : demo::all_specs()) names.push_back(layout_name(spec.layout));
  EXPECT_EQ(names, (std::vector<std::string>{"single", "inline three", "inline four", "inline six",
                                             "V-twin, 90°", "V8, 90°", "flat six", "V12, 60°", "W12",
                                             "narrow-angle V6, 15°", "radial seven"}));
}

TEST(LayoutIcon, StaysInItsBoxAndDrawsEveryCylinder) {
  for (const EngineSpec& spec : demo::all_specs())
    for (const Box box : {Box{0, 0, 24, 24}, {3, 4, 60, 40}}) {
      RecordingCanvas canvas;
      draw_layout_icon(canvas, box, spec.layout, {1, 2, 3}, {});
      EXPECT_TRUE(canvas.inside(box, 0.12 * box.h)) << spec.name;
      EXPECT_GE(static_cast<size_t>(std::count(canvas.fills.begin(), canvas.fills.end(), Colour{1, 2, 3})),
                spec.layout.firing_order.size() + 1);
    }
}

}  // namespace
}  // namespace shutlane
