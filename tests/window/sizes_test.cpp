// Every bench and page at sizes that nobody would choose: each frame is drawn, and a bench that has no room
// says so in words that stand in the window. SHUTLANE_TRIALS sizes (60 without it), seeded by SHUTLANE_SEED.
#include <cstdlib>
#include <fstream>
#include <random>

#include "tests/folder.hpp"
#include "tests/window/harness.hpp"

namespace shutlane {
namespace {

struct Size {
  int width, height;
  double dpi;
};

constexpr Page kPages[] = {Page::none,          Page::start,     Page::settings, Page::cautions,
                           Page::bump_cautions, Page::came_back, Page::job_menu};

std::string shown(const Size& s) {
  return std::to_string(s.width) + "x" + std::to_string(s.height) + " at " + std::to_string(s.dpi) + " dpi";
}

bool says_too_small(Harness& h) { return h.says("too small"); }

/// The line that says so stands whole in the window, in letters that can be read.
void expect_readable(Harness& h, const Size& size) {
  for (const TextItem& text : h.items().texts) {
    if (text.text.find("small") == std::string::npos) continue;
    EXPECT_GE(text.box.x, 0) << shown(size);
    EXPECT_GE(text.box.y, 0) << shown(size);
    EXPECT_LE(text.box.right(), size.width + 1) << shown(size);
    EXPECT_LE(text.box.bottom(), size.height + 1) << shown(size);
    EXPECT_GE(text.line_px, 10) << shown(size);
  }
}

void show(Harness& h, Bench bench, Page page) {
  h.queue(ShowBench{bench});
  h.queue(ShowPage{page});
}

/// Of all there are: every bench, and one page. Gives how many benches had no room.
int look_everywhere(Harness& h, const Size& size, Page page) {
  SCOPED_TRACE(shown(size));
  int without_room = 0;
  h.resize(size.width, size.height, size.dpi);
  for (const Bench bench : {Bench::work, Bench::teach, Bench::explore}) {
    show(h, bench, Page::none);
    h.picture();
    if (bench == Bench::work) continue;
    if (!says_too_small(h)) continue;
    ++without_room;
    expect_readable(h, size);
  }
  if (page != Page::none) {
    show(h, Bench::work, page);
    h.picture();
  }
  return without_room;
}

std::string large_engine(const Folder& folder, int cylinders) {
  std::string order, row;
  for (int i = 1; i <= cylinders; ++i) {
    order.append(i > 1 ? "," : "").append(std::to_string(i));
    row.append(i > 1 ? "," : "").append(std::to_string(cylinders + 1 - i));  // no run named by its ends
  }
  const std::string path = folder.file("large.toml");
  std::ofstream(path)
      << "format = 1\nname = \"Large\"\nsource = \"test\"\n[cylinder]\nbore_mm = 84.0\n"
         "stroke_mm = 89.6\nrod_mm = 141.0\ncompression_ratio = 10.2\n[layout]\nfiring_order = ["
      << order << "]\n[[layout.bank]]\nname = \"row\"\ntilt_deg = 40.0\ncylinders = [" << row
      << "]\n[[valves]]\nkind = \"intake\"\nper_cylinder = 2\nopens_btdc_deg = 12.0\n"
         "closes_abdc_deg = 48.0\nat_lift_mm = 0.0\npeak_lift_mm = 9.7\nlift_law = "
         "\"polynomial-4567\"\n[[valves]]\nkind = \"exhaust\"\nper_cylinder = 2\n"
         "opens_bbdc_deg = 50.0\ncloses_atdc_deg = 10.0\nat_lift_mm = 0.0\npeak_lift_mm = 9.5\n"
         "lift_law = \"polynomial-4567\"\n";
  return path;
}

TEST(Sizes, TheOnesThatEndedTheProgram) {
  Harness h;
  h.open("inline-six");
  int without_room = 0;
  // 320x200 and 500x380 as they came; 420 px of height at 1920x1080; 73 and 49 mm of height.
  for (const Size& size : {Size{320, 200, 0},
                           {500, 380, 0},
                           {1920, 420, 141},
                           {1600, 280, 96},
                           {1600, 185, 96},
                           {200, 200, 0},
                           {200, 200, 400},
                           {640, 400, 0},
                           {3840, 2160, 72}})
    without_room += look_everywhere(h, size, Page::none);
  EXPECT_GE(without_room, 8);
}

TEST(Sizes, ABenchWithRoomDoesNotComplain) {
  Harness h;
  h.open("inline-six");
  for (const Size& size :
       {Size{1600, 1000, 0}, {1920, 1080, 96}, {3840, 2160, 0}, {1280, 800, 0}, {1024, 768, 0}})
    EXPECT_EQ(look_everywhere(h, size, Page::none), 0) << shown(size);
}

TEST(Sizes, EnginesOfManyCylinders) {
  const Folder folder;
  for (const int cylinders : {50, 99}) {
    Harness h;
    h.open(large_engine(folder, cylinders));
    for (const Size& size : {Size{1920, 1080, 0}, {1920, 1080, 96}, {800, 500, 0}, {2560, 700, 110}})
      look_everywhere(h, size, Page::none);
  }
}

TEST(Sizes, AnyAtAnyResolution) {
  const char* seed_text = std::getenv("SHUTLANE_SEED");
  const char* trials_text = std::getenv("SHUTLANE_TRIALS");
  const unsigned long seed = seed_text ? std::strtoul(seed_text, nullptr, 10) : 7;
  SCOPED_TRACE("SHUTLANE_SEED=" + std::to_string(seed));
  std::mt19937_64 random(seed);
  constexpr double kDpi[] = {0, 60, 72, 96, 110, 141, 220, 326, 500};
  const char* const engines[] = {"inline-six", "single", "v12", "radial-nine", "v8-cross-plane"};
  Harness h;
  for (int n = 0; n < (trials_text ? std::atoi(trials_text) : 60) && !::testing::Test::HasFailure(); ++n) {
    if (n % 12 == 0) h.open(engines[random() % std::size(engines)]);
    // Small ones more often: there the trouble is.
    const double stretch = std::uniform_real_distribution<double>(0, 1)(random);
    const Size size{200 + static_cast<int>(3640 * stretch * stretch * stretch),
                    200 + static_cast<int>(random() % 1000 * (random() % 1000) / 1000 * 1960 / 1000),
                    kDpi[random() % std::size(kDpi)]};
    look_everywhere(h, size, kPages[random() % std::size(kPages)]);
  }
}

}  // namespace
}  // namespace shutlane
