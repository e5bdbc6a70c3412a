// The rasteriser and the screen's canvas against areas known in closed form.
#include "ui/window/raster.hpp"

#include <cmath>
#include <numbers>
#include <random>

#include "tests/window/harness.hpp"
#include "ui/window/concave_fill.hpp"

namespace shutlane {
namespace {

constexpr int kSide = 200;

/// Draws with the canvas into a white-on-black picture and gives the share of white, in pixels.
template <class Draw>
double white_pixels(Draw draw) {
  ImGuiContext* before = ImGui::GetCurrentContext();
  double sum = 0;
  {
    FontBook fonts;
    ImGuiContext* context = ImGui::CreateContext();
    ImGui::SetCurrentContext(context);
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = {kSide, kSide};
    fonts.rebuild(*io.Fonts);
    ImGui::NewFrame();
    ScreenCanvas canvas(*ImGui::GetForegroundDrawList(), fonts);
    draw(canvas);
    ImGui::Render();
    Raster raster;
    raster.resize(kSide, kSide);
    raster.use_fonts(*io.Fonts);
    raster.draw(*ImGui::GetDrawData(), 0xff000000u);
    for (int i = 0; i < kSide * kSide; ++i) sum += (raster.pixels()[i] & 255) / 255.0;
    ImGui::DestroyContext(context);
  }
  ImGui::SetCurrentContext(before);
  return sum;
}

constexpr Colour kWhite{255, 255, 255};

TEST(ScreenCanvas, BoxesAreExact) {
  EXPECT_EQ(white_pixels([](Canvas& c) { c.fill_box({10, 20, 50, 30}, kWhite, 0); }), 1500);
  EXPECT_NEAR(white_pixels([](Canvas& c) {
                c.fill_box({10, 20, 50, 30}, {255, 255, 255, 128}, 0);
              }),
              1500 * 128 / 255.0, 5);
}

TEST(ScreenCanvas, CirclesAndRings) {
  // Soft edges add half a pixel all round at most.
  const double round = 2 * std::numbers::pi * 60;
  EXPECT_NEAR(white_pixels([](Canvas& c) {
                c.fill_circle({100, 100}, 60, kWhite);
              }),
              std::numbers::pi * 3600, round * 0.6);
  EXPECT_NEAR(white_pixels([](Canvas& c) {
                c.stroke_circle({100, 100}, 60, {kWhite, 6, 0});
              }),
              round * 6, round * 0.6);
  EXPECT_NEAR(white_pixels([](Canvas& c) {
                c.stroke_circle({100, 100}, 60, {kWhite, 6, 10});
              }),
              round * 3, round * 0.6);
}

TEST(ScreenCanvas, DashesAreHalfTheLine) {
  const std::vector<Point> bent{{20, 20}, {180, 20}, {180, 180}};
  EXPECT_NEAR(white_pixels([&](Canvas& c) { c.line(bent, {kWhite, 4, 0}); }), 320 * 4, 60);
  EXPECT_NEAR(white_pixels([&](Canvas& c) { c.line(bent, {kWhite, 4, 8}); }), 160 * 4, 60);
}

/// A line that doubles back is drawn whole.
TEST(ScreenCanvas, SpikesAreNotLost) {
  std::vector<Point> spikes;
  for (int i = 0; i < 9; ++i) spikes.push_back({20.0 + i, i % 2 ? 180.0 : 20.0});
  EXPECT_GT(white_pixels([&](Canvas& c) { c.line(spikes, {kWhite, 1, 0}); }), 800);
}

TEST(ScreenCanvas, ConcavePolygons) {
  std::vector<Point> star;
  double area = 0;
  for (int i = 0; i < 10; ++i) {
    const double r = i % 2 ? 25 : 80, a = 0.3 + i * std::numbers::pi / 5;
    star.push_back({100 + r * std::cos(a), 100 + r * std::sin(a)});
  }
  for (size_t i = 0; i < star.size(); ++i) {  // shoelace
    const Point p = star[i], q = star[(i + 1) % star.size()];
    area += (p.x * q.y - q.x * p.y) / 2;
  }
  EXPECT_NEAR(white_pixels([&](Canvas& c) { c.fill(star, kWhite); }), area, 450);
  std::reverse(star.begin(), star.end());
  EXPECT_NEAR(white_pixels([&](Canvas& c) { c.fill(star, kWhite); }), area, 450);
}

TEST(EarClipping, TrianglesCoverRandomStars) {
  const char* given = std::getenv("SHUTLANE_SEED");
  const unsigned seed = given ? static_cast<unsigned>(std::strtoul(given, nullptr, 10)) : 7;
  SCOPED_TRACE("SHUTLANE_SEED=" + std::to_string(seed));
  std::mt19937 random(seed);
  std::uniform_real_distribution<float> radius(10, 100);
  for (int trial = 0; trial < 200; ++trial) {
    std::vector<ImVec2> p;
    const int n = 3 + trial % 30;
    for (int i = 0; i < n; ++i) {
      const float a = 6.2831853f * static_cast<float>(i) / static_cast<float>(n), r = radius(random);
      p.push_back({r * std::cos(a), r * std::sin(a)});
    }
    auto area = [](ImVec2 a, ImVec2 b, ImVec2 c) {
      return ((b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)) / 2;
    };
    float whole = 0, parts = 0;
    for (size_t i = 0; i < p.size(); ++i) whole += area({0, 0}, p[i], p[(i + 1) % p.size()]);
    const std::vector<int> t = ear_clipped(p);
    ASSERT_EQ(t.size(), 3 * (p.size() - 2)) << "trial " << trial;
    for (size_t i = 0; i < t.size(); i += 3)
      parts += area(p[static_cast<size_t>(t[i])], p[static_cast<size_t>(t[i + 1])],
                    p[static_cast<size_t>(t[i + 2])]);
    EXPECT_NEAR(parts, whole, 0.01f * whole);
  }
}

/// The same session gives the same bytes.
TEST(Picture, IsTheSameEachTime) {
  auto drawn = [] {
    Harness h(1280, 720, false);
    h.open("v8-cross-plane");
    const Raster r = h.picture();
    return std::vector<std::uint32_t>(r.pixels(), r.pixels() + 1280 * 720);
  };
  EXPECT_EQ(drawn(), drawn());
}

}  // namespace
}  // namespace shutlane
