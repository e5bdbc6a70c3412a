// Teach and Explore by hand and by keyboard, without a display: the needle that moves is the what-if needle,
// the job stays as it is, and everything lies where it may on every screen.
#include <algorithm>
#include <cstdlib>
#include <set>
#include <sstream>

#include "tests/window/study_hand.hpp"
#include "ui/window/study/readings.hpp"

namespace shutlane {
namespace {

void wheel(Harness& h, Point at, double notches) {
  h.viewer.input.push(PointerMoved{at.x, at.y});
  h.settle();
  h.viewer.input.push(Wheel{0, notches});
  h.settle();
}

void drag(Harness& h, Point from, Point to, int button = 0) {
  h.viewer.input.push(PointerMoved{from.x, from.y});
  h.settle();
  h.viewer.input.push(ButtonChanged{button, true, from.x, from.y});
  h.settle();
  for (int i = 1; i <= 5; ++i) {
    h.viewer.input.push(PointerMoved{from.x + (to.x - from.x) * i / 5, from.y + (to.y - from.y) * i / 5});
    h.settle();
  }
  h.viewer.input.push(ButtonChanged{button, false, to.x, to.y});
  h.settle();
}

Point middle(const Box& box) { return {box.x + box.w / 2, box.y + box.h / 2}; }

TEST(Study, KeysMoveTheHollowNeedleAndNeverTheJob) {
  Harness h;
  on_bench(h, "inline-six", Bench::teach);
  h.log(MarkRead{35, 2});
  const std::vector<LoggedEvent> events = h.now().document.events;
  const ArcSet where = h.advice().where;
  EXPECT_EQ(h.now().what_if_deg, std::nullopt);
  h.press(Key::right);
  EXPECT_EQ(h.now().what_if_deg, 1);
  h.press(KeyPress{Key::right, true});
  EXPECT_EQ(h.now().what_if_deg, 11);
  h.press(Key::left);
  h.press(KeyPress{Key::left, true});
  EXPECT_EQ(h.now().what_if_deg, 0);
  h.press(Key::left);
  EXPECT_EQ(h.now().what_if_deg, 719);
  h.press(Key::home);
  EXPECT_EQ(h.now().what_if_deg, 0);
  EXPECT_EQ(h.now().document.events.size(), events.size());
  EXPECT_EQ(h.advice().where, where);
  h.press(Key::escape);
  EXPECT_EQ(h.now().what_if_deg, std::nullopt);
}

TEST(Study, NextEventAndNextPosition) {
  Harness h;
  on_bench(h, "inline-six", Bench::teach);
  h.press(Key::right);
  h.press(Key::period);
  const double at_deg = h.now().what_if_deg.value();
  EXPECT_TRUE(std::any_of(study(h).events().begin(), study(h).events().end(),
                          [&](const CrankEvent& e) { return e.at_deg == at_deg; }));
  EXPECT_GT(at_deg, 1);
  h.press(Key::comma);
  h.press(Key::comma);
  EXPECT_NE(h.now().what_if_deg.value(), at_deg);
  // From 35 degrees the contract's plan turns to 395.
  h.queue(MoveWhatIf{35});
  h.press(Key::page_down);
  EXPECT_EQ(h.now().what_if_deg, 395);
}

// A class looks at the needle: what closes a word must not throw it back.
TEST(Teach, EscapeClosesOneThingAtATime) {
  Harness h;
  on_bench(h, "inline-six", Bench::teach);
  h.queue(MoveWhatIf{358});
  h.click("term overlap");
  EXPECT_NE(text_that_begins(h, "overlap: "), "");
  EXPECT_TRUE(h.says("for 22°, from 12° before overlap TDC to 10° after")) << "the file's own events";
  h.press(Key::escape);
  EXPECT_TRUE(study(h).term.empty());
  EXPECT_EQ(h.now().what_if_deg, 358);
  h.press(Key::escape);
  h.press(Key::escape);
  EXPECT_FALSE(h.now().what_if_deg);
}

TEST(Teach, EventsAreThoseOfTheCylinderShown) {
  Harness h;
  on_bench(h, "inline-six", Bench::teach);
  h.queue(MoveWhatIf{0});
  study(h).cylinder = 1;
  // Of cylinder 1 alone, by the file: the exhaust opens first after firing TDC of it, before BDC.
  for (int n = 0; n < 8; ++n) {
    h.press(Key::period);
    const std::string here = text_that_begins(h, "Here: ");
    ASSERT_FALSE(here.empty());
    EXPECT_NE(here.find(" of 1 "), std::string::npos) << here;
  }
}

TEST(Teach, ANumberBesideTheLanesChoosesItsCylinder) {
  Harness h;
  on_bench(h, "inline-six", Bench::teach);
  h.queue(MoveWhatIf{100});
  const Box box = h.need("timeline").box;
  std::set<int> chosen;
  for (double y = box.y + 5; y < box.bottom(); y += 12) {
    h.click_at({box.x + 6, y});
    chosen.insert(study(h).cylinder);
    EXPECT_EQ(h.now().what_if_deg, 100);
  }
  EXPECT_EQ(chosen.size(), 6u);
}

TEST(Study, TheNeedleOutGivesNoAdviceAtWork) {
  Harness h;
  on_bench(h, "inline-six", Bench::explore);
  h.press(Key::right);
  h.press(Key::f1);
  EXPECT_EQ(h.now().document.bench, Bench::work);
  h.click("Put the needle back");
  EXPECT_EQ(h.now().what_if_deg, std::nullopt);
}

TEST(Study, PointerDragsTheNeedleWheelZoomsRightButtonPans) {
  Harness h;
  on_bench(h, "v8-cross-plane", Bench::teach);
  const Box box = h.need("timeline").box;
  const Point at = middle(box);
  drag(h, at, {at.x + box.w / 4, at.y});
  const double dragged_deg = h.now().what_if_deg.value();
  EXPECT_NEAR(dragged_deg, 360 + 180, 40);
  EXPECT_TRUE(h.now().document.events.empty());
  wheel(h, at, 3);
  EXPECT_NEAR(study(h).timeline.range.span_deg(), 720 * 0.85 * 0.85 * 0.85, 1e-6);
  const double from_deg = study(h).timeline.range.from_deg;
  drag(h, at, {at.x - box.w / 8, at.y}, 1);
  EXPECT_GT(study(h).timeline.range.from_deg, from_deg);
  EXPECT_EQ(h.now().what_if_deg, dragged_deg);
  h.press(Key::digit0);
  EXPECT_EQ(study(h).timeline.range, TimelineRange{});
}

TEST(Study, RunsUntilItIsStopped) {
  Harness h;
  on_bench(h, "inline-six", Bench::teach);
  h.press(Key::space);
  EXPECT_TRUE(study(h).timeline.running);
  EXPECT_EQ(h.viewer.ui().wake_after_s(), 0);
  const double before_deg = h.now().what_if_deg.value();
  h.viewer.frame(h.session, {1600, 1000, 0}, 0.05);
  // 5 turns a minute are 30 degrees a second.
  EXPECT_NEAR(h.now().what_if_deg.value() - before_deg, 1.5, 1e-5);
  h.click("Stop");
  EXPECT_FALSE(study(h).timeline.running);
}

TEST(Study, ButtonsOfTheTimeline) {
  Harness h;
  on_bench(h, "inline-six", Bench::teach);
  h.click("Firing order");
  EXPECT_EQ(study(h).timeline.order, LaneOrder::number);
  h.click("at firing TDC");
  EXPECT_EQ(study(h).timeline.start_at, StartAt::overlap_tdc);
  h.click("From cylinder 1");
  EXPECT_EQ(study(h).timeline.start_cylinder, 2);
  h.press(Key::home);
  EXPECT_EQ(h.now().what_if_deg, wrap_deg(study(h).engine().find(2)->firing_tdc_deg + 360));
}

TEST(Teach, ExplainsAWordWhenItIsPressed) {
  Harness h;
  on_bench(h, "inline-six", Bench::teach);
  h.click("companion cylinders");
  EXPECT_TRUE(std::any_of(h.items().texts.begin(), h.items().texts.end(),
                          [](const TextItem& t) { return t.text.starts_with("companion cylinders: "); }));
  h.press(Key::digit3);
  EXPECT_EQ(study(h).cylinder, 3);
  h.press(Key::down);
  EXPECT_EQ(study(h).cylinder, 4);
}

TEST(Explore, PicksAnotherEngineAndLeavesTheJobAlone) {
  Harness h;
  on_bench(h, "inline-six", Bench::explore);
  h.log(MarkRead{35, 2});
  h.click("search");
  h.viewer.input.push(Typed{"radial"});
  h.settle();
  EXPECT_EQ(study(h).query, "radial");
  h.click("engine radial-nine");
  EXPECT_EQ(study(h).engine().cylinders.size(), 9u);
  EXPECT_EQ(h.now().document.engine_name, "inline-six");
  EXPECT_EQ(h.now().document.events.size(), 1u);
  h.click("Start a job on it");
  EXPECT_EQ(h.now().document.engine_name, "radial-nine");
  EXPECT_EQ(h.now().document.bench, Bench::work) << "a job is done at Work";
  h.press(Key::escape);
  h.press({Key::z, false, true});
  EXPECT_EQ(h.now().document.engine_name, "inline-six");
  EXPECT_EQ(h.now().document.events.size(), 1u);
}

TEST(Explore, TypingIsNotTakenForKeys) {
  Harness h;
  on_bench(h, "inline-six", Bench::explore);
  h.click("search");
  const Theme theme = h.now().document.preferences.theme;
  h.viewer.input.push(KeyChanged{{Key::t}, true});
  h.viewer.input.push(Typed{"t"});
  h.viewer.input.push(KeyChanged{{Key::t}, false});
  h.settle();
  EXPECT_EQ(h.now().document.preferences.theme, theme);
  EXPECT_EQ(study(h).query, "t");
}

TEST(Explore, SlidersChangeTheEngineLiveAndGoBackWithOneKey) {
  Harness h;
  on_bench(h, "inline-six", Bench::explore);
  const double sure_deg = study(h).windows()[0].sure.total_deg();
  const Box box = h.need("Intake closes after BDC").box;
  drag(h, {box.x + 0.6 * box.w, box.bottom() - 4}, {box.x + 0.9 * box.w, box.bottom() - 4});
  EXPECT_TRUE(study(h).tinker.changed());
  EXPECT_LT(study(h).windows()[0].sure.total_deg(), sure_deg - 10);
  EXPECT_EQ(h.now().document.engine->spec, study(h).tinker.file()) << "the job's engine stays";
  // One pull is one step back.
  h.press({Key::z, false, true});
  EXPECT_FALSE(study(h).tinker.changed());
  h.press({Key::y, false, true});
  EXPECT_TRUE(study(h).tinker.changed());
  h.press(Key::backspace);
  EXPECT_FALSE(study(h).tinker.changed());
  EXPECT_EQ(study(h).windows()[0].sure.total_deg(), sure_deg);
}

bool overlaps(const Box& a, const Box& b) {
  return a.x + 0.5 < b.right() && b.x + 0.5 < a.right() && a.y + 0.5 < b.bottom() && b.y + 0.5 < a.bottom();
}

std::string at(const Box& b) {
  std::ostringstream out;
  out << "[" << b.x << " " << b.y << " " << b.w << " " << b.h << "]";
  return out.str();
}

TEST(Study, CaptionAndReadingsCountFromTheStartThatIsChosen) {
  Harness h;
  on_bench(h, "inline-six", Bench::teach);  // fires 1-5-3-6-2-4 every 120 degrees: cylinder 3 at 240
  h.queue(MoveWhatIf{300});
  EXPECT_FALSE(text_that_begins(h, "Cylinder 1, at 300°").empty());
  h.click("start cylinder");
  h.click("start cylinder");
  ASSERT_EQ(study(h).timeline.start_cylinder, 3);
  h.rest();
  EXPECT_FALSE(text_that_begins(h, "Cylinder 1, at 60°").empty());
  std::string caption;
  for (const TextItem& t : h.items().texts)
    if (t.box.y < h.need("timeline").box.y) caption += t.text + " ";
  EXPECT_NE(caption.find("firing TDC of cylinder 3"), std::string::npos) << caption;
  EXPECT_NE(caption.find("480°"), std::string::npos) << caption;  // where cylinder 1 fires, counted so
}

TEST(Study, TheEventLineAlwaysSpeaksOfThePresentAngle) {
  Harness h;
  on_bench(h, "inline-six", Bench::explore);
  h.press(Key::right);
  h.press(Key::period);
  const std::string here = text_that_begins(h, "Here: ");
  ASSERT_FALSE(here.empty());
  const std::string what = here.substr(6, here.find('.') - 6);
  h.press(Key::right);
  EXPECT_TRUE(text_that_begins(h, "Here: ").empty());
  EXPECT_TRUE(text_that_begins(h, "1° back: ").starts_with("1° back: " + what));
  const Box box = h.need("timeline").box;
  drag(h, middle(box), {box.x + 0.8 * box.w, box.y + box.h / 2});
  EXPECT_EQ(text_that_begins(h, "1° back: " + what), "");
  // Whatever it says of the next event is true: as far on as that, and not before, there is one.
  const std::vector<CrankEvent> next =
      next_events(study(h).events(), h.now().what_if_deg.value(), Way::forward);
  bool said = false;
  for (const TextItem& t : h.items().texts)
    said = said || t.text.find("In " + angle_in(forward_deg(*h.now().what_if_deg, next[0].at_deg)) + ": ") !=
                       std::string::npos;
  EXPECT_TRUE(said);
}

TEST(Study, ANeedleOutOfSightLeavesAnArrowThatBringsItBack) {
  Harness h;
  on_bench(h, "v8-cross-plane", Bench::teach);
  h.queue(MoveWhatIf{100});
  EXPECT_EQ(h.items().by_id("to needle"), nullptr);
  study(h).timeline.range = {300, 420};
  h.settle();
  const Box plot = h.need("timeline").box;
  EXPECT_LT(h.need("to needle").box.x, plot.x + plot.w / 2) << "200 degrees back, 400 on";
  h.click("to needle");
  EXPECT_EQ(h.items().by_id("to needle"), nullptr);
  const TimelineRange range = study(h).timeline.range;
  EXPECT_EQ(range.span_deg(), 120);
  EXPECT_LT(forward_deg(range.from_deg, 100), 120);
  EXPECT_EQ(h.now().what_if_deg, 100) << "the needle itself stays";
  study(h).timeline.range = {500, 700};
  h.settle();
  EXPECT_GT(h.need("to needle").box.x, plot.x + plot.w / 2) << "120 degrees on, 400 back";
}

TEST(Study, NoMillimetresInUsMeasures) {
  for (const Bench bench : {Bench::teach, Bench::explore})
    for (const char* engine : {"inline-six", "inline-five"}) {
      Harness h;
      Preferences preferences;
      preferences.measures = Measures::us;
      on_bench(h, engine, bench, preferences);
      h.queue(MoveWhatIf{450});
      if (bench == Bench::explore) turn_knob(h, KnobKind::clearance, 0.2);
      bool inches = false;
      for (const TextItem& t : h.items().texts) {
        EXPECT_EQ(t.text.find(" mm"), std::string::npos) << t.text;
        inches = inches || t.text.find(" in") != std::string::npos;
      }
      EXPECT_TRUE(inches);
    }
}

TEST(Study, TipsStandBesideWhatTheyExplain) {
  for (const Bench bench : {Bench::teach, Bench::explore}) {
    Harness h(1280, 720);
    on_bench(h, "inline-six", bench);
    size_t tips = 0;
    const std::vector<Item> items = h.items().items;
    for (const Item& item : items) {
      const Point centre = middle(item.box);
      h.viewer.input.push(PointerMoved{centre.x, centre.y});
      h.settle();
      h.rest();
      const std::optional<Box> tip = h.viewer.ui().tip_box();
      if (!tip) continue;
      ++tips;
      EXPECT_FALSE(overlaps(*tip, item.box)) << item.id << at(item.box) << at(*tip);
      EXPECT_TRUE(tip->x >= 0 && tip->y >= 0 && tip->right() <= 1280 && tip->bottom() <= 720) << item.id;
    }
    EXPECT_GT(tips, 8u);
  }
}

/// Nothing outside the window, nothing overlapping, no id twice, no text wider than its room.
void check_places(Harness& h, double width, double height) {
  const Items& items = h.items();
  ASSERT_GT(items.items.size(), 10u);
  for (size_t i = 0; i < items.items.size(); ++i) {
    const Item& a = items.items[i];
    EXPECT_TRUE(a.box.x >= 0 && a.box.y >= 0 && a.box.right() <= width && a.box.bottom() <= height)
        << a.id << at(a.box);
    for (size_t k = i + 1; k < items.items.size(); ++k) {
      EXPECT_FALSE(overlaps(a.box, items.items[k].box))
          << a.id << at(a.box) << " and " << items.items[k].id << at(items.items[k].box);
      EXPECT_NE(a.id, items.items[k].id);
    }
  }
  for (size_t i = 0; i < items.texts.size(); ++i) {
    const TextItem& t = items.texts[i];
    EXPECT_LE(t.box.w, t.room.w + 1) << "'" << t.text << "' is clipped " << at(t.room);
    EXPECT_GE(t.line_px, 8) << "'" << t.text << "' is too small to read";
    EXPECT_TRUE(t.box.x >= -0.5 && t.box.right() <= width + 0.5 && t.box.bottom() <= height + 0.5)
        << t.text << at(t.box);
    for (size_t k = i + 1; k < items.texts.size(); ++k)
      EXPECT_FALSE(overlaps(t.box, items.texts[k].box))
          << "'" << t.text << "' over '" << items.texts[k].text << "'";
  }
}

class StudyScreens : public ::testing::TestWithParam<std::string> {};

TEST_P(StudyScreens, EverythingHasItsPlace) {
  for (const auto& [width, height] : {std::pair{1280, 720}, {1600, 1000}, {1920, 1080}, {2560, 1440}})
    for (const double scale : {1.0, 1.5, 2.0})
      for (const Bench bench : {Bench::teach, Bench::explore}) {
        SCOPED_TRACE(std::to_string(width) + "x" + std::to_string(height) + " at " + std::to_string(scale) +
                     (bench == Bench::teach ? " teach" : " explore"));
        Harness h(width, height);
        Preferences preferences;
        preferences.scale = scale;
        on_bench(h, GetParam(), bench, preferences);
        check_places(h, width, height);
        if (bench == Bench::explore) {
          study(h).knob(KnobKind::closes, 0, 80, false);
          study(h).knob(KnobKind::bank_angle, 0, 75, false);
          h.settle();
          check_places(h, width, height);
          study(h).ask_save_name();
          h.settle();
          check_places(h, width, height);
          study(h).save_name.reset();
          study(h).open("straight-eight");  // what was tried on the other one gets its row
          h.settle();
          check_places(h, width, height);
        }
        if (HasFailure()) return;
      }
}
INSTANTIATE_TEST_SUITE_P(Engines, StudyScreens,
                         ::testing::Values("inline-six", "v8-cross-plane", "flat-six", "v12", "w12",
                                           "radial-nine", "single"),
                         [](const auto& engine) {
                           std::string name = engine.param;
                           std::erase(name, '-');
                           return name;
                         });

TEST(Study, TabReachesEveryItem) {
  for (const Bench bench : {Bench::teach, Bench::explore}) {
    Harness h;
    on_bench(h, "v8-cross-plane", bench);
    std::vector<std::string> wanted;
    for (const Item& item : h.items().items)
      if (item.enabled) wanted.push_back(item.id);
    std::vector<std::string> reached;
    for (size_t i = 0; i < 2 * wanted.size(); ++i) {
      h.press(Key::tab);
      for (const std::string& id : wanted)
        if (h.viewer.ui().focus_is(id)) reached.push_back(id);
    }
    for (const std::string& id : wanted)
      EXPECT_TRUE(std::find(reached.begin(), reached.end(), id) != reached.end()) << id;
  }
}

}  // namespace
}  // namespace shutlane
