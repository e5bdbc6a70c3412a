// Committed pictures of whole frames. They are looked at by people and renewed on purpose:
//   SHUTLANE_RENEW=1 build/release/window_tests --gtest_filter='Golden*'    writes them anew into
//   tests/window/golden
// A difference is written beside the program as golden-NAME.png. Tolerance: one pixel in five hundred may
// differ by more than 24 of 255 in a channel, for fonts of another package version; on one machine they are
// equal.
#include <cairo.h>

#include <cstdlib>
#include <filesystem>

#include "tests/window/harness.hpp"

namespace shutlane {
namespace {

constexpr int kWidth = 960, kHeight = 540;

void compare(Harness& h, const std::string& name) {
  const Raster drawn = h.picture();
  const std::string path = std::string(SHUTLANE_SOURCE) + "/tests/window/golden/" + name + ".png";
  if (std::getenv("SHUTLANE_RENEW")) {
    std::filesystem::create_directories(std::filesystem::path(path).parent_path());
    ASSERT_EQ(write_png(drawn, path), std::nullopt);
    return;
  }
  cairo_surface_t* golden = cairo_image_surface_create_from_png(path.c_str());
  ASSERT_EQ(cairo_surface_status(golden), CAIRO_STATUS_SUCCESS) << path << " is missing";
  const int width = cairo_image_surface_get_width(golden), height = cairo_image_surface_get_height(golden);
  ASSERT_EQ(width, kWidth);
  ASSERT_EQ(height, kHeight);
  int differing = 0;
  for (int y = 0; y < height; ++y) {
    const auto* row = reinterpret_cast<const std::uint32_t*>(cairo_image_surface_get_data(golden) +
                                                             y * cairo_image_surface_get_stride(golden));
    for (int x = 0; x < width; ++x) {
      const std::uint32_t now = drawn.pixels()[y * width + x];
      auto part = [](std::uint32_t c, int shift) { return static_cast<int>((c >> shift) & 255); };
      int most = 0;
      for (const int k : {0, 8, 16})  // cairo keeps red in the high byte
        most = std::max(most, std::abs(part(now, k) - part(row[x], 16 - k)));
      differing += most > 24 ? 1 : 0;
    }
  }
  cairo_surface_destroy(golden);
  EXPECT_LE(differing, width * height / 500);
  if (differing > width * height / 500) write_png(drawn, "golden-" + name + ".png");
}

TEST(Golden, SixAtWork) {
  Harness h(kWidth, kHeight, false);
  h.open("inline-six");
  h.log(MarkRead{35, 2});
  for (const int port : {3, 6}) h.log(LookedInto{port, Saw::open});
  h.log(ChalkSeen{true});
  h.log(LookedInto{1, Saw::shut});
  h.log(BlastStarted{1});
  h.log(PortDone{1});
  h.log(ChalkSeen{true});
  h.log(LookedInto{2, Saw::shut});
  h.log(LookedInto{4, Saw::hidden});
  compare(h, "six-at-work");
}

TEST(Golden, EightToLookInto) {
  Harness h(kWidth, kHeight, false);
  Preferences light;
  light.theme = Theme::light;
  h.open("v8-cross-plane", light);
  h.log(MarkRead{35, 2});
  h.log(LookedInto{4, Saw::open});
  compare(h, "eight-to-look-into");
}

TEST(Golden, FirstPage) {
  Harness h(kWidth, kHeight, false);
  h.click("6");
  compare(h, "first-page");
}

}  // namespace
}  // namespace shutlane
