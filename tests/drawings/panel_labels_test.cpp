// The drawings of Teach and Explore at the sizes that their panels have on small and large screens, for every
// bundled engine: no label lies on another or runs out of the panel. What this cannot see: labels over lines.
#include <fmt/format.h>

#include "tests/drawings/bundled.hpp"
#include "tests/drawings/page_record.hpp"
#include "ui/drawings/cutaway.hpp"
#include "ui/drawings/dial.hpp"
#include "ui/drawings/lanes_legend.hpp"
#include "ui/drawings/lift_curves.hpp"

namespace shutlane {
namespace {

struct Panel {
  double w, h, text;
};
// Rooms at 1280x720 with text at 1x and 2x, with few and with many lanes above, then at larger screens.
constexpr Panel kBelow[] = {{392, 213, 11.7}, {384, 196, 10.9}, {392, 179, 9.9},
                            {384, 164, 9.9},  {515, 310, 15.3}, {860, 460, 20.0}};
constexpr Panel kFront[] = {{275, 225, 13}, {262, 200, 16}, {345, 330, 17}, {520, 480, 22}};
constexpr Panel kRow[] = {{415, 245, 13}, {400, 220, 16}, {520, 350, 17}, {760, 520, 22}};

double in_common(double a0, double a1, double b0, double b1) { return std::min(a1, b1) - std::max(a0, b0); }

std::string complaints(const PageRecord& page, const Panel& panel, double hang_out, double least_size) {
  constexpr double touch = 0.6;  // pixels: boxes of text are a little larger than their ink
  std::string out;
  for (size_t i = 0; i < page.texts.size(); ++i) {
    const DrawnText& t = page.texts[i];
    const double size = t.box.h / 0.76;
    if (size < least_size) out += fmt::format("'{}' is only {:.1f} high\n", t.words, size);
    if (t.box.x < -hang_out || t.box.right() > panel.w + hang_out || t.box.y < -hang_out ||
        t.box.bottom() > panel.h + hang_out)
      out += fmt::format("outside: '{}' at {:.1f}, {:.1f}\n", t.words, t.box.x, t.box.y);
    for (size_t k = 0; k < i; ++k) {
      const DrawnText& o = page.texts[k];
      if (in_common(t.box.x, t.box.right(), o.box.x, o.box.right()) > touch &&
          in_common(t.box.y, t.box.bottom(), o.box.y, o.box.bottom()) > touch)
        out += fmt::format("'{}' on '{}' at {:.1f}, {:.1f}\n", t.words, o.words, t.box.x, t.box.y);
    }
  }
  return out.empty() ? out : fmt::format("{} x {}, text {}:\n{}", panel.w, panel.h, panel.text, out);
}

class PanelLabels : public testing::TestWithParam<std::string> {};

TEST_P(PanelLabels, OfTheDialStandApart) {
  const Engine engine = bundled(GetParam());
  const std::vector<Windows> windows = shut_windows(engine);
  for (const Panel& panel : kBelow)
    for (const Windows* w : {&windows.front(), &windows.back()}) {
      DialView view;
      view.engine = &engine;
      view.windows = w;
      view.what_if_deg = 35;
      view.text = panel.text;
      PageRecord page;
      draw_dial(page, {0, 0, panel.w, panel.h}, view);
      EXPECT_EQ(complaints(page, panel, 1, 8), "");
    }
}

TEST_P(PanelLabels, OfTheLiftCurvesStandApart) {
  const Engine engine = bundled(GetParam());
  for (const Panel& panel : kBelow) {
    LiftView view;
    view.engine = &engine;
    view.cylinder = engine.cylinders.back().number;
    view.what_if_deg = 35;
    view.text = panel.text;
    PageRecord page;
    draw_lift(page, {0, 0, panel.w, panel.h}, view);
    EXPECT_EQ(complaints(page, panel, 4, 8), "");
  }
}

TEST_P(PanelLabels, OfTheCutawaysStandApart) {
  const Engine engine = bundled(GetParam());
  const std::vector<Windows> windows = shut_windows(engine);
  for (double crank_deg = 0; crank_deg < 720; crank_deg += 15) {
    CutawayView view;
    view.engine = &engine;
    view.windows = &windows;
    view.crank_deg = crank_deg;
    view.selected = engine.cylinders.back().number;
    for (const Panel& panel : kFront) {
      view.text = panel.text;
      PageRecord page;
      draw_front_view(page, {0, 0, panel.w, panel.h}, view);
      EXPECT_EQ(complaints(page, panel, 0.4 * panel.text, 8), "") << "front at " << crank_deg;
    }
    for (const Panel& panel : kRow) {
      view.text = panel.text;
      PageRecord page;
      draw_cylinder_row(page, {0, 0, panel.w, panel.h}, view);
      EXPECT_EQ(complaints(page, panel, 1, 0.72 * panel.text), "") << "row at " << crank_deg;
    }
    if (HasFailure()) return;
  }
}

// Two entries a kind with lobes up to 30 degrees apart, which bring up to four labels to one dead centre.
TEST(StaggeredLobes, LabelsOfDialAndLiftStandApart) {
  for (const char* name : {"inline-five", "v4-90-anticlockwise"})
    for (const double apart_deg : {0.0, 2.0, 5.0, 12.0, 30.0})
      for (const double more_deg : {-20.0, 0.0, 25.0}) {
        EngineSpec spec = bundled(name).spec;
        ValveSpec intake = spec.valves[0], exhaust = spec.valves[0];
        for (const ValveSpec& v : spec.valves)
          if (v.kind == ValveKind::exhaust) exhaust = v;
        intake.opens_deg += more_deg;
        intake.closes_deg += more_deg;
        intake.at_lift_mm = 1;
        ValveSpec second = intake, last = exhaust;
        second.opens_deg -= apart_deg;
        second.closes_deg += apart_deg;
        second.at_lift_mm = 0.5;
        last.opens_deg += apart_deg;
        last.closes_deg -= apart_deg;
        spec.valves = {intake, second, exhaust, last};
        const auto made = build_engine(spec);
        ASSERT_TRUE(std::holds_alternative<Engine>(made));
        const Engine& engine = std::get<Engine>(made);
        const std::vector<Windows> windows = shut_windows(engine);
        for (const Panel& panel : kBelow) {
          SCOPED_TRACE(fmt::format("{}, {} apart, {} more", name, apart_deg, more_deg));
          DialView dial;
          dial.engine = &engine;
          dial.windows = &windows.front();
          dial.text = panel.text;
          PageRecord page;
          draw_dial(page, {0, 0, panel.w, panel.h}, dial);
          EXPECT_EQ(complaints(page, panel, 1, 8), "") << "dial";
          LiftView lift;
          lift.engine = &engine;
          lift.text = panel.text;
          PageRecord curves;
          draw_lift(curves, {0, 0, panel.w, panel.h}, lift);
          EXPECT_EQ(complaints(curves, panel, 4, 8), "") << "lift";
        }
      }
}

TEST(LanesLegend, ExplainsEveryMarkInsideItsLine) {
  const Engine engine = bundled("inline-six");
  const std::vector<Windows> windows = shut_windows(engine);
  WrenchQuestion question;
  question.from_deg = 35;
  question.left = {1, 2, 3, 4, 5, 6};
  const WrenchPlan plan = plan_wrench(windows, question);
  LanesView view;
  view.engine = &engine;
  view.windows = &windows;
  view.plan = &plan;
  view.crank_deg = 35;
  view.what_if_deg = 100;
  for (const double width : {560.0, 700.0, 1400.0})
    for (const double text : {13.0, 16.0, 22.0}) {
      view.text = text;
      PageRecord page;
      draw_lanes_legend(page, {10, 10, width, 1.35 * text}, view);
      std::string words;
      double last = 0;
      for (const DrawnText& t : page.texts) {
        words += t.words + "|";
        EXPECT_GE(t.box.x, last);
        last = t.box.right();
        EXPECT_LE(last, 10 + width) << width << " " << text;
      }
      EXPECT_EQ(
          words,
          "surely shut|not surely shut|open|exhaust lift|firing TDC|position from the needle, range of its "
          "turn|crank|what-if needle|");
    }
}

// 1 mm is 0.0394 in and 0.05 in are 1.27 mm: by hand, the inch being 25.4 mm.
TEST(LiftCurves, FollowTheChosenMeasures) {
  EngineSpec spec = bundled("inline-six").spec;
  for (ValveSpec& v : spec.valves) v.at_lift_mm = 1;
  const Engine engine = std::get<Engine>(build_engine(spec));
  LiftView view;
  view.engine = &engine;
  view.inches = true;
  PageRecord page;
  draw_lift(page, {0, 0, 700, 500}, view);
  const auto said = [&](const std::string& words) {
    return std::any_of(page.texts.begin(), page.texts.end(),
                       [&](const DrawnText& t) { return t.words == words; });
  };
  EXPECT_TRUE(said("check height 0.0394 in"));
  EXPECT_TRUE(said("lift, in"));
  EXPECT_TRUE(said("velocity, in per crank degree"));
  for (const DrawnText& t : page.texts) EXPECT_EQ(t.words.find("mm"), std::string::npos) << t.words;
  // The tick of 0.1 in stands where 2.54 mm of lift do.
  const LiftGeometry g = lay_out_lift(view, {0, 0, 700, 500});
  bool found = false;
  for (const DrawnText& t : page.texts)
    if (t.words == "0.1" && t.box.right() < g.lift.x && t.box.bottom() < g.lift.bottom()) {
      found = true;
      EXPECT_NEAR(t.box.y + t.box.h / 2, g.lift.bottom() - g.lift.h * 2.54 / g.most_lift_mm, 2);
    }
  EXPECT_TRUE(found);
}

TEST(LiftCurves, TheAxisHasMoreThanItsZeroAtAnySize) {
  const Engine engine = bundled("inline-six");
  for (const bool inches : {false, true})
    for (double height = 160; height <= 500; height += 20) {
      LiftView view;
      view.engine = &engine;
      view.inches = inches;
      PageRecord page;
      draw_lift(page, {0, 0, 500, height}, view);
      const LiftGeometry g = lay_out_lift(view, {0, 0, 500, height});
      const auto ticks = std::count_if(page.texts.begin(), page.texts.end(), [&](const DrawnText& t) {
        return t.box.right() < g.lift.x && t.box.bottom() < g.lift.bottom() - 1 && t.words != "0" &&
               t.words.find_first_not_of("0123456789.") == std::string::npos;
      });
      EXPECT_GE(ticks, 1) << inches << " " << height;
    }
}

std::vector<std::string> panel_engines() {
  std::vector<std::string> out;
  for (const BundledFile& f : bundled_files()) out.emplace_back(f.name);
  return out;
}
INSTANTIATE_TEST_SUITE_P(Bundled, PanelLabels, testing::ValuesIn(panel_engines()), [](const auto& which) {
  std::string name = which.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

}  // namespace
}  // namespace shutlane
