// Looks that contradict each other, at the Work bench: the causes are rows to press, by pointer and keyboard.
#include <chrono>

#include "tests/window/harness.hpp"

namespace shutlane {
namespace {

/// One look stands alone against the mark and the others, or several share the blame.
void disagree(Harness& h) {
  h.log(MarkRead{35, 2});
  const Engine& engine = *h.now().document.engine;
  int shut = 0, open = 0;
  for (const Cylinder& c : engine.cylinders) {
    const bool is_open = lifts_mm(engine, c, ValveKind::intake, 35)[0] > 2;
    const bool is_shut = lifts_mm(engine, c, ValveKind::intake, 35)[0] <= 0 &&
                         lifts_mm(engine, c, ValveKind::intake, 395)[0] <= 0;
    if (is_open) h.log(LookedInto{c.number, Saw::open});
    if (is_open) open = c.number;
    if (is_shut) shut = c.number;
  }
  ASSERT_NE(open, 0);
  ASSERT_NE(shut, 0) << "no port is shut at 35 and at 395";
  h.log(LookedInto{shut, Saw::open});
  ASSERT_EQ(h.advice().stage, Stage::disagreement);
}

TEST(Causes, RowsAreWithinTheWindowAndLargeEnough) {
  for (const std::string engine : {"inline-six", "v8-cross-plane", "v12", "radial-nine"})
    for (const auto& [width, height] : {std::pair{1280, 720}, {1600, 1000}})
      for (const double scale : {1.0, 2.0}) {
        SCOPED_TRACE(engine + " " + std::to_string(width));
        Harness h(width, height);
        Preferences preferences;
        preferences.scale = scale;
        h.open(engine, preferences);
        ASSERT_NO_FATAL_FAILURE(disagree(h));
        ASSERT_EQ(h.advice().causes.size(), 8u);
        const Box window{0, 0, static_cast<double>(width), static_cast<double>(height)};
        const std::vector<Item>& items = h.items().items;
        size_t rows = 0;
        for (size_t i = 0; i < items.size(); ++i) {
          const Box& a = items[i].box;
          rows += items[i].id.starts_with("cause ") && items[i].id.find("instead") == std::string::npos;
          EXPECT_GE(h.mm(a.w), kTarget_mm - 0.01) << items[i].id;
          EXPECT_GE(h.mm(a.h), kTarget_mm - 0.01) << items[i].id;
          EXPECT_TRUE(a.x >= 0 && a.y >= 0 && a.right() <= window.w && a.bottom() <= window.h) << items[i].id;
          for (size_t k = i + 1; k < items.size(); ++k) {
            const Box& b = items[k].box;
            EXPECT_FALSE(a.x + 0.5 < b.right() && b.x + 0.5 < a.right() && a.y + 0.5 < b.bottom() &&
                         b.y + 0.5 < a.bottom())
                << items[i].id << " over " << items[k].id;
          }
        }
        EXPECT_EQ(rows, 8u);
        for (size_t i = 0; i < 8; ++i)
          EXPECT_EQ(h.need("cause " + std::to_string(i + 1)).label, h.advice().causes[i].name);
        for (const TextItem& text : h.items().texts) {
          EXPECT_LE(text.box.w, text.room.w + 1) << "'" << text.text << "' is clipped";
          EXPECT_LE(text.box.bottom(), text.room.bottom() + h.viewer.ui().mm(1.5)) << text.text;
          EXPECT_EQ(text.text.find("\u2026"), std::string::npos) << text.text;
        }
      }
}

TEST(Causes, EachRowLogsItsCause) {
  for (size_t i = 0; i < 8; ++i) {
    Harness h;
    h.open("inline-six");
    ASSERT_NO_FATAL_FAILURE(disagree(h));
    const JobEvent expected = h.advice().causes[i].choose.tells.front();
    const size_t before = h.now().document.events.size();
    h.click("cause " + std::to_string(i + 1));
    ASSERT_EQ(h.now().document.events.size(), before + 1);
    EXPECT_EQ(h.now().document.events.back().event, expected);
    EXPECT_TRUE(h.advice().causes.empty());
    EXPECT_NE(h.advice().stage, Stage::blast);
    EXPECT_EQ(h.items().by_id("cause 1"), nullptr);
    h.press(KeyPress{Key::z, false, true});
    EXPECT_EQ(h.advice().stage, Stage::disagreement) << "undone";
  }
}

TEST(Causes, TheKeyboardReachesEveryRow) {
  Harness h;
  h.open("v8-cross-plane");
  ASSERT_NO_FATAL_FAILURE(disagree(h));
  const JobEvent expected = h.advice().causes[7].choose.tells.front();
  for (int n = 0; n < 60 && h.viewer.ui().focus() != "cause 8"; ++n) h.press(Key::tab);
  ASSERT_EQ(h.viewer.ui().focus(), "cause 8");
  h.press(Key::enter);
  EXPECT_EQ(h.now().document.events.back().event, expected);
}

TEST(Causes, OnePressForEachLookThatMayHaveMisled) {
  Harness h;
  h.open("inline-six");
  for (const int port : {1, 6}) h.log(LookedInto{port, Saw::open});
  ASSERT_EQ(h.advice().stage, Stage::disagreement) << "they fire a full turn apart";
  for (const OfferedCause& cause : h.advice().causes)
    if (cause.what == Suspicion::missed_look) {
      ASSERT_EQ(cause.instead.size(), 1u);
      const int other = std::get<CauseChosen>(cause.instead[0].tells.front()).cylinder;
      h.click("or port " + std::to_string(other));
      EXPECT_EQ(h.advice().sentence, "Look into port " + std::to_string(other) + " again.");
      return;
    }
  FAIL() << "not offered";
}

TEST(Causes, WhileTheNeedleIsOutNoCauseIsOffered) {
  Harness h;
  h.open("inline-six");
  ASSERT_NO_FATAL_FAILURE(disagree(h));
  h.queue(MoveWhatIf{200});
  EXPECT_EQ(h.items().by_id("cause 1"), nullptr);
  EXPECT_EQ(h.wide(), "Put the needle back");
}

}  // namespace
}  // namespace shutlane
