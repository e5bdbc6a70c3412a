// The files themselves: the same bytes twice, and readable by programs that know nothing of ours (poppler's
// pdftotext, librsvg's rsvg-convert, Cairo's PNG reader).
#include <cairo.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>

#include "tests/drawings/bundled.hpp"
#include "ui/drawings/pages.hpp"
#include "ui/disk/write_file.hpp"

namespace shutlane {
namespace {

namespace fs = std::filesystem;

struct Files : testing::Test {
  fs::path folder =
      fs::temp_directory_path() / ("shutlane-pages-" + std::to_string(getpid()) + "-" +
                                   testing::UnitTest::GetInstance()->current_test_info()->name());
  Engine engine = bundled("inline-six");
  Files() {
    fs::remove_all(folder);
    fs::create_directories(folder);
  }
  ~Files() override { fs::remove_all(folder); }
  std::string at(const std::string& name) const { return (folder / name).string(); }
  size_t count() const {
    return static_cast<size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
  }
};

std::string bytes_of(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

PageRequest request_of(PageKind kind) {
  PageRequest r;
  r.kind = kind;
  r.from_deg = 35;
  r.plus_minus_deg = 5;
  return r;
}
constexpr PageKind kKinds[] = {PageKind::lanes, PageKind::dial, PageKind::lift};

TEST_F(Files, TheSameRequestGivesTheSameBytes) {
  for (const PageKind kind : kKinds)
    for (const std::string ending : {"pdf", "svg", "png"}) {
      const std::string a = at("a." + ending), b = at("b." + ending);
      ASSERT_EQ(draw_page(engine, request_of(kind), a), std::nullopt);
      ASSERT_EQ(draw_page(engine, request_of(kind), b), std::nullopt);
      EXPECT_GT(bytes_of(a).size(), 10000u);
      EXPECT_EQ(bytes_of(a), bytes_of(b)) << ending;
      PageRequest other = request_of(kind);
      other.theme = Theme::dark;
      ASSERT_EQ(draw_page(engine, other, b), std::nullopt);
      EXPECT_NE(bytes_of(a), bytes_of(b)) << ending;
    }
}

TEST_F(Files, PdfTextReadsBack) {
  for (const PageKind kind : kKinds) {
    ASSERT_EQ(draw_page(engine, request_of(kind), at("page.pdf")), std::nullopt);
    ASSERT_EQ(std::system(("pdftotext -layout '" + at("page.pdf") + "' '" + at("page.txt") + "' 2> '" +
                           at("errors") + "'")
                              .c_str()),
              0);
    const std::string text = bytes_of(at("page.txt"));
    EXPECT_EQ(bytes_of(at("errors")), "");
    for (const char* words :
         {"Inline six 3.0, twin cam", "invented demonstration values", "29 CFR 1910.94(a)", "120°"})
      EXPECT_NE(text.find(words), std::string::npos) << words << " in\n" << text;
    if (kind == PageKind::lanes) {
      for (const char* words : {"Turn the crank forward: one", "35° ± 5°", "ports 3, 6", "surely shut"})
        EXPECT_NE(text.find(words), std::string::npos) << words << " in\n" << text;
    } else {
      EXPECT_NE(text.find("48° after BDC"), std::string::npos) << text;
    }
  }
}

struct ImageEnd {
  void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
};
using Image = std::unique_ptr<cairo_surface_t, ImageEnd>;

// How much two pictures differ where they differ most: the greatest difference of the mean over a square of
// three millimetres, 0..255. Letters and hairlines are placed on the pixels a little differently, which
// averages out; a missing or moved piece does not.
double greatest_difference(const Image& a, const Image& b) {
  constexpr int square = 24;
  const int w = cairo_image_surface_get_width(a.get()), h = cairo_image_surface_get_height(a.get());
  double greatest = 0;
  for (int y = 0; y < h; y += square)
    for (int x = 0; x < w; x += square)
      for (int k = 0; k < 3; ++k) {
        const auto mean = [&](const Image& i) {
          const unsigned char* data = cairo_image_surface_get_data(i.get());
          const int stride = cairo_image_surface_get_stride(i.get());
          double sum = 0;
          for (int dy = 0; dy < square; ++dy)
            for (int dx = 0; dx < square; ++dx) sum += data[(y + dy) * stride + 4 * (x + dx) + k];
          return sum / (square * square);
        };
        greatest = std::max(greatest, std::abs(mean(a) - mean(b)));
      }
  return greatest;
}

TEST_F(Files, SvgLooksLikeThePng) {
  for (const PageKind kind : kKinds) {
    ASSERT_EQ(draw_page(engine, request_of(kind), at("page.svg")), std::nullopt);
    ASSERT_EQ(draw_page(engine, request_of(kind), at("page.png")), std::nullopt);
    const Image ours(cairo_image_surface_create_from_png(at("page.png").c_str()));
    ASSERT_EQ(cairo_surface_status(ours.get()), CAIRO_STATUS_SUCCESS);
    const int w = cairo_image_surface_get_width(ours.get()), h = cairo_image_surface_get_height(ours.get());
    EXPECT_EQ((std::pair{std::min(w, h), std::max(w, h)}), (std::pair{1680, 2376}))
        << "A4 at 8 pixels a millimetre";
    ASSERT_EQ(std::system(("rsvg-convert -w " + std::to_string(w) + " -h " + std::to_string(h) +
                           " -b white -o '" + at("svg.png") + "' '" + at("page.svg") + "'")
                              .c_str()),
              0);
    const Image theirs(cairo_image_surface_create_from_png(at("svg.png").c_str()));
    ASSERT_EQ(cairo_image_surface_get_width(theirs.get()), w);
    ASSERT_EQ(cairo_image_surface_get_height(theirs.get()), h);
    constexpr double tolerance = 12;
    EXPECT_LT(greatest_difference(ours, theirs), tolerance);

    // The measure itself: another crank angle must stand out.
    PageRequest other = request_of(kind);
    other.from_deg = 100;
    ASSERT_EQ(draw_page(engine, other, at("other.png")), std::nullopt);
    const Image moved(cairo_image_surface_create_from_png(at("other.png").c_str()));
    EXPECT_GT(greatest_difference(ours, moved), 2 * tolerance) << greatest_difference(ours, moved);
  }
}

TEST_F(Files, SvgIsNamed) {
  engine.spec.name = "Six & <two> \"more\"";
  ASSERT_EQ(draw_page(engine, request_of(PageKind::lanes), at("page.svg")), std::nullopt);
  EXPECT_NE(bytes_of(at("page.svg")).find("<title>Six &amp; &lt;two&gt; \"more\"</title>"),
            std::string::npos);
  EXPECT_EQ(std::system(("rsvg-convert -w 100 -o '" + at("x.png") + "' '" + at("page.svg") + "'").c_str()),
            0);
}

TEST_F(Files, RefusesWhatCannotBeWritten) {
  const PageRequest r = request_of(PageKind::lanes);
  const auto refused = [&](const std::string& path, const std::string& words) {
    const std::optional<std::string> line = draw_page(engine, r, path);
    ASSERT_TRUE(line.has_value()) << path;
    EXPECT_NE(line->find(words), std::string::npos) << *line;
    EXPECT_EQ(line->find('\n'), std::string::npos);
  };
  refused(at("page.txt"), "expected .pdf, .svg or .png");
  refused(at("page"), "expected .pdf, .svg or .png");
  refused(at("no-such-folder/page.pdf"), "No such file or directory");
  fs::create_directories(at("folder.pdf"));
  refused(at("folder.pdf"), "not a regular file");
  EXPECT_EQ(count(), 1u) << "nothing else may be left";
  PageRequest other = r;
  other.cylinder = 7;
  EXPECT_EQ(draw_page(engine, other, at("page.pdf")), "the engine has no cylinder 7");
}

TEST_F(Files, ReplacesWholeAndLeavesOthersAlone) {
  const std::string path = at("a.bin");
  ASSERT_EQ(write_whole_file(path, "first"), std::nullopt);
  std::ofstream(path + ".part0") << "somebody else's";
  ASSERT_EQ(write_whole_file(path, "second"), std::nullopt);
  EXPECT_EQ(bytes_of(path), "second");
  EXPECT_EQ(bytes_of(path + ".part0"), "somebody else's");
  EXPECT_EQ(count(), 2u);
  fs::create_symlink(path, at("link"));
  ASSERT_EQ(write_whole_file(at("link"), "third"), std::nullopt);
  EXPECT_TRUE(fs::is_symlink(at("link")));
  EXPECT_EQ(bytes_of(path), "third");
  // A full disk, a device: what was there stays.
  if (fs::exists("/dev/full")) {
    EXPECT_NE(write_whole_file("/dev/full", "x"), std::nullopt);
  }
}

TEST_F(Files, NoLongerLineThanOneAtTheWorstName) {
  engine.spec.name = std::string(100000, 'n') + "\xff\n";
  for (const PageKind kind : kKinds)
    EXPECT_EQ(draw_page(engine, request_of(kind), at("long.pdf")), std::nullopt);
}

}  // namespace
}  // namespace shutlane
