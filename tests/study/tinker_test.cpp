// Other numbers on an engine: what follows, what is said of it, and that nothing of the file is lost.
#include "ui/window/study/tinker.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <thread>

#include "engines/catalog.hpp"
#include "sim/shut/windows.hpp"
#include "tests/drawings/demo_engines.hpp"
#include "tests/folder.hpp"
#include "ui/window/study/engine_file.hpp"
#include "ui/window/study/engine_list.hpp"
#include "ui/window/study/readings.hpp"

namespace shutlane {
namespace {

double shut_deg(const Engine& engine) { return shut_windows(engine)[0].shut.total_deg(); }

TEST(Tinker, BeginsAsTheFileSays) {
  for (const EngineSpec& spec : demo::all_specs()) {
    Tinker tinker(demo::built(spec));
    EXPECT_FALSE(tinker.changed());
    EXPECT_TRUE(tinker.changes().empty());
    for (const Knob& knob : tinker.knobs()) {
      EXPECT_FALSE(knob.changed()) << spec.name << " " << knob.label;
      EXPECT_LE(knob.low, knob.value) << knob.label;
      EXPECT_GE(knob.high, knob.value) << knob.label;
      // Turned to where it stands it changes nothing.
      tinker.set(knob.kind, knob.valve, knob.value);
      EXPECT_FALSE(tinker.changed()) << spec.name << " " << knob.label;
    }
  }
}

TEST(Tinker, OpeningTenDegreesEarlierLeavesThePortShutForTenLess) {
  Tinker tinker(demo::named("Inline six"));
  const double before_deg = shut_deg(*tinker.engine());
  tinker.set(KnobKind::opens, 0, 22);
  EXPECT_NEAR(shut_deg(*tinker.engine()), before_deg - 10, 1e-9);
  ASSERT_EQ(tinker.changes().size(), 1u) << "only what was changed by hand";
  EXPECT_EQ(tinker.changes()[0].before, "12°");
  EXPECT_EQ(tinker.changes()[0].after, "22°");
}

TEST(Tinker, WholeCamEarlierKeepsTheDuration) {
  Tinker tinker(demo::named("Inline six"));
  const double before_deg = shut_deg(*tinker.engine());
  tinker.set(KnobKind::earlier, 0, 15);
  EXPECT_EQ(tinker.spec().valves[0].opens_deg, 27);
  EXPECT_EQ(tinker.spec().valves[0].closes_deg, 33);
  EXPECT_NEAR(shut_deg(*tinker.engine()), before_deg, 1e-9);
  tinker.set(KnobKind::earlier, 0, 0);
  EXPECT_FALSE(tinker.changed());
}

TEST(Tinker, ListsOnlyWhatWasChangedByHand) {
  Tinker tinker(demo::named("Inline six"));
  tinker.set(KnobKind::earlier, 0, 15);
  ASSERT_EQ(tinker.changes().size(), 1u);
  EXPECT_EQ(tinker.changes()[0].after, "15°");
  // Opening five degrees earlier on top of it is a second change, and no third.
  tinker.set(KnobKind::opens, 0, 32);
  EXPECT_EQ(tinker.changes().size(), 2u);
  EXPECT_EQ(tinker.spec().valves[0].closes_deg, 33);
  tinker.set(KnobKind::earlier, 0, 0);
  EXPECT_EQ(tinker.spec().valves[0].opens_deg, 17);
  EXPECT_EQ(tinker.spec().valves[0].closes_deg, 48);
  EXPECT_EQ(tinker.changes().size(), 1u);
}

// 0.1 mm by the inch of 25.4 mm is 0.0039 in, 9.7 mm are 0.382 in: by hand.
TEST(Tinker, ChangesAreListedInTheChosenMeasures) {
  Tinker tinker(demo::named("Inline six"));
  tinker.set(KnobKind::clearance, 0, 0.1);
  tinker.set(KnobKind::lift, 0, 9.0);
  const auto us = tinker.changes(Measures::us);
  ASSERT_EQ(us.size(), 2u);
  EXPECT_EQ(us[0].after, "0.0039 in");
  EXPECT_EQ(us[1].before, "0.382 in");
  EXPECT_EQ(tinker.changes()[0].after, "0.10 mm");
}

// The file of a V8 states its pins; with the banks moved and the firing kept, every pin follows its bank: the
// left one's by as much as the bank, counted from cylinder 1's, which stands in the left bank.
TEST(Tinker, StatedCrankPinsAreKeptAndFollowTheBanks) {
  const Engine engine = std::get<Engine>(find_engine("v8-cross-plane"));
  ASSERT_FALSE(engine.spec.layout.crank_pins_deg.empty());
  Tinker tinker(engine);
  for (const bool keep : {true, false}) {
    tinker.set_keep_crank(keep);
    tinker.set(KnobKind::bank_angle, 0, 75);
    ASSERT_TRUE(tinker.mistakes().empty()) << tinker.mistakes().front().wrong;
    const auto& stated = tinker.engine()->spec.layout.crank_pins_deg;
    ASSERT_EQ(stated.size(), engine.spec.layout.crank_pins_deg.size());
    double furthest_deg = 0;
    for (const Cylinder& c : tinker.engine()->cylinders) {
      EXPECT_NEAR(std::remainder(c.crank_pin_deg - stated.at(c.number), 360.0), 0, 0.01) << c.number;
      const double moved_deg =
          std::remainder(stated.at(c.number) - engine.spec.layout.crank_pins_deg.at(c.number), 360.0);
      furthest_deg = std::max(furthest_deg, std::fabs(moved_deg));
    }
    EXPECT_NEAR(furthest_deg, keep ? 0 : 15, 0.01) << "90 degrees made 75";
  }
}

TEST(Tinker, PhaserNarrowsOnlyTheSureWindow) {
  Tinker tinker(demo::named("Inline six"));
  const Windows before = shut_windows(*tinker.engine())[0];
  tinker.set(KnobKind::may_be_earlier, 0, 20);
  const Windows after = shut_windows(*tinker.engine())[0];
  EXPECT_EQ(after.shut, before.shut);
  EXPECT_NEAR(after.sure.total_deg(), before.sure.total_deg() - 20, 1e-9);
}

// A V8 of 90 degrees made one of 60 with its crank kept: the right bank's pistons come to their tops 30
// degrees sooner, turning clockwise the pin passes a bank that leans less earlier. By hand: intervals
// alternate between 90 -+ 30 and sum to 720.
TEST(Tinker, NarrowerBanksWithTheSameCrankFireUnevenly) {
  Tinker tinker(demo::named("V8"));
  const auto old_pins = [&] {
    std::map<int, double> all;
    for (const Cylinder& c : tinker.engine()->cylinders) all[c.number] = c.crank_pin_deg;
    return all;
  }();
  tinker.set(KnobKind::bank_angle, 0, 60);
  ASSERT_TRUE(tinker.mistakes().empty());
  const auto& intervals = tinker.spec().layout.firing_intervals_deg;
  ASSERT_EQ(intervals.size(), 8u);
  double sum_deg = 0;
  for (const double deg : intervals) {
    EXPECT_TRUE(std::fabs(deg - 60) < 1e-6 || std::fabs(deg - 120) < 1e-6 || std::fabs(deg - 90) < 1e-6)
        << deg;
    sum_deg += deg;
  }
  EXPECT_NEAR(sum_deg, 720, 1e-9);
  for (const Cylinder& c : tinker.engine()->cylinders)
    EXPECT_NEAR(std::remainder(c.crank_pin_deg - old_pins.at(c.number), 360.0), 0, 1e-3) << c.number;
  // The other way: even firing is kept, pins move.
  tinker.set_keep_crank(false);
  EXPECT_TRUE(tinker.spec().layout.firing_intervals_deg.empty());
  EXPECT_EQ(tinker.spec().layout.firing_order, tinker.file().layout.firing_order);
  bool moved = false;
  for (const Cylinder& c : tinker.engine()->cylinders)
    moved = moved || std::fabs(std::remainder(c.crank_pin_deg - old_pins.at(c.number), 360.0)) > 1;
  EXPECT_TRUE(moved);
}

TEST(Tinker, MistakesLeaveTheLastGoodEngine) {
  Tinker tinker(demo::named("Inline six"));
  tinker.set(KnobKind::rod, 0, 60);
  const auto good = tinker.engine();
  tinker.set(KnobKind::offset, 0, 25);  // the rod no longer reaches round
  EXPECT_FALSE(tinker.mistakes().empty());
  EXPECT_EQ(tinker.engine(), good);
  tinker.back_to_file();
  EXPECT_TRUE(tinker.mistakes().empty());
  EXPECT_FALSE(tinker.changed());
  EXPECT_EQ(tinker.engine()->spec, tinker.file());
}

TEST(EngineFile, SavesWhatTheKnobsSayAndReadsItBack) {
  const Folder folder;
  for (const EngineSpec& spec : demo::all_specs()) {
    Tinker tinker(demo::built(spec));
    tinker.set(KnobKind::opens, 0, 21);
    tinker.set(KnobKind::bank_angle, 0, 72);
    const std::string path = free_path(folder.path(), spec.name);
    ASSERT_EQ(save_engine(tinker.engine()->spec, path), std::nullopt) << spec.name;
    const auto back = find_engine(path);
    ASSERT_TRUE(std::holds_alternative<Engine>(back)) << std::get<std::string>(back);
    EXPECT_EQ(std::get<Engine>(back).spec, tinker.spec()) << spec.name;
    // What is there is never written over.
    EXPECT_TRUE(save_engine(spec, path).has_value());
    EXPECT_NE(free_path(folder.path(), spec.name), path);
  }
  EXPECT_TRUE(save_engine(demo::all_specs()[0], folder.file("none/at/all.toml")).has_value());
}

std::optional<ReadFile> wait_for(FileWatch& watch) {
  for (int n = 0; n < 300; ++n) {
    if (auto read = watch.take()) return read;
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  }
  return std::nullopt;
}

TEST(EngineFile, ReadsAChangedFileAgainAndTellsItsMistakes) {
  const Folder folder;
  const std::string path = folder.file("own.toml");
  EngineSpec spec = demo::spec("Own", {1}, {{0, {1}}});
  std::ofstream(path) << write_engine(spec);
  std::atomic<int> woken = 0;
  FileWatch watch(
      path, [&] { ++woken; }, 0.01);
  std::this_thread::sleep_for(std::chrono::milliseconds(50));
  EXPECT_FALSE(watch.take().has_value()) << "nothing changed yet";

  spec.cylinder.bore_mm = 90.5;
  std::ofstream(path) << write_engine(spec);
  auto read = wait_for(watch);
  ASSERT_TRUE(read.has_value());
  // It may have been caught half written; then it is read once more.
  while (read && !std::holds_alternative<Engine>(*read)) read = wait_for(watch);
  ASSERT_TRUE(read.has_value());
  EXPECT_EQ(std::get<Engine>(*read).spec.cylinder.bore_mm, 90.5);
  EXPECT_GE(woken, 1);

  std::this_thread::sleep_for(std::chrono::milliseconds(30));
  std::ofstream(path) << "format = 1\nname = 7\n";
  read = wait_for(watch);
  ASSERT_TRUE(read.has_value());
  ASSERT_TRUE(std::holds_alternative<std::string>(*read));
  EXPECT_NE(std::get<std::string>(*read).find(path + ":"), std::string::npos);
}

TEST(EngineList, HoldsEveryBundledEngineAndFindsByWords) {
  const auto& all = bundled_entries();
  EXPECT_EQ(all.size(), bundled_files().size());
  EXPECT_EQ(matching(all, "").size(), all.size());
  EXPECT_EQ(matching(all, "zeppelin").size(), 0u);
  const auto v8 = matching(all, "V8 90");
  EXPECT_FALSE(v8.empty());
  for (const EngineEntry* e : v8) EXPECT_EQ(e->drawn.firing_order.size(), 8u) << e->name;
  const auto six = matching(all, "1-5-3-6-2-4");
  EXPECT_TRUE(
      std::any_of(six.begin(), six.end(), [](const EngineEntry* e) { return e->name == "inline-six"; }));
}

// The contract's true answers for its own engine at 35 degrees.
TEST(Readings, SayWhatTheContractSays) {
  const Engine engine = demo::named("Inline six");
  const auto windows = shut_windows(engine);
  EXPECT_EQ(port_in_words(windows[0], 35), "surely shut for another 300°");
  EXPECT_EQ(port_in_words(windows[2], 35), "open");
  EXPECT_EQ(port_in_words(windows[0], 595), "not surely shut");
  EXPECT_EQ(port_in_words(windows[0], 335), "surely shut for another 0°");
  const auto said = readings(engine, windows[2], 35, Measures::metric);
  EXPECT_EQ(said[1].value, "intake, 515° after firing TDC");
  EXPECT_EQ(length_in(25.4, Measures::us), "1.000 in");
  EXPECT_EQ(length_in(7.04, Measures::metric), "7.0 mm");
  EXPECT_EQ(angle_in(-0.04), "0°");
  EXPECT_EQ(angle_in(12.46), "12.5°");
}

TEST(Readings, NeverSaySurelyShutInAStretchThatIsNotSure) {
  for (const EngineSpec& spec : demo::all_specs()) {
    const Engine engine = demo::built(spec);
    for (const Windows& w : shut_windows(engine))
      for (double deg = 0; deg < 720; deg += 3.1)
        if (!w.sure.contains(deg)) {
          EXPECT_EQ(port_in_words(w, deg), w.shut.contains(deg) ? "not surely shut" : "open") << spec.name;
        }
  }
}

}  // namespace
}  // namespace shutlane
