// The bump on Teach by hand and by keyboard: the replay follows the record and moves nothing but the what-if
// needle, the last fan stays until the new one is there, idle costs no frame, and all has its place on every
// screen.
#include <algorithm>
#include <chrono>
#include <thread>

#include "sim/cranking/trials.hpp"
#include "tests/window/study_hand.hpp"
#include "ui/window/study/bump_texts.hpp"

namespace shutlane {
namespace {

BumpStudy& bump(Harness& h) { return study(h).bump; }

void open_bump(Harness& h, const std::string& engine, int trials = 2000, Preferences preferences = {}) {
  h.open(engine, preferences);
  h.queue(ShowBench{Bench::teach});
  bump(h).trials = trials;
  h.press(Key::b);
}

/// Waits for the worker; false when it takes absurdly long.
bool reckoned(Harness& h) {
  for (int n = 0; n < 4000 && bump(h).busy(); ++n) std::this_thread::sleep_for(std::chrono::milliseconds(5));
  h.settle();
  return !bump(h).busy();
}

TEST(BumpStudy, OpensByKeyAndButtonAndLeavesTheJobAlone) {
  Harness h;
  open_bump(h, "inline-six");
  EXPECT_TRUE(bump(h).open());
  ASSERT_TRUE(reckoned(h));
  EXPECT_TRUE(h.says("most likely; half of them between"));
  EXPECT_TRUE(h.says("Would be surely shut: port"));
  EXPECT_TRUE(h.says("2,000 bumps reckoned"));
  EXPECT_FALSE(h.says("seen shut"));
  h.click("Bump");
  EXPECT_FALSE(bump(h).open());
  h.click("Bump");
  EXPECT_TRUE(bump(h).open());
  EXPECT_TRUE(h.now().document.events.empty());
  EXPECT_EQ(h.now().what_if_deg, std::nullopt);
}

TEST(BumpStudy, FanIsThatOfTheSameTrials) {
  Harness h;
  open_bump(h, "inline-six", 3000);
  h.queue(MoveWhatIf{35});
  ASSERT_TRUE(reckoned(h));
  // Reckoned in one go, as `shutlane bump` does it.
  const FastKernel kernel(std::get<CrankingModel>(cranking_model(study(h).engine())));
  TrialsQuestion q;
  q.from_deg = 35;
  q.press_s = 0.3;
  q.trials = 3000;
  const TrialsAnswer whole = bump_trials(kernel, q);
  ASSERT_NE(bump(h).fan(), nullptr);
  EXPECT_EQ(bump(h).fan()->p50_deg, whole.p50_deg);
  for (size_t i = 0; i < 720; ++i)
    EXPECT_NEAR(bump(h).fan()->weights[i], whole.rest_histogram[i] / 3000.0, 1e-9) << i;
}

TEST(BumpStudy, ThePressIsASliderInHundredths) {
  Harness h;
  open_bump(h, "inline-six");
  EXPECT_DOUBLE_EQ(bump(h).press_s(), 0.30);
  h.press(Key::page_up);
  EXPECT_DOUBLE_EQ(bump(h).press_s(), 0.31);
  h.press(KeyPress{Key::page_down, true});
  EXPECT_NEAR(bump(h).press_s(), 0.21, 1e-12);
  while (h.viewer.ui().focus() != "press") h.press(Key::tab);
  h.press(Key::right);
  EXPECT_NEAR(bump(h).press_s(), 0.22, 1e-12);
  EXPECT_EQ(h.now().what_if_deg, std::nullopt) << "the slider's keys are not the needle's";
  for (int i = 0; i < 12; ++i) h.press(KeyPress{Key::right, true});
  EXPECT_DOUBLE_EQ(bump(h).press_s(), 1.0);
  for (int i = 0; i < 12; ++i) h.press(KeyPress{Key::left, true});
  EXPECT_DOUBLE_EQ(bump(h).press_s(), 0.05);
  const Box box = h.need("Press").box;
  h.click_at({box.x + box.w / 2, box.bottom() - 4});
  EXPECT_NEAR(bump(h).press_s(), 0.525, 0.02);
}

TEST(BumpStudy, TheReplayFollowsTheRecordAndMovesTheHollowNeedleAlone) {
  Harness h;
  open_bump(h, "inline-six");
  h.log(MarkRead{35, 2});
  const std::vector<LoggedEvent> events = h.now().document.events;
  const ArcSet where = h.advice().where;
  h.queue(MoveWhatIf{35});
  ASSERT_TRUE(reckoned(h));
  const BumpRecord record = *bump(h).record();
  EXPECT_EQ(record.from_deg, 35);
  h.viewer.input.push(KeyChanged{{Key::space}, true});
  h.viewer.frame(h.session, {1600, 1000, 0}, 1.0 / 60);
  h.viewer.frame(h.session, {1600, 1000, 0}, 1.0 / 60);
  EXPECT_TRUE(bump(h).playing());
  EXPECT_EQ(h.viewer.ui().wake_after_s(), 0) << "frames while it plays";
  const double before_s = bump(h).time_s();
  h.viewer.frame(h.session, {1600, 1000, 0}, 0.1);
  EXPECT_NEAR(bump(h).time_s() - before_s, 0.01, 1e-6) << "a tenth of the true speed";
  bool went_back = false;
  double last_deg = 0;
  for (int i = 0; i < 400 && bump(h).playing(); ++i) {
    h.viewer.frame(h.session, {1600, 1000, 0}, 0.05);
    const double deg = sample_at(record, bump(h).time_s()).turned_deg;
    EXPECT_NEAR(h.now().what_if_deg.value(), wrap_deg(35 + deg), 1e-9);
    went_back = went_back || deg < last_deg - 0.1;
    last_deg = deg;
  }
  EXPECT_FALSE(bump(h).playing()) << "ends by itself";
  EXPECT_TRUE(went_back) << "the roll-back is seen";
  EXPECT_NEAR(h.now().what_if_deg.value(), wrap_deg(35 + record.advance_deg()), 1e-9);
  EXPECT_EQ(bump(h).start_deg(), 35) << "the start stays while the needle is the replay's";
  EXPECT_EQ(h.now().document.events.size(), events.size());
  EXPECT_EQ(h.advice().where, where);
  h.click("To the start");
  EXPECT_EQ(h.now().what_if_deg, 35);
  EXPECT_EQ(bump(h).time_s(), 0);
}

TEST(BumpStudy, AHandOnTheNeedleMakesANewStart) {
  Harness h;
  open_bump(h, "inline-six");
  h.queue(MoveWhatIf{35});
  ASSERT_TRUE(reckoned(h));
  const Box box = h.need("Course of the bump").box;
  h.click_at({box.x + 0.3 * box.w, box.y + box.h / 2});
  EXPECT_GT(bump(h).time_s(), 0.1);
  const double there = h.now().what_if_deg.value();
  EXPECT_NE(there, 35);
  EXPECT_EQ(bump(h).start_deg(), 35);
  h.press(Key::right);
  EXPECT_NEAR(bump(h).start_deg(), wrap_deg(there + 1), 1e-9);
  EXPECT_EQ(bump(h).time_s(), 0);
  ASSERT_TRUE(reckoned(h));
  EXPECT_NEAR(bump(h).record()->from_deg, wrap_deg(there + 1), 1e-9);
  // The rest of one bump is the start of the next.
  h.click_at({box.x + 0.43 * box.w, box.y + box.h / 2});
  const double at_deg = h.now().what_if_deg.value();
  h.click("Bump again");
  EXPECT_EQ(bump(h).start_deg(), at_deg);
  EXPECT_EQ(h.now().what_if_deg, at_deg);
  h.press(Key::escape);
  EXPECT_EQ(h.now().what_if_deg, std::nullopt);
  EXPECT_EQ(bump(h).start_deg(), 0);
}

TEST(BumpStudy, AnotherPressPutsTheNeedleBackToTheStart) {
  Harness h;
  open_bump(h, "inline-six");
  h.queue(MoveWhatIf{35});
  ASSERT_TRUE(reckoned(h));
  const Box box = h.need("Course of the bump").box;
  h.click_at({box.x + 0.3 * box.w, box.y + box.h / 2});
  ASSERT_NE(h.now().what_if_deg, 35);
  h.press(Key::page_up);
  EXPECT_EQ(h.now().what_if_deg, 35);
  EXPECT_EQ(bump(h).start_deg(), 35);
}

TEST(BumpStudy, TheLastFanStaysGreyedUntilTheNewOneIsThere) {
  Harness h;
  open_bump(h, "inline-six");
  ASSERT_TRUE(reckoned(h));
  const RestFan* old = bump(h).fan();
  ASSERT_NE(old, nullptr);
  EXPECT_FALSE(bump(h).fan_stale());
  const double old_deg = old->p50_deg;
  bump(h).trials = 3000000;  // long enough to be seen at work
  h.press(Key::page_up);
  EXPECT_TRUE(bump(h).busy());
  EXPECT_TRUE(bump(h).fan_stale());
  EXPECT_EQ(bump(h).fan()->p50_deg, old_deg);
  EXPECT_TRUE(h.says("reckoning, "));
  h.click("Stop");
  EXPECT_FALSE(bump(h).busy());
  EXPECT_TRUE(bump(h).fan_stale());
  EXPECT_TRUE(h.says("stopped; the fan is an older one"));
  bump(h).trials = 2000;
  h.settle();
  ASSERT_TRUE(reckoned(h));
  EXPECT_FALSE(bump(h).fan_stale());
  const RestFan first = *bump(h).fan();
  h.click("Again");
  ASSERT_TRUE(reckoned(h));
  EXPECT_FALSE(bump(h).fan_stale());
  EXPECT_NE(bump(h).fan()->weights, first.weights) << "other numbers drawn";
  EXPECT_NEAR(bump(h).fan()->p50_deg, first.p50_deg, 8) << "the fan holds still";
}

TEST(BumpStudy, PlugsOutLetItCoastOn) {
  Harness h;
  open_bump(h, "inline-six");
  h.queue(MoveWhatIf{35});
  ASSERT_TRUE(reckoned(h));
  const double in_deg = bump(h).record()->advance_deg();
  h.click("Plugs out");
  ASSERT_TRUE(reckoned(h));
  EXPECT_GT(bump(h).record()->advance_deg(), in_deg + 60);
  EXPECT_LT(bump(h).record()->rolled_back_deg, 1);
}

TEST(BumpStudy, IdleAsksForNoFrames) {
  Harness h;
  int woken = 0;
  h.viewer.ui().wake_from_thread = [&woken] { ++woken; };
  open_bump(h, "inline-six");
  EXPECT_EQ(h.viewer.ui().wake_after_s(), std::nullopt) << "the worker wakes the window";
  ASSERT_TRUE(reckoned(h));
  EXPECT_GE(woken, 2) << "once for the course, once for the fan";
  EXPECT_EQ(h.viewer.ui().wake_after_s(), std::nullopt);
  EXPECT_FALSE(h.viewer.unsettled());
}

TEST(BumpStudy, AHybridSaysWhyAndKeepsItsPlanOfTurns) {
  Harness h;
  open_bump(h, "hybrid-three");
  EXPECT_NE(bump(h).refused(), nullptr);
  EXPECT_TRUE(h.says("No bump: "));
  EXPECT_TRUE(h.says("hybrids"));
  EXPECT_FALSE(h.has("Play"));
  EXPECT_FALSE(bump(h).busy());
  h.press(Key::space);
  EXPECT_TRUE(study(h).timeline.running) << "the timeline runs as ever";
}

TEST(BumpStudy, ExplainsItsWords) {
  Harness h;
  open_bump(h, "inline-six");
  ASSERT_TRUE(reckoned(h));
  for (const char* word : {"bump", "press", "roll-back", "rest angle", "firing interval"}) {
    h.click_at(
        {h.need("term " + std::string(word)).box.x + 4, h.need("term " + std::string(word)).box.y + 4});
    EXPECT_TRUE(h.says(std::string(word) + ": ")) << word;
  }
}

TEST(BumpTexts, SayHowFarAndNeverMoreThanIsReckoned) {
  EXPECT_EQ(texts::fan_sentence(186.2, 176.4, 194.6),
            "Rests 186° on, most likely; half of them between 176° and 195°.");
  EXPECT_EQ(texts::fan_sentence(-12, -30.4, 5),
            "Rests 12° back, most likely; half of them between 30° back and 5° on.");
  EXPECT_EQ(texts::fan_sentence(20, -3, 25),
            "Rests 20° on, most likely; half of them between 3° back and 25° on.");
  EXPECT_EQ(texts::on_or_back(0.2), "where it started");
  EXPECT_EQ(texts::of_hundred(1.0), 99);
  EXPECT_EQ(texts::of_hundred(0.969), 96);
  EXPECT_EQ(texts::of_hundred(0.0), 0);
  EXPECT_EQ(
      texts::ports_after_bump({{3, 1.0}, {5, 0.5123}}),
      "Would be surely shut: port 3 after 99 of 100, 5 after 51. Reckoned, not seen: look into the port.");
  EXPECT_EQ(texts::ports_after_bump({}), "No port would be surely shut after more than half of them.");
}

TEST(BumpStudy, AnotherEngineIsReckonedAnew) {
  Harness h;
  open_bump(h, "inline-six");
  ASSERT_TRUE(reckoned(h));
  study(h).open("v8-cross-plane");
  h.settle();
  EXPECT_EQ(bump(h).fan(), nullptr);
  ASSERT_TRUE(reckoned(h));
  EXPECT_EQ(bump(h).record()->samples[0].pressure_pa.size(), 8u);
}

bool overlaps(const Box& a, const Box& b) {
  return a.x + 0.5 < b.right() && b.x + 0.5 < a.right() && a.y + 0.5 < b.bottom() && b.y + 0.5 < a.bottom();
}

/// Nothing outside the window, nothing overlapping, no text clipped, cut short or out of the height of its
/// room.
void check_places(Harness& h, double width, double height) {
  const Items& items = h.items();
  ASSERT_GT(items.items.size(), 10u);
  for (size_t i = 0; i < items.items.size(); ++i) {
    const Item& a = items.items[i];
    EXPECT_TRUE(a.box.x >= 0 && a.box.y >= 0 && a.box.right() <= width && a.box.bottom() <= height) << a.id;
    for (size_t k = i + 1; k < items.items.size(); ++k)
      EXPECT_FALSE(overlaps(a.box, items.items[k].box)) << a.id << " and " << items.items[k].id;
  }
  for (size_t i = 0; i < items.texts.size(); ++i) {
    const TextItem& t = items.texts[i];
    EXPECT_LE(t.box.w, t.room.w + 1) << "'" << t.text << "' is clipped";
    EXPECT_LE(t.box.bottom(), t.room.bottom() + 0.3 * t.line_px) << "'" << t.text << "' runs out of its room";
    EXPECT_EQ(t.text.find("\u2026"), std::string::npos) << t.text;
    EXPECT_GE(t.line_px, 8) << "'" << t.text << "' is too small to read";
    for (size_t k = i + 1; k < items.texts.size(); ++k)
      EXPECT_FALSE(overlaps(t.box, items.texts[k].box))
          << "'" << t.text << "' over '" << items.texts[k].text << "'";
  }
}

class BumpScreens : public ::testing::TestWithParam<std::string> {};

TEST_P(BumpScreens, EverythingHasItsPlace) {
  for (const auto& [width, height] : {std::pair{1280, 720}, {1600, 1000}, {1920, 1080}, {2560, 1440}})
    for (const double scale : {1.0, 1.5, 2.0}) {
      SCOPED_TRACE(std::to_string(width) + "x" + std::to_string(height) + " at " + std::to_string(scale));
      Harness h(width, height);
      Preferences preferences;
      preferences.scale = scale;
      preferences.measures = scale == 1.5 ? Measures::us : Measures::metric;
      open_bump(h, GetParam(), 300, preferences);
      check_places(h, width, height);
      ASSERT_TRUE(reckoned(h));
      check_places(h, width, height);
      h.queue(MoveWhatIf{201.5});
      for (const double press_s : {0.05, 1.0}) {  // rests behind the start, and the longest numbers
        bump(h).set_press(press_s);
        h.settle();
        check_places(h, width, height);
        ASSERT_TRUE(reckoned(h));
        check_places(h, width, height);
      }
      for (const texts::Term& term : texts::bump_terms()) {
        study(h).term = term.word;
        h.settle();
        check_places(h, width, height);
      }
      if (HasFailure()) return;
    }
}
INSTANTIATE_TEST_SUITE_P(Engines, BumpScreens,
                         ::testing::Values("inline-six", "v8-cross-plane", "v12", "w12", "radial-nine",
                                           "single", "hybrid-three"),
                         [](const auto& engine) {
                           std::string name = engine.param;
                           std::erase(name, '-');
                           return name;
                         });

TEST(BumpStudy, TabReachesEveryItem) {
  Harness h;
  open_bump(h, "v8-cross-plane");
  ASSERT_TRUE(reckoned(h));
  std::vector<std::string> wanted, reached;
  for (const Item& item : h.items().items)
    if (item.enabled) wanted.push_back(item.id);
  for (size_t i = 0; i < wanted.size(); ++i) {
    h.press(Key::tab);
    reached.push_back(h.viewer.ui().focus());
  }
  for (const std::string& id : wanted) EXPECT_EQ(std::count(reached.begin(), reached.end(), id), 1) << id;
}

}  // namespace
}  // namespace shutlane
