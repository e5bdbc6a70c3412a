// Every page of every bundled engine at A4: no text runs off the paper, out of its clip or into another text.
// What this cannot see: text over lines and hatches, and whether the page is good to look at.
#include <fmt/format.h>

#include "tests/drawings/bundled.hpp"
#include "tests/drawings/page_record.hpp"
#include "ui/drawings/page_parts.hpp"

namespace shutlane {
namespace {

constexpr double kPaperEdge_mm =
    8;  // printers leave about 5 mm; ours is set at 12, labels may hang out a little
constexpr double kTouch_mm = 0.15;  // boxes of text are a little larger than their ink

double shared(double a0, double a1, double b0, double b1) { return std::min(a1, b1) - std::max(a0, b0); }

std::string complaints(const PageRecord& page, Box paper) {
  std::string out;
  for (size_t i = 0; i < page.texts.size(); ++i) {
    const DrawnText& t = page.texts[i];
    if (t.box.x < paper.x + kPaperEdge_mm || t.box.right() > paper.right() - kPaperEdge_mm ||
        t.box.y < paper.y + kPaperEdge_mm || t.box.bottom() > paper.bottom() - kPaperEdge_mm)
      out += fmt::format("off the paper: '{}' at {:.1f}, {:.1f}\n", t.words, t.box.x, t.box.y);
    if (t.box.x < t.clip.x - kTouch_mm || t.box.right() > t.clip.right() + kTouch_mm ||
        t.box.y < t.clip.y - kTouch_mm || t.box.bottom() > t.clip.bottom() + kTouch_mm)
      out += fmt::format("clipped: '{}' at {:.1f}, {:.1f}\n", t.words, t.box.x, t.box.y);
    for (size_t k = 0; k < i; ++k) {
      const DrawnText& o = page.texts[k];
      if (shared(t.box.x, t.box.right(), o.box.x, o.box.right()) > kTouch_mm &&
          shared(t.box.y, t.box.bottom(), o.box.y, o.box.bottom()) > kTouch_mm)
        out += fmt::format("'{}' on '{}' at {:.1f}, {:.1f}\n", t.words, o.words, t.box.x, t.box.y);
    }
  }
  return out;
}

PageRecord record(const Engine& engine, const PageRequest& request, Box paper) {
  PageRecord page;
  switch (request.kind) {
    case PageKind::lanes:
      draw_lanes_page(page, paper, engine, request);
      break;
    case PageKind::dial:
      draw_dial_page(page, paper, engine, request);
      break;
    case PageKind::lift:
      draw_lift_page(page, paper, engine, request);
      break;
    case PageKind::bump:
      draw_bump_page(page, paper, engine, request);
      break;
  }
  return page;
}

Box paper_of(PageKind kind) { return kind == PageKind::dial ? Box{0, 0, 210, 297} : Box{0, 0, 297, 210}; }

class EveryEngine : public testing::TestWithParam<std::string> {};

TEST_P(EveryEngine, LanesPageKeepsItsTextApart) {
  const Engine engine = bundled(GetParam());
  const Box paper = paper_of(PageKind::lanes);
  for (const LaneOrder order : {LaneOrder::firing, LaneOrder::number})
    for (const double from : {-1.0, 0.0, 35.0, 201.5, 359.0, 540.0, 719.0}) {
      PageRequest request;
      request.order = order;
      if (from >= 0) request.from_deg = from;
      if (from > 100) request.plus_minus_deg = 12.5;
      EXPECT_EQ(complaints(record(engine, request, paper), paper), "") << "from " << from;
    }
}

TEST_P(EveryEngine, LanesPageWithAFanKeepsItsTextApart) {
  const Engine engine = bundled(GetParam());
  const Box paper = paper_of(PageKind::lanes);
  PressFan fan{.press_s = 0.125, .advance_p05_deg = -12, .advance_p95_deg = 1234, .weights = {}};
  fan.weights.assign(720, 1.0 / 720);
  for (const double from : {0.0, 201.5, 540.0}) {
    PageRequest request;
    request.from_deg = from;
    request.plus_minus_deg = from > 500 ? 360 : 0;  // nothing is sure: every port is still to be done
    request.fan = fan;
    EXPECT_EQ(complaints(record(engine, request, paper), paper), "") << "from " << from;
  }
}

TEST_P(EveryEngine, DialAndLiftPagesKeepTheirTextApart) {
  const Engine engine = bundled(GetParam());
  for (const PageKind kind : {PageKind::dial, PageKind::lift})
    for (const Cylinder& c : {engine.cylinders.front(), engine.cylinders.back()})
      for (const bool crank : {false, true}) {
        PageRequest request;
        request.kind = kind;
        request.cylinder = c.number;
        if (crank) request.from_deg = 100;
        EXPECT_EQ(complaints(record(engine, request, paper_of(kind)), paper_of(kind)), "")
            << (kind == PageKind::dial ? "dial" : "lift") << ", cylinder " << c.number;
      }
}

TEST_P(EveryEngine, BumpPageKeepsItsTextApart) {
  const Engine engine = bundled(GetParam());
  const CrankingModel model = wrench_model(engine);  // a hybrid's too: only the page is looked at
  for (const double press_s : {0.01, 0.05, 0.3, 5.0}) {
    PageRequest request;
    request.kind = PageKind::bump;
    request.cylinder = engine.cylinders.back().number;
    request.bump = BumpCourse{model, record_bump(model, 719.5, press_s)};
    EXPECT_EQ(complaints(record(engine, request, paper_of(request.kind)), paper_of(request.kind)), "")
        << press_s;
  }
}

std::vector<std::string> names() {
  std::vector<std::string> out;
  for (const BundledFile& f : bundled_files()) out.emplace_back(f.name);
  return out;
}
INSTANTIATE_TEST_SUITE_P(Bundled, EveryEngine, testing::ValuesIn(names()), [](const auto& which) {
  std::string name = which.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(PageLayout, SeesTextOnText) {  // the test's own eye
  PageRecord page;
  page.text({50, 50}, "one", 4, {}, Align::left, Weight::regular);
  page.text({52, 51}, "two", 4, {}, Align::left, Weight::regular);
  page.text({290, 50}, "out", 4, {}, Align::left, Weight::regular);
  const std::string seen = complaints(page, {0, 0, 297, 210});
  EXPECT_NE(seen.find("'two' on 'one'"), std::string::npos) << seen;
  EXPECT_NE(seen.find("off the paper: 'out'"), std::string::npos) << seen;
}

TEST(PageLayout, LongNamesStayInTheirPlaces) {
  Engine engine = bundled("w12");
  engine.spec.name.assign(300, 'W');
  engine.spec.name += "\n\t\x01 end";
  engine.spec.source = "measured on a bench, then measured again by somebody else, and written down ";
  engine.spec.source.append(200, 'x');
  for (BankSpec& b : engine.spec.layout.banks) b.name = std::string(60, 'b');
  for (const PageKind kind : {PageKind::lanes, PageKind::dial, PageKind::lift}) {
    PageRequest request;
    request.kind = kind;
    request.from_deg = 35;
    EXPECT_EQ(complaints(record(engine, request, paper_of(kind)), paper_of(kind)), "");
  }
}

TEST(PageLayout, LiftPageNamesTheCranksLineWhereItIsDrawn) {
  const Colour crank = palette(Theme::light).crank;
  int drawn = 0, not_drawn = 0;
  for (const char* name : {"inline-six", "v8-cross-plane", "single"}) {
    const Engine engine = bundled(name);
    for (double from = 0; from < 720; from += 15) {
      PageRequest request;
      request.kind = PageKind::lift;
      request.from_deg = from;
      const PageRecord page = record(engine, request, paper_of(PageKind::lift));
      const bool line = std::any_of(page.lines.begin(), page.lines.end(), [&](const DrawnLine& l) {
        return l.stroke.colour == crank && l.points.size() == 2 && l.points[0].x == l.points[1].x;
      });
      std::string words;
      for (const DrawnText& t : page.texts) words += t.words + " ";
      const bool key = words.find("where the crank stands now") != std::string::npos;
      const bool outside = words.find("outside the stretch") != std::string::npos;
      EXPECT_EQ(key, line) << name << " from " << from;
      EXPECT_EQ(outside, !line) << name << " from " << from;
      ++(line ? drawn : not_drawn);
    }
  }
  EXPECT_GT(drawn, 20);
  EXPECT_GT(not_drawn, 20);
}

TEST(PageLayout, ManyPositionsStillFit) {
  // Margins as wide as this leave so little surely shut that several turns are needed.
  for (const char* name : {"v8-flat-plane", "v12", "radial-nine"}) {
    const Engine engine = bundled(name);
    for (const double margin : {60.0, 90.0, 110.0, 150.0}) {
      PageRequest request;
      request.from_deg = 60;
      request.margin_deg = margin;
      request.accuracy_deg = 15;
      const Box paper = paper_of(PageKind::lanes);
      EXPECT_EQ(complaints(record(engine, request, paper), paper), "") << name << ", margin " << margin;
    }
  }
}

TEST(PageLayout, SaysWhoseNumbersTheyAre) {
  Engine engine = bundled("inline-six");
  PageRequest request;
  const auto says = [&](const std::string& words) {
    for (const DrawnText& t : record(engine, request, paper_of(PageKind::lanes)).texts)
      if (t.words.find(words) != std::string::npos) return true;
    return false;
  };
  EXPECT_TRUE(says("invented demonstration values"));
  engine.spec.source = "";
  EXPECT_TRUE(says("source not stated"));
  EXPECT_FALSE(says("invented"));
}

}  // namespace
}  // namespace shutlane
