// The saved state: what is written comes back, and nothing that is not a whole state is taken for one.
#include <filesystem>
#include <fstream>

#include "tests/window/harness.hpp"
#include "ui/window/saved/saver.hpp"
#include "ui/window/saved/state_file.hpp"

namespace shutlane {
namespace {

namespace fs = std::filesystem;

class SavedFolder {
 public:
  SavedFolder() {
    std::string name = (fs::temp_directory_path() / "shutlane-XXXXXX").string();
    path = mkdtemp(name.data());
  }
  ~SavedFolder() { fs::remove_all(path); }
  std::string path;
};

Document full_document() {
  Document d;
  d.engine_name = "v8-cross-plane";
  d.engine = std::make_shared<const Engine>(std::get<Engine>(find_engine(d.engine_name)));
  d.demo = true;
  d.rules = {5, 45, 1.0, TurnBy::bar, kMostOpen, kMostHarmed, true, true};
  d.margin_reason = "cam marks checked";
  d.bench = Bench::explore;
  d.preferences = {Theme::light, 1.25, 141, Measures::us, true, {"flat-four"}};
  const std::vector<JobEvent> all{LookedInto{1, Saw::shut},
                                  LookedInto{2, Saw::open},
                                  LookedInto{3, Saw::hidden},
                                  LooksForgotten{},
                                  CauseChosen{Suspicion::chain, 0, 1},
                                  BlastStarted{1},
                                  BlastStopped{1},
                                  PortDone{1},
                                  PortAgain{1},
                                  Reachable{4, false},
                                  OnlyBank{size_t{1}},
                                  OnlyBank{},
                                  MarkRead{0.1, 5},
                                  LobeSeen{1, Lobe::away},
                                  LobeSeen{2, Lobe::at_valve},
                                  LobeSeen{3, Lobe::unclear},
                                  SuckedOut{},
                                  InsideLooked{2, Inside::sucked_out},
                                  PortsEmptied{},
                                  BungsCounted{},
                                  BungMissing{},
                                  ChalkSeen{true},
                                  ChalkSeen{false},
                                  NoChalk{},
                                  Turned{180.25, 360},
                                  Bumped{},
                                  Bumped{0.24, true},
                                  PressStarted{0.06},
                                  AbrasiveLeft{2},
                                  NoMark{},
                                  CrankMoved{}};
  EXPECT_EQ(all.size(), std::variant_size_v<JobEvent> + 7) << "an event is missing here";
  double at_s = 1.5;
  for (const JobEvent& event : all) d.events.push_back({event, at_s += 0.1});
  return d;
}

TEST(Saved, EverythingComesBack) {
  const Document before = full_document();
  const auto read = from_json(to_json(before));
  ASSERT_TRUE(std::holds_alternative<Document>(read)) << std::get<std::string>(read);
  const Document& after = std::get<Document>(read);
  EXPECT_EQ(after.engine_name, before.engine_name);
  EXPECT_EQ(after.engine->spec, before.engine->spec);
  EXPECT_EQ(after.demo, before.demo);
  EXPECT_EQ(after.rules, before.rules);
  EXPECT_EQ(after.margin_reason, before.margin_reason);
  EXPECT_EQ(after.bench, before.bench);
  EXPECT_EQ(after.preferences, before.preferences);
  ASSERT_EQ(after.events.size(), before.events.size());
  for (size_t i = 0; i < before.events.size(); ++i) {
    EXPECT_EQ(after.events[i].event, before.events[i].event) << i;
    EXPECT_EQ(after.events[i].at_s, before.events[i].at_s) << i;
  }
}

TEST(Saved, NoCutTextIsTakenForAState) {
  const std::string whole = to_json(full_document());
  for (size_t length = 0; length + 2 < whole.size(); length += 17)
    EXPECT_TRUE(std::holds_alternative<std::string>(from_json(whole.substr(0, length)))) << length;
}

TEST(Saved, ValuesOutOfRangeAreRefused) {
  const std::string whole = to_json(full_document());
  auto with = [&](const std::string& from, const std::string& to) {
    std::string text = whole;
    const size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    text.replace(at, from.size(), to);
    return from_json(text);
  };
  EXPECT_TRUE(std::holds_alternative<std::string>(with("\"margin_deg\": 5.0", "\"margin_deg\": -5.0")));
  EXPECT_TRUE(std::holds_alternative<std::string>(with("\"turn_by\": \"bar\"", "\"turn_by\": \"horse\"")));
  EXPECT_TRUE(std::holds_alternative<std::string>(with("stop:1", "stopt:1")));
  EXPECT_TRUE(std::holds_alternative<std::string>(with("\"format\": 2", "\"format\": 1")));
}

/// A state that was tampered with makes no port blastable; but what it says was blown in has to come out.
TEST(Saved, ABlastWithoutWitnessesCountsAsAbrasiveOnly) {
  Harness h;
  Document d;
  d.engine_name = "inline-six";
  d.engine = std::make_shared<const Engine>(std::get<Engine>(find_engine("inline-six")));
  d.events = {{BlastStarted{1}, 0}, {PortDone{1}, 0}};
  h.session.restore(d);
  h.settle();
  EXPECT_EQ(h.advice().stage, Stage::clear) << "nobody has seen its valve shut";
  for (const PortView& port : h.advice().ports) EXPECT_FALSE(port.certain) << port.cylinder;
}

TEST(Saved, DamagedFileIsSetAsideUnderAFreeName) {
  const SavedFolder folder;
  const std::string path = folder.path + "/deep/state.json";
  EXPECT_FALSE(load_state(path).document);
  ASSERT_EQ(save_whole(path, to_json(full_document())), std::nullopt);
  EXPECT_TRUE(load_state(path).document);
  for (const int n : {1, 2}) {
    ASSERT_EQ(save_whole(path, "{"), std::nullopt);
    const Loaded loaded = load_state(path);
    EXPECT_FALSE(loaded.document);
    EXPECT_EQ(loaded.set_aside, path + ".damaged-" + std::to_string(n));
    EXPECT_TRUE(fs::exists(loaded.set_aside));
    EXPECT_FALSE(fs::exists(path));
  }
}

TEST(Saved, AFailedSaveLeavesTheLastWholeOne) {
  const SavedFolder folder;
  EXPECT_NE(save_whole("/proc/nothing/state.json", "x"), std::nullopt);
  const std::string path = folder.path + "/state.json";
  ASSERT_EQ(save_whole(path, "first"), std::nullopt);
  fs::permissions(path, fs::perms::owner_read);
  EXPECT_NE(save_whole(path, "second"), std::nullopt);
  EXPECT_EQ(std::get<std::string>(read_file(path)), "first");
}

TEST(Saved, TheSaverWritesTheLatestBeforeItEnds) {
  const SavedFolder folder;
  const std::string path = folder.path + "/state.json";
  {
    Saver saver(path);
    for (int i = 0; i <= 500; ++i) saver.save(std::to_string(i));
  }
  EXPECT_EQ(std::get<std::string>(read_file(path)), "500");
}

TEST(Saved, TheSaverSaysWhatIsNotOnTheDisk) {
  Saver nowhere("");
  EXPECT_NE(nowhere.failing(), "");
  EXPECT_EQ(nowhere.finish(), std::nullopt) << "nothing was given to it";
  Saver lost("");
  lost.save("x");
  EXPECT_NE(lost.finish(), std::nullopt);
  Saver refused("/proc/nothing/state.json");
  EXPECT_EQ(refused.failing(), "");
  refused.save("x");
  EXPECT_NE(refused.finish(), std::nullopt);
}

TEST(Saved, AFailedSaveIsTriedAgain) {
  const SavedFolder folder;
  const std::string path = folder.path + "/state.json";
  ASSERT_EQ(save_whole(path, "first"), std::nullopt);
  fs::permissions(path, fs::perms::owner_read);
  Saver saver(path, 0.05);
  saver.save("second");
  const auto wait_until = [](const auto& met) {
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(20);
    while (!met() && std::chrono::steady_clock::now() < end)
      std::this_thread::sleep_for(std::chrono::milliseconds(5));
    return met();
  };
  EXPECT_TRUE(wait_until([&] { return !saver.failing().empty(); }));
  EXPECT_EQ(std::get<std::string>(read_file(path)), "first");
  fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write);
  EXPECT_TRUE(wait_until([&] { return saver.failing().empty(); }));
  EXPECT_EQ(saver.finish(), std::nullopt);
  EXPECT_EQ(std::get<std::string>(read_file(path)), "second");
}

TEST(Saved, WhatIsNotSavedStandsLargeOverEveryPage) {
  Harness h;
  h.open("inline-six");
  EXPECT_FALSE(h.says("NOT SAVED"));
  h.viewer.ui().not_saved = "the disk is full";
  for (const Bench bench : {Bench::work, Bench::teach, Bench::explore}) {
    h.queue(ShowBench{bench});
    h.queue(ShowPage{Page::none});
    EXPECT_TRUE(h.says("NOT SAVED: the disk is full"));
    for (const TextItem& text : h.items().texts)
      if (text.text.starts_with("NOT SAVED")) {
        EXPECT_GE(h.mm(text.line_px), 4);
      }
  }
  h.viewer.ui().not_saved.clear();
  h.settle();
  EXPECT_FALSE(h.says("NOT SAVED"));
}

}  // namespace
}  // namespace shutlane
