// Sizes and places on every screen and engine that the window is meant for: nothing outside, nothing
// overlapping, no text out of its room, targets and state words as large in millimetres as gloves and two
// metres ask for.
#include <algorithm>
#include <set>
#include <sstream>

#include "tests/window/harness.hpp"

namespace shutlane {
namespace {

struct Screen {
  int width, height;
  double scale;
};

std::vector<Screen> screens() {
  std::vector<Screen> all;
  for (const auto& [w, h] : {std::pair{1280, 720}, {1600, 1000}, {1920, 1080}, {2560, 1440}})
    for (const double scale : {1.0, 1.5, 2.0}) all.push_back({w, h, scale});
  return all;
}

const std::vector<std::string> kEngines{"inline-six", "v8-cross-plane", "flat-six",       "v12",
                                        "w12",        "radial-nine",    "straight-eight", "single"};

const std::vector<std::string> kCounts{"1", "2", "3", "4", "5", "6", "8", "9", "10", "12"};

bool overlaps(const Box& a, const Box& b) {
  constexpr double kTouch = 0.5;
  return a.x + kTouch < b.right() && b.x + kTouch < a.right() && a.y + kTouch < b.bottom() &&
         b.y + kTouch < a.bottom();
}

bool inside(const Box& in, const Box& out, double slack) {
  return in.x >= out.x - slack && in.y >= out.y - slack && in.right() <= out.right() + slack &&
         in.bottom() <= out.bottom() + slack;
}

template <class... Part>
std::string said(const Part&... parts) {
  std::ostringstream out;
  ((out << parts << ' '), ...);
  return out.str();
}

std::string at(const Box& b) { return said("[", b.x, b.y, b.w, b.h, "]"); }

void check_places(Harness& h, const Screen& screen) {
  const Box window{0, 0, static_cast<double>(screen.width), static_cast<double>(screen.height)};
  const Items& items = h.items();
  ASSERT_GT(items.items.size(), 0u);
  ASSERT_GT(items.texts.size(), 3u);
  for (size_t i = 0; i < items.items.size(); ++i) {
    const Item& item = items.items[i];
    EXPECT_TRUE(inside(item.box, window, 0)) << item.id << at(item.box);
    EXPECT_GE(h.mm(item.box.w), kTarget_mm - 0.01) << item.id;
    EXPECT_GE(h.mm(item.box.h), kTarget_mm - 0.01) << item.id;
    for (size_t k = i + 1; k < items.items.size(); ++k) {
      EXPECT_FALSE(overlaps(item.box, items.items[k].box)) << item.id << " and " << items.items[k].id;
      EXPECT_NE(item.id, items.items[k].id) << "an id twice";
    }
  }
  for (const TextItem& text : items.texts) {
    EXPECT_TRUE(inside(text.box, window, 0)) << "'" << text.text << "' " << at(text.box);
    EXPECT_LE(text.box.w, text.room.w + 1) << "'" << text.text << "' is clipped";
    EXPECT_EQ(text.text.find("\u2026"), std::string::npos) << text.text;
  }
  for (size_t i = 0; i < items.texts.size(); ++i)
    for (size_t k = i + 1; k < items.texts.size(); ++k)
      EXPECT_FALSE(overlaps(items.texts[i].box, items.texts[k].box))
          << "'" << items.texts[i].text << "' " << at(items.texts[i].box) << " over '" << items.texts[k].text
          << "' " << at(items.texts[k].box);
}

/// Every state of a port at once, as far as the engine has ports.
void mix_states(Harness& h) {
  h.log(MarkRead{35, 2});
  const std::vector<Cylinder>& cylinders = h.now().document.engine->cylinders;
  for (size_t i = 0; i < cylinders.size(); ++i) {
    const int n = cylinders[i].number;
    const Saw saw = lifts_mm(*h.now().document.engine, cylinders[i], ValveKind::intake, 35)[0] > 0
                        ? Saw::open
                        : Saw::shut;
    h.log(LookedInto{n, i % 5 == 3 ? Saw::hidden : saw});
  }
  for (const Cylinder& c : cylinders) {
    if (!may_blast(*h.now().model, h.now().job, c.number)) continue;
    h.log(BlastStarted{c.number});
    if (h.advice().done == 0) h.log(PortDone{c.number});
  }
}

class EveryScreen : public ::testing::TestWithParam<std::string> {};

TEST_P(EveryScreen, WorkBench) {
  for (const Screen& screen : screens()) {
    SCOPED_TRACE(said(screen.width, screen.height, screen.scale));
    Harness h(screen.width, screen.height);
    Preferences preferences;
    preferences.scale = screen.scale;
    h.open(GetParam(), preferences);
    check_places(h, screen);
    mix_states(h);
    check_places(h, screen);
    for (const TextItem& text : h.items().texts)
      for (const PortView& port : h.advice().ports)
        if (text.text == port.word || port.word.starts_with(text.text + " ") ||
            port.word.ends_with(" " + text.text)) {
          EXPECT_GE(h.mm(text.line_px), kStateWord_mm - 0.3) << text.text;
        }
    h.queue(Pick{h.advice().ports.front().cylinder});
    check_places(h, screen);
    h.queue(ShowPage{Page::job_menu});
    check_places(h, screen);
    for (const Page page : {Page::settings, Page::cautions, Page::bump_cautions, Page::came_back}) {
      h.queue(ShowPage{page});
      check_places(h, screen);
    }
  }
}
INSTANTIATE_TEST_SUITE_P(Engines, EveryScreen, ::testing::ValuesIn(kEngines), [](const auto& engine) {
  std::string name = engine.param;
  std::erase(name, '-');
  return name;
});

TEST(EveryScreen, BumpOfTheStarter) {
  for (const std::string& engine : {std::string("inline-six"), std::string("v12")})
    for (const Screen& screen : screens()) {
      SCOPED_TRACE(said(engine, screen.width, screen.height, screen.scale));
      Harness h(screen.width, screen.height);
      Preferences preferences;
      preferences.scale = screen.scale;
      h.open(engine, preferences, TurnBy::starter);
      JobRules rules = h.now().document.rules;
      rules.most_open = 1;  // what it takes to make a port sure is not the matter here
      h.queue(SetRules{rules, ""});
      h.log(MarkRead{35, 2});
      for (const Cylinder& c : h.now().document.engine->cylinders)
        h.log(LookedInto{c.number, lifts_mm(*h.now().document.engine, c, ValveKind::intake, 35)[0] > 0
                                       ? Saw::open
                                       : Saw::shut});
      for (const Cylinder& c : h.now().document.engine->cylinders) {
        if (h.now().job.find(c.number)->seen != Saw::shut) continue;
        h.log(ChalkSeen{true});
        h.log(LookedInto{c.number, Saw::shut});
        h.log(BlastStarted{c.number});
        h.log(PortDone{c.number});
        h.log(ChalkSeen{true});
      }
      for (const JobEvent& event :
           {JobEvent(SuckedOut{}), JobEvent(PortsEmptied{}), JobEvent(BungsCounted{})})
        h.log(event);
      ASSERT_EQ(h.advice().stage, Stage::bump) << h.advice().sentence;
      h.wait_for_desk();
      check_places(h, screen);
      h.click("Start the beeps");
      for (const double seconds : {0.2, 1.0, 1.3, 0.5}) {
        h.run_for(seconds);
        check_places(h, screen);
      }
      h.run_for(3);
      ASSERT_TRUE(h.has("not pressed"));
      check_places(h, screen);
      if (HasFailure()) return;
    }
}

TEST(EveryScreen, StartPageWithEveryNumberOfCylinders) {
  for (const Screen& screen : screens())
    for (const std::string& cylinders : kCounts) {
      SCOPED_TRACE(said(screen.width, screen.height, screen.scale, cylinders));
      Harness h(screen.width, screen.height);
      Preferences preferences;
      preferences.scale = screen.scale;
      h.queue(SetPreferences{preferences});
      h.click(cylinders);
      h.click("Bar on the flywheel");
      check_places(h, screen);
      if (HasFailure()) return;
    }
}

// A tooltip over an answer would be pressed through by who did not see what lies below it.
TEST(EveryScreen, OnWorkNoTooltipCoversAnythingThatIsPressed) {
  Harness h(1280, 720);
  h.open("v8-cross-plane");
  size_t tips = 0;
  const std::vector<Item> items = h.items().items;
  for (const Item& item : items) {
    h.viewer.input.push(PointerMoved{item.box.x + item.box.w / 2, item.box.y + item.box.h / 2});
    h.settle();
    h.rest();
    const std::optional<Box> tip = h.viewer.ui().tip_box();
    if (!tip) continue;
    ++tips;
    for (const Item& other : items) EXPECT_FALSE(overlaps(*tip, other.box)) << item.id << " on " << other.id;
  }
  EXPECT_GT(tips, 10u);
}

TEST(Start, EveryBundledEngineIsOffered) {
  Harness h;
  std::set<std::string> offered;
  for (const std::string& cylinders : kCounts) {
    h.click(cylinders);
    for (const Item& item : h.items().items) offered.insert(item.id);
  }
  for (const BundledFile& file : bundled_files())
    EXPECT_TRUE(offered.count("engine " + std::string(file.name))) << file.name;
}

/// Tab alone reaches every item, and Enter presses it.
TEST(Keyboard, WalksOverEveryItem) {
  Harness h;
  h.open("v8-cross-plane");
  std::vector<std::string> walked;
  const size_t enabled = static_cast<size_t>(
      std::count_if(h.items().items.begin(), h.items().items.end(), [](const Item& i) { return i.enabled; }));
  for (size_t i = 0; i < enabled; ++i) {
    h.press(Key::tab);
    walked.push_back(h.viewer.ui().focus());
  }
  for (const Item& item : h.items().items)
    if (item.enabled) {
      EXPECT_EQ(std::count(walked.begin(), walked.end(), item.id), 1) << item.id;
    }
  while (h.viewer.ui().focus() != "port 5") h.press(Key::tab);
  h.press(Key::enter);
  EXPECT_EQ(h.now().picked, 5);
}

}  // namespace
}  // namespace shutlane
