// Exactness at the wraps and the 1e-6 degree that counts as equal (contract, section 1).
#include <limits>

#include "sim/cycle/arc_set.hpp"
#include "sim/cycle/trig.hpp"

namespace shutlane {
namespace {

TEST(Angles, QuadrantsStayExactOverManyTurns) {
  for (int turn = -2000; turn <= 2000; ++turn)
    for (const double a : {0.0, 90.0, 180.0, 360.0, 540.0, 719.75})
      EXPECT_EQ(wrap_deg(a + 720.0 * turn), a) << turn;
  EXPECT_EQ(wrap_deg(720), 0);
  EXPECT_EQ(wrap_deg(-720), 0);
  EXPECT_EQ(wrap_deg(1e6), 640);  // 1e6 = 1388 * 720 + 640
  EXPECT_EQ(wrap_deg(-1e6), 80);
}

TEST(Angles, NeverReturnsTheOpenEndOrMinusZero) {
  EXPECT_EQ(wrap_deg(-1e-300), 0);
  EXPECT_LT(wrap_deg(-std::numeric_limits<double>::denorm_min()), 720);
  EXPECT_FALSE(std::signbit(wrap_deg(-0.0)));
  EXPECT_FALSE(std::signbit(wrap_deg(-720.0)));
  EXPECT_LT(wrap_deg(std::nextafter(720.0, 0.0)), 720);
}

TEST(Angles, ForwardIsNeverBackward) {
  EXPECT_EQ(forward_deg(0, 0), 0);
  EXPECT_EQ(forward_deg(700, 20), 40);
  EXPECT_EQ(forward_deg(20, 700), 680);
  EXPECT_EQ(forward_deg(360, 0), 360);
}

TEST(Angles, SineAndCosineAreExactAtQuadrants) {
  const double sines[] = {0, 1, 0, -1};
  for (int quarter = 0; quarter <= 16; ++quarter) {
    EXPECT_EQ(sin_deg(90.0 * quarter), sines[quarter % 4]);
    EXPECT_EQ(cos_deg(90.0 * quarter), sines[(quarter + 1) % 4]);
    if (quarter % 2 == 0) {
      EXPECT_FALSE(std::signbit(sin_deg(90.0 * quarter))) << quarter;  // nobody wants to read -0
    }
  }
  for (double a = -1000; a < 1000; a += 7.3) {
    EXPECT_NEAR(sin_deg(a), std::sin(a * std::acos(-1.0) / 180), 1e-14);
    EXPECT_NEAR(cos_deg(a), std::cos(a * std::acos(-1.0) / 180), 1e-14);
  }
}

TEST(ArcWraps, EndsAtTheWrapBelongToTheArc) {
  const ArcSet last({{700, 20}}), first({{0, 20}}), over({{700, 40}});
  EXPECT_TRUE(last.contains(0));
  EXPECT_TRUE(last.contains(720));
  EXPECT_TRUE(first.contains(0));
  EXPECT_TRUE(first.contains(720));
  EXPECT_FALSE(first.contains(719));
  for (const double a : {700.0, 719.0, 0.0, 20.0, 740.0, -20.0}) EXPECT_TRUE(over.contains(a)) << a;
  EXPECT_FALSE(over.contains(360));
}

TEST(ArcWraps, TouchingArcsMergeAcrossTheWrap) {
  const ArcSet set({{0, 20}, {700, 20}});
  ASSERT_EQ(set.arcs().size(), 1U);
  EXPECT_EQ(set.arcs()[0], (Arc{700, 40}));
  EXPECT_EQ(set.complement().arcs(), (std::vector<Arc>{{20, 680}}));
  EXPECT_EQ(ArcSet({{0, 360}, {360, 360}}).arcs(), (std::vector<Arc>{{0, 720}}));
  EXPECT_EQ(ArcSet({{180, 720}}).arcs(), (std::vector<Arc>{{0, 720}}));
  EXPECT_EQ(ArcSet({{540, 480}, {300, 240}}).arcs(), (std::vector<Arc>{{0, 720}}));
  EXPECT_EQ(ArcSet({{720, 10}}).arcs(), (std::vector<Arc>{{0, 10}}));
}

TEST(ArcWraps, AnAngleWithinAMillionthOfAClosedEndBelongsToIt) {
  const ArcSet set({{0, 100}, {300, 100}});
  EXPECT_TRUE(set.contains(100 + 0.9e-6));
  EXPECT_FALSE(set.contains(100 + 1.1e-6));
  EXPECT_TRUE(set.contains(300 - 0.9e-6));
  EXPECT_FALSE(set.contains(300 - 1.1e-6));
  EXPECT_TRUE(set.contains(720 - 0.9e-6));
  EXPECT_FALSE(set.contains(720 - 1.1e-6));
  EXPECT_TRUE(set.covers(Arc{720 - 0.9e-6, 100}));
  EXPECT_FALSE(set.covers(Arc{720 - 1.1e-6, 50}));
  EXPECT_FALSE(set.covers(Arc{50, 300}));
}

TEST(ArcWraps, NoArcShorterThanAMillionth) {
  EXPECT_TRUE(ArcSet({{10, 0.9e-6}}).empty());
  EXPECT_FALSE(ArcSet({{10, 1.1e-6}}).empty());
  EXPECT_TRUE(ArcSet({{0, 100}}).intersected(ArcSet({{100, 100}})).empty());
  EXPECT_TRUE(ArcSet({{0, 720 - 0.5e-6}}).full());
  EXPECT_TRUE(ArcSet({{0, 100}, {100 + 0.5e-6, 100}}).arcs().size() == 1U);
  EXPECT_TRUE(ArcSet({{0, 100}, {100 + 2e-6, 100}}).arcs().size() == 2U);
  EXPECT_TRUE(ArcSet({{0, 50}}).shrunk(25).empty());
}

TEST(ArcWraps, EmptyAndWhole) {
  const ArcSet none, all = ArcSet::all();
  EXPECT_EQ(none.complement(), all);
  EXPECT_EQ(all.complement(), none);
  EXPECT_EQ(all.shrunk(100), all);
  EXPECT_EQ(none.grown(100), none);
  EXPECT_EQ(all.shifted(123), all);
  EXPECT_TRUE(all.covers(Arc{500, 720}));
  EXPECT_FALSE(none.covers(Arc{500, 0}));
  EXPECT_TRUE(none.covers(none));
  EXPECT_EQ(all.total_deg(), 720);
  EXPECT_EQ(all.arc_at(5), (Arc{0, 720}));
  EXPECT_EQ(none.arc_at(5), (Arc{0, 0}));
  EXPECT_EQ(ArcSet({{100, 700}}).grown(10).arcs(), (std::vector<Arc>{{0, 720}}));
}

}  // namespace
}  // namespace shutlane
