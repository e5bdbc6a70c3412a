// Files of a person's own in the window: dropped, listed, changed on disk, saved.
#include <filesystem>
#include <fstream>
#include <thread>

#include "tests/folder.hpp"
#include "tests/window/study_hand.hpp"

namespace shutlane {
namespace {

/// Whether it comes about within three seconds.
template <class Done>
bool until(Harness& h, Done done) {
  for (int n = 0; n < 300 && !done(); ++n) {
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
    h.settle();
  }
  return done();
}

TEST(EngineFiles, ADroppedFileOpensAndAWrongOneLeavesTheLastGoodEngine) {
  const Folder folder;
  const std::string good = folder.file("own.toml"), bad = folder.file("bad.toml");
  EngineSpec spec = std::get<Engine>(find_engine("flat-six")).spec;
  spec.name = "Own six";
  std::ofstream(good) << write_engine(spec);
  std::ofstream(bad) << "format = 1\nnonsense = 2\n";
  Harness h;
  on_bench(h, "inline-six", Bench::explore);
  h.viewer.input.push(FileDropped{good});
  h.settle();
  EXPECT_EQ(study(h).engine().spec.name, "Own six");
  h.viewer.input.push(FileDropped{bad});
  h.settle();
  EXPECT_EQ(study(h).engine().spec.name, "Own six");
  EXPECT_NE(study(h).file_mistakes.find("bad.toml:2"), std::string::npos) << study(h).file_mistakes;
  EXPECT_TRUE(h.now().document.events.empty());
  EXPECT_EQ(h.now().document.engine_name, "inline-six");
}

TEST(EngineFiles, AChangedFileOfTheJobIsReadAgainAndMistakesLeaveTheLastGoodOne) {
  const Folder folder;
  const std::string path = folder.file("own.toml");
  EngineSpec spec = std::get<Engine>(find_engine("inline-six")).spec;
  std::ofstream(path) << write_engine(spec);
  Harness h;
  h.open(path);
  h.log(MarkRead{35, 2});
  std::this_thread::sleep_for(std::chrono::milliseconds(20));
  spec.cylinder.bore_mm = 85.5;
  std::ofstream(path) << write_engine(spec);
  EXPECT_TRUE(until(h, [&] { return h.now().document.engine->spec.cylinder.bore_mm == 85.5; }));
  EXPECT_EQ(h.now().document.events.size(), 1u) << "the job goes on";
  EXPECT_TRUE(study(h).of_the_job());
  std::ofstream(path) << "format = 1\nwrong = 3\n";
  EXPECT_TRUE(until(h, [&] { return study(h).file_mistakes.find("own.toml:2") != std::string::npos; }));
  EXPECT_EQ(h.now().document.engine->spec.cylinder.bore_mm, 85.5);
}

TEST(EngineFiles, TheJobFollowsItsFileWhileAnotherEngineIsShown) {
  const Folder folder;
  const std::string path = folder.file("own.toml");
  EngineSpec spec = std::get<Engine>(find_engine("inline-six")).spec;
  std::ofstream(path) << write_engine(spec);
  Harness h;
  h.open(path);
  h.log(LookedInto{1, Saw::shut});
  h.queue(ShowBench{Bench::explore});
  study(h).open("v8-cross-plane");
  h.settle();
  h.queue(ShowBench{Bench::work});
  std::this_thread::sleep_for(std::chrono::milliseconds(20));
  spec.valves[0].closes_deg = 66;
  std::ofstream(path) << write_engine(spec);
  EXPECT_TRUE(until(h, [&] { return h.now().document.engine->spec.valves[0].closes_deg == 66; }));
  EXPECT_EQ(h.now().model->engine.spec.valves[0].closes_deg, 66) << "advice too";
  EXPECT_NE(h.now().message.find("own.toml changed"), std::string::npos) << h.now().message;
  EXPECT_EQ(h.now().document.events.size(), 1u);
  EXPECT_EQ(study(h).engine_name(), "v8-cross-plane") << "what is explored stays";
  std::ofstream(path) << "format = 1\nwrong = 3\n";
  EXPECT_TRUE(until(h, [&] { return h.now().message.find("does not fit") != std::string::npos; }));
  EXPECT_EQ(h.now().document.engine->spec.valves[0].closes_deg, 66);
}

TEST(EngineFiles, AnOwnFileIsListedFirstAndFound) {
  const Folder folder;
  EngineSpec spec = std::get<Engine>(find_engine("flat-six")).spec;
  spec.name = "Zebra six";
  const std::string path = folder.file("stripes.toml");
  std::ofstream(path) << write_engine(spec);
  Harness h;
  on_bench(h, "inline-six", Bench::explore);
  EXPECT_FALSE(h.has("Zebra six"));
  h.viewer.input.push(FileDropped{path});
  h.settle();
  EXPECT_EQ(h.need("Zebra six").id, "engine " + path);
  EXPECT_FALSE(text_that_begins(h, "your file").empty());
  for (const Item& item : h.items().items)
    if (item.id.starts_with("engine ")) {
      EXPECT_EQ(item.id, "engine " + path) << "the first of the list";
      break;
    }
  h.click("engine single");
  EXPECT_EQ(study(h).engine_name(), "single");
  study(h).query = "zebra";
  h.settle();
  h.click("Zebra six");
  EXPECT_EQ(study(h).engine_name(), path);
}

TEST(EngineFiles, UnsavedNumbersWaitWhenAnotherEngineIsChosen) {
  Harness h;
  on_bench(h, "inline-six", Bench::explore);
  turn_knob(h, KnobKind::closes, 70);
  h.click("engine single");
  EXPECT_FALSE(study(h).tinker.changed());
  turn_knob(h, KnobKind::timing, 7);
  ASSERT_TRUE(study(h).tinker.changed());
  h.click("unsaved inline-six");
  EXPECT_EQ(study(h).engine_name(), "inline-six");
  EXPECT_EQ(study(h).tinker.spec().valves[0].closes_deg, 70);
  EXPECT_EQ(study(h).engine().spec.valves[0].closes_deg, 70);
  EXPECT_TRUE(study(h).of_the_job());
  EXPECT_EQ(h.items().by_id("unsaved inline-six"), nullptr) << "they are on the knobs again";
  EXPECT_NE(h.items().by_id("unsaved single"), nullptr) << h.listed();
  h.press({Key::z, false, true});
  EXPECT_FALSE(study(h).tinker.changed()) << "its steps can still be undone";
}

TEST(EngineFiles, SaveAsAsksForANameAndNeverWritesOver) {
  const Folder folder;
  Harness h;
  h.viewer.ui().own_engines = folder.file("own");
  on_bench(h, "v8-cross-plane", Bench::explore);
  turn_knob(h, KnobKind::closes, 70);
  h.click("Save as");
  ASSERT_TRUE(study(h).save_name.has_value());
  std::string said;
  for (const TextItem& t : h.items().texts) said += t.text + " ";
  EXPECT_NE(said.find(folder.file("own")), std::string::npos) << "the folder is shown: " << said;
  EXPECT_NE(said.find("Comments"), std::string::npos) << said;
  // The field has the keyboard: what is typed replaces the name that was offered.
  h.press(Key::backspace);
  EXPECT_TRUE(study(h).tinker.changed()) << "backspace is the field's";
  h.viewer.input.push(Typed{"mine"});
  h.settle();
  EXPECT_EQ(study(h).save_name, "mine");
  h.press(Key::enter);
  const std::string path = folder.file("own/mine.toml");
  ASSERT_TRUE(std::filesystem::exists(path)) << study(h).save_trouble;
  EXPECT_EQ(study(h).engine_name(), path);
  EXPECT_EQ(study(h).engine().spec.name, "mine");
  EXPECT_FALSE(study(h).tinker.changed());
  EXPECT_TRUE(study(h).unsaved().empty());
  EXPECT_FALSE(std::get<Engine>(find_engine(path)).spec.layout.crank_pins_deg.empty());
  EXPECT_NE(h.items().by_id("engine " + path), nullptr);
  // The same name again, and names that are none: refused, and the field stays.
  turn_knob(h, KnobKind::closes, 75);
  h.press({Key::s, false, true});
  for (const char* name : {"mine", "", "../else", ".hidden"}) {
    study(h).ask_save_name();
    h.settle();
    h.press(Key::backspace);
    h.viewer.input.push(Typed{name});
    h.settle();
    ASSERT_EQ(study(h).save_name, name);
    h.click("save");
    EXPECT_FALSE(study(h).save_trouble.empty()) << name;
    EXPECT_TRUE(study(h).save_name.has_value()) << name;
  }
  EXPECT_EQ(std::get<Engine>(find_engine(path)).spec.valves[0].closes_deg, 70);
  EXPECT_FALSE(std::filesystem::exists(folder.file("else.toml")));
  h.click("Cancel");
  EXPECT_FALSE(study(h).save_name.has_value());
  EXPECT_EQ(study(h).tinker.spec().valves[0].closes_deg, 75);
}

}  // namespace
}  // namespace shutlane
