// The curves of a bump on every kind of engine and press: text stays inside its box and off other text, and a
// place on a plot is the time that is drawn there. What this cannot see: text over curves, and whether it is
// good to look at.
#include <fmt/format.h>

#include <set>

#include "sim/cranking/record.hpp"
#include "tests/drawings/bundled.hpp"
#include "tests/drawings/page_record.hpp"
#include "ui/drawings/bump_curves.hpp"

namespace shutlane {
namespace {

struct Drawn {
  CrankingModel model;
  BumpRecord record;
  BumpCurvesView view;
};

Drawn drawn(const std::string& name, double press_s, double from_deg = 35) {
  const Engine engine = bundled(name);
  Drawn d;
  d.model = std::get<CrankingModel>(cranking_model(engine));
  d.record = record_bump(d.model, from_deg, press_s);
  for (const Cylinder& c : engine.cylinders) d.view.cylinders.push_back(c.number);
  return d;
}

std::string complaints(const PageRecord& page, Box box) {
  std::string out;
  const auto shared = [](double a0, double a1, double b0, double b1) {
    return std::min(a1, b1) - std::max(a0, b0);
  };
  constexpr double kTouch = 0.3;
  for (size_t i = 0; i < page.texts.size(); ++i) {
    const DrawnText& t = page.texts[i];
    if (t.box.x < box.x - kTouch || t.box.right() > box.right() + kTouch || t.box.y < box.y - kTouch ||
        t.box.bottom() > box.bottom() + kTouch)
      out += fmt::format("outside: '{}' at {:.1f}, {:.1f}\n", t.words, t.box.x, t.box.y);
    for (size_t k = 0; k < i; ++k) {
      const DrawnText& o = page.texts[k];
      if (shared(t.box.x, t.box.right(), o.box.x, o.box.right()) > kTouch &&
          shared(t.box.y, t.box.bottom(), o.box.y, o.box.bottom()) > kTouch)
        out += fmt::format("'{}' on '{}' at {:.1f}, {:.1f}\n", t.words, o.words, t.box.x, t.box.y);
    }
  }
  return out;
}

TEST(BumpCurves, KeepTheirTextApart) {
  for (const char* name :
       {"inline-six", "inline-three", "v8-cross-plane", "v12", "radial-nine", "single", "twin-360"})
    for (const double press_s : {0.05, 0.3, 1.0})
      for (const bool us : {false, true})
        // The panel of Teach at 1280x720 and 2560x1440, and a page.
        for (const auto& [box, text] : {std::pair{Box{20, 30, 870, 210}, 13.0},
                                        {Box{20, 30, 870, 190}, 14.4},
                                        {Box{0, 0, 1760, 500}, 22.0},
                                        {Box{12, 30, 273, 150}, 3.6}}) {
          Drawn d = drawn(name, press_s);
          d.view.record = &d.record;
          d.view.model = &d.model;
          d.view.us_units = us;
          d.view.text = text;
          d.view.now_s = d.record.ends_s() / 2;
          PageRecord page;
          draw_bump_curves(page, box, d.view);
          EXPECT_EQ(complaints(page, box), "") << name << " " << press_s << " s, text " << text;
          EXPECT_EQ(page.open_clips(), 0);
        }
}

TEST(BumpCurves, APlaceIsATime) {
  Drawn d = drawn("inline-six", 0.3);
  d.view.record = &d.record;
  d.view.model = &d.model;
  const BumpCurvesGeometry g = lay_out_bump_curves(d.view, {10, 20, 800, 300});
  EXPECT_EQ(g.to_s, d.record.ends_s());
  for (const auto plot : {BumpCurvesGeometry::speed, BumpCurvesGeometry::torque}) {
    const Box& box = g.plots[plot];
    EXPECT_NEAR(g.time_at({g.x_of(plot, 0.25), box.y}).value(), 0.25, 1e-9);
    EXPECT_NEAR(g.time_at({box.right() - 1e-9, box.y}).value(), g.to_s, 1e-9);
  }
  EXPECT_EQ(g.time_at({5, 100}), std::nullopt);
}

TEST(BumpCurves, ShowTheRollBackAndTheUnits) {
  Drawn d = drawn("inline-six", 0.3);
  ASSERT_GT(d.record.rolled_back_deg, 20);
  d.view.record = &d.record;
  d.view.model = &d.model;
  d.view.text = 13;
  const auto says = [&](const std::string& words) {
    PageRecord page;
    draw_bump_curves(page, {0, 0, 900, 300}, d.view);
    for (const DrawnText& t : page.texts)
      if (t.words.find(words) != std::string::npos) return true;
    return false;
  };
  EXPECT_TRUE(says("rolls back"));
  EXPECT_TRUE(says(fmt::format("rests at {:.0f}°", d.record.advance_deg())));
  EXPECT_TRUE(says("bar"));
  EXPECT_FALSE(says("psi"));
  d.view.us_units = true;
  EXPECT_TRUE(says("psi"));
  EXPECT_TRUE(says("lb·ft"));
  EXPECT_FALSE(says("bar"));
}

// A curve that is drawn strongest says that its cylinder matters more than the others.
TEST(BumpCurves, NoPressureStandsOutUntilACylinderIsChosen) {
  Drawn d = drawn("inline-six", 0.3);
  const Box box{0, 0, 900, 300};
  const auto strengths = [&] {
    d.view.record = &d.record;
    d.view.model = &d.model;
    PageRecord page;
    draw_bump_curves(page, box, d.view);
    const Box plot = lay_out_bump_curves(d.view, box).plots[BumpCurvesGeometry::pressure];
    std::multiset<double> widths;
    for (const DrawnLine& l : page.lines)
      if (l.points.size() > 20 && l.points.front().x >= plot.x - 1 && l.points.front().y >= plot.y &&
          l.points.front().y <= plot.bottom())
        widths.insert(l.stroke.width);
    return widths;
  };
  d.view.cylinder.reset();
  const auto alike = strengths();
  EXPECT_EQ(alike.size(), 6u);
  EXPECT_DOUBLE_EQ(*alike.begin(), *alike.rbegin());
  d.view.cylinder = 3;
  const auto one_strong = strengths();
  EXPECT_EQ(one_strong.size(), 6u);
  EXPECT_EQ(one_strong.count(*one_strong.rbegin()), 1u);
  EXPECT_EQ(one_strong.count(*one_strong.begin()), 5u);
}

TEST(BumpCurves, RestsStandWhereTheScaleOfTheAngleHasThem) {
  Drawn d = drawn("inline-six", 0.3);
  d.view.record = &d.record;
  d.view.model = &d.model;
  d.view.rests = {{100, 120, 0.6}, {220, 260, 0.3}};
  PageRecord page;
  draw_bump_curves(page, {0, 0, 900, 300}, d.view);
  std::vector<Box> bands;
  for (const DrawnBox& b : page.outlines)
    if (b.colour == palette(d.view.theme).position) bands.push_back(b.box);
  ASSERT_EQ(bands.size(), 2u);
  EXPECT_NEAR(bands[1].h, 2 * bands[0].h, 1e-6);
  EXPECT_NEAR(bands[0].y - bands[1].y, 7 * bands[0].h, 1e-6);  // 120 to 260, in twenties
}

}  // namespace
}  // namespace shutlane
