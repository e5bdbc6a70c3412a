// The verb bump, and plan --by starter. The physics has its own outside checks in tests/cranking; here: the
// public keys, that the histogram and the quantiles tell of the same bumps, and that bad words change
// nothing.
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <nlohmann/json.hpp>
#include <numeric>

#include "engines/catalog.hpp"
#include "sim/cranking/heaps.hpp"
#include "sim/plan/bump_plan.hpp"
#include "tests/terminal/program.hpp"
#include "tests/terminal/small_table.hpp"
#include "ui/drawings/pages.hpp"
#include "ui/kept/rest_cache.hpp"
#include "ui/terminal/bump_words.hpp"
#include "ui/terminal/progress.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
namespace {

using Json = nlohmann::ordered_json;

std::vector<std::string> keys_of(const Json& object) {
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  return keys;
}

const std::vector<std::string> kBump = {"bump",     "inline-six", "--from", "35", "--press", "0.3",
                                        "--trials", "2000",       "--seed", "7",  "--json"};

TEST(Bump, PrintsEveryTrialOnce) {
  const Ran ran = shutlane(kBump);
  ASSERT_EQ(ran.status, 0) << ran.err;
  const Json bump = Json::parse(ran.out);
  EXPECT_EQ(keys_of(bump), (std::vector<std::string>{"engine", "from_deg", "press_s", "trials", "seed",
                                                     "advance_deg", "rest_histogram"}));
  EXPECT_EQ(keys_of(bump["advance_deg"]), (std::vector<std::string>{"mean", "sd", "p05", "p50", "p95"}));
  const auto counts = bump["rest_histogram"].get<std::vector<int>>();
  ASSERT_EQ(counts.size(), 720u);
  EXPECT_EQ(std::accumulate(counts.begin(), counts.end(), 0), 2000);
  // Nine rests in ten lie between the quantiles, counted from the start.
  const double low = bump["advance_deg"]["p05"], high = bump["advance_deg"]["p95"];
  ASSERT_LT(high - low, 700);
  int inside = 0;
  for (int i = 0; i < 720; ++i) {
    const double rest = i + 0.5 - 35;
    for (const double turn : {0.0, 720.0})
      if (rest + turn >= low - 1 && rest + turn <= high + 1) inside += counts[static_cast<size_t>(i)];
  }
  EXPECT_GE(inside, 1800);
}

TEST(Bump, SameSeedSameNumbers) {
  const Ran once = shutlane(kBump), again = shutlane(kBump);
  EXPECT_EQ(once.out, again.out);
  auto other = kBump;
  other[9] = "8";
  EXPECT_NE(shutlane(other).out, once.out);
}

TEST(Bump, TextHasItsCautions) {
  const Ran ran = shutlane({"bump", "single", "--from", "0", "--press", "0.2", "--trials", "100"});
  EXPECT_EQ(ran.status, 0);
  for (const char* word : {"no second bump", "remote switch", "Hybrids: never", "handbrake"})
    EXPECT_NE(ran.out.find(word), std::string::npos) << word;
}

TEST(Bump, TextCountsThePortsOverTheHistogram) {
  // Surely shut by the printed windows of the contract: cylinder 1 from 601 for 454 degrees; the others
  // follow by their firing TDC (1-5-3-6-2-4 every 120 degrees). A degree counts when all of it is in.
  auto words = kBump;
  const auto counts = Json::parse(shutlane(words).out)["rest_histogram"].get<std::vector<int>>();
  words.pop_back();
  const Ran ran = shutlane(words);
  ASSERT_EQ(ran.status, 0) << ran.err;
  const double firing_tdc[] = {0, 480, 240, 600, 120, 360};
  for (int port = 1; port <= 6; ++port) {
    int sure = 0;
    for (int i = 0; i < 720; ++i) {
      const double after = std::fmod(i + 1440 - 601 - firing_tdc[port - 1], 720.0);
      if (after + 1 <= 454) sure += counts[static_cast<size_t>(i)];
    }
    const std::string row = "     " + std::to_string(port) + "  ";
    const size_t at = ran.out.find("\n" + row);
    ASSERT_NE(at, std::string::npos) << ran.out;
    EXPECT_EQ(std::stoi(ran.out.substr(at + 1 + row.size(), 6)), sure * 100 / 2000) << port << ran.out;
  }
}

// The verb and its page reckon the same bumps: what the verb says of 10,000 trials is what the page draws, to
// the byte.
TEST(Bump, ThePageDrawsTheHeapsOfTheVerb) {
  const Around there{.folder = scratch_folder("bump-heaps")};
  const Ran drawn =
      shutlane({"draw", "inline-six", "bump", "--from", "35", "--press", "0.3", "--out", "page.svg"}, there);
  ASSERT_EQ(drawn.status, 0) << drawn.err;
  const Engine engine = std::get<Engine>(find_engine("inline-six"));
  const CrankingModel model = model_of("inline-six");
  const TrialsAnswer all = bump_trials(FastKernel(model), {.from_deg = 35, .press_s = 0.3, .trials = 10000});
  const std::vector<Heap> heaps = heaps_of(all.advance_deg);
  ASSERT_GT(heaps.size(), 1u);
  PageRequest request;
  request.kind = PageKind::bump;
  request.from_deg = 35;
  request.bump = BumpCourse{model, record_bump(model, 35, 0.3), heaps};
  EXPECT_EQ(draw_page(engine, request, there.folder + "/expected.svg"), std::nullopt);
  EXPECT_EQ(text_of_file(there.folder + "/page.svg"), text_of_file(there.folder + "/expected.svg"));

  std::string said;
  for (const std::string& line :
       lines_of(shutlane({"bump", "inline-six", "--from", "35", "--press", "0.3"}).out))
    said += line + " ";
  for (const Heap& heap : heaps)
    EXPECT_NE(said.find(std::to_string(std::lround(heap.from_deg)) + " to " +
                        std::to_string(std::lround(heap.to_deg))),
              std::string::npos)
        << said;
}

// A million bumps take most of a minute.
TEST(Bump, CtrlCEndsItWithALine) {
  const auto begin = std::chrono::steady_clock::now();
  const Ran ran = run_command({"env", "--default-signal=INT", "timeout", "--preserve-status", "-s", "INT",
                               "1.5", SHUTLANE_PROGRAM, "bump", "inline-six", "--from", "35", "--press",
                               "0.3", "--trials", "1000000"});
  EXPECT_EQ(ran.status, kInterrupted);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(ran.err_lines(), 1u) << ran.err;
  EXPECT_NE(ran.err.find("stopped"), std::string::npos) << ran.err;
  EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(20));
}

TEST(Bump, ChartShowsEveryColumnThatHasARest) {
  std::array<int, 720> rests{};
  rests[0] = 1;
  rests[355] = 600;
  rests[719] = 300;
  EXPECT_EQ(lines_of(rest_chart(rests, {})),
            (std::vector<std::string>{
                std::string(40, ' ') + "#", std::string(40, ' ') + "#", std::string(40, ' ') + "#",
                std::string(40, ' ') + "#" + std::string(35, ' ') + "#",
                std::string(40, ' ') + "#" + std::string(35, ' ') + "#",
                "     ." + std::string(34, ' ') + "#" + std::string(35, ' ') + "#",
                "     0                 180               360               540               720"}));
}

TEST(Bump, AnEngineWithoutAStarterIsRefused) {
  const std::string file = "hybrid-three";
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"bump", file, "--from", "0", "--press", "0.2", "--json"},
                                             {"plan", file, "--from", "0", "--by", "starter", "--json"}}) {
    const Ran ran = shutlane(words);
    EXPECT_EQ(ran.status, 1) << ran.err;
    EXPECT_EQ(keys_of(Json::parse(ran.out)), (std::vector<std::string>{"engine", "no_bump"}));
    const Ran text = shutlane({words.begin(), words.end() - 1});
    EXPECT_EQ(text.status, 1);
    EXPECT_NE(text.out.find("starter = \"none\""), std::string::npos) << text.out;
  }
}

TEST(Bump, BadWordsAreOneLineEach) {
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"bump", "inline-six", "--from", "35"},
           {"bump", "inline-six", "--press", "0.3"},
           {"bump", "inline-six", "--from", "35", "--press", "0"},
           {"bump", "inline-six", "--from", "35", "--press", "6"},
           {"bump", "inline-six", "--from", "35", "--press", "0.3", "--trials", "0"},
           {"bump", "inline-six", "--from", "35", "--press", "0.3", "--trials", "1.5"},
           {"bump", "inline-six", "--from", "35", "--press", "0.3", "--seed", "-1"},
           {"bump", "inline-six", "--from", "35", "--press", "0.3", "--plugs", "half"},
           {"plan", "inline-six", "--from", "35", "--by", "hand"},
           {"plan", "inline-six", "--from", "looks", "--by", "starter"}}) {
    const Ran ran = shutlane(words);
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err_lines(), 1u) << ran.err;
  }
}

const std::string kEven = "inline-six";

// The program's answer against the planner asked in this process, on the same table.
TEST(PlanByStarter, AnswersFromTheKeptTable) {
  RestTable table;
  const Around around = with_small_table("rest-small", kEven, &table);
  BumpPlanner planner(std::get<Engine>(find_engine(kEven)), std::make_shared<const RestTable>(table));
  const std::vector<int> left{1, 2, 3, 4, 5, 6};
  for (const std::string from : {"35", "unknown"}) {
    const BumpPlan expected = planner.plan(from == "35" ? start_at(35) : start_unknown(), left);
    const Ran ran = shutlane({"plan", kEven, "--from", from, "--by", "starter", "--json"}, around);
    ASSERT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ(ran.err, "");
    const Json plan = Json::parse(ran.out);
    EXPECT_EQ(plan["by"], "starter");
    EXPECT_EQ(plan["press_s"], expected.press_s);
    EXPECT_EQ(plan["press_min_s"], expected.press_min_s);
    EXPECT_EQ(plan["press_max_s"], expected.press_max_s);
    EXPECT_EQ(plan["expected_bumps"], expected.expected_bumps);
    EXPECT_EQ(plan["finish_first"], expected.finish_first);
    ASSERT_EQ(plan["technician_habits"].size(), expected.habits.size());
    for (size_t i = 0; i < expected.habits.size(); ++i) {
      EXPECT_EQ(plan["technician_habits"][i]["name"], expected.habits[i].name);
      if (std::isfinite(expected.habits[i].expected_bumps)) {  // never better than the best plan
        EXPECT_EQ(plan["technician_habits"][i]["expected_bumps"], expected.habits[i].expected_bumps);
        EXPECT_GE(expected.habits[i].expected_bumps, expected.expected_bumps - 1e-6);
      } else {
        EXPECT_TRUE(plan["technician_habits"][i]["expected_bumps"].is_null());
      }
    }
  }
}

#if defined(__SANITIZE_ADDRESS__)
#define SHUTLANE_SLOW_BUILD 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define SHUTLANE_SLOW_BUILD 1
#endif
#endif

// The whole way: no table is kept yet, the program works it out, keeps it and answers from it. The V12
// repeats every 60 degrees, so its table is the quickest of the bundled engines: 3 s of work in a release
// build.
TEST(PlanByStarter, WorksOutTheWholeTableOnceAndKeepsIt) {
#ifdef SHUTLANE_SLOW_BUILD
  GTEST_SKIP() << "750,000 bumps take minutes where every memory access is watched; release builds make them";
#endif
  const std::string cache = scratch_folder("rest-whole");
  const Around around{.env = {{"XDG_CACHE_HOME", cache}}};
  const std::vector<std::string> words{"plan", "v12", "--from", "35", "--by", "starter", "--json"};
  const Ran first = shutlane(words, around);
  ASSERT_EQ(first.status, 0) << first.err;
  const CrankingModel model = model_of("v12");
  const std::string bytes = text_of_file(cache + "/shutlane/rest-" + rest_table_key(model, {}));
  const auto table = rest_table_from_bytes({bytes.begin(), bytes.end()});
  ASSERT_TRUE(table.has_value());
  EXPECT_EQ(table->phases, 60);
  EXPECT_EQ(table->presses_s, default_presses_s());
  EXPECT_GE(table->trials_per_car, 8);
  // Longer presses carry the crank further, on every car: the table is no empty shell.
  const auto mean_of = [&](int press, size_t car) {
    double sum = 0;
    for (int phase = 0; phase < table->phases; ++phase)
      for (int t = 0; t < table->trials_per_car; ++t)
        sum += table->trials(phase, press, static_cast<int>(car))[t];
    return sum / table->phases / table->trials_per_car;
  };
  for (size_t car = 0; car < table->cars.size(); ++car) EXPECT_GT(mean_of(20, car), mean_of(4, car) + 100);

  BumpPlanner planner(std::get<Engine>(find_engine("v12")), std::make_shared<const RestTable>(*table));
  const BumpPlan expected = planner.plan(start_at(35), {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12});
  EXPECT_EQ(Json::parse(first.out)["expected_bumps"], expected.expected_bumps);
  EXPECT_EQ(Json::parse(first.out)["press_s"], expected.press_s);
  const Ran again = shutlane(words, around);
  EXPECT_EQ(again.out, first.out);
  EXPECT_EQ(again.err, "") << "the kept table needs no progress";
}

TEST(PlanByStarter, AddsItsKeysToThoseOfTheWrench) {
  const Around around = with_small_table("rest-keys", kEven);
  const std::vector<std::string> own{
      "by", "press_s", "press_min_s", "press_max_s", "expected_bumps", "finish_first", "technician_habits"};
  const auto expect_keys = [&](std::vector<std::string> words, std::vector<std::string> keys) {
    words.insert(words.begin(), {"plan", kEven});
    words.insert(words.end(), {"--by", "starter", "--json"});
    const Ran ran = shutlane(words, around);
    EXPECT_EQ(ran.status, 0) << ran.err;
    keys.insert(keys.end(), own.begin(), own.end());
    EXPECT_EQ(keys_of(Json::parse(ran.out)), keys);
  };
  expect_keys({"--from", "35"},
              keys_of(Json::parse(shutlane({"plan", kEven, "--from", "35", "--json"}).out)));
  expect_keys({"--from", "unknown"}, {"engine"});
  // No plan by wrench at this accuracy, but the starter asks for none: no "no_plan" beside a plan.
  expect_keys({"--from", "35", "--accuracy", "300"},
              {"engine", "from_deg", "plus_minus_deg", "margin_deg", "accuracy_deg"});
}

TEST(PlanByStarter, WhatIsTooShortHasNoPlan) {
  const Around around = with_small_table("rest-none", kEven);
  std::vector<std::string> words{"plan", kEven, "--from", "35", "--by", "starter", "--margin", "240"};
  const Ran text = shutlane(words, around);
  EXPECT_EQ(text.status, 1);
  EXPECT_NE(text.out.find("No plan by starter"), std::string::npos) << text.out;
  words.push_back("--json");
  const Ran ran = shutlane(words, around);
  EXPECT_EQ(ran.status, 1);
  EXPECT_EQ(Json::parse(ran.out)["no_plan"], (Json{1, 2, 3, 4, 5, 6}));
}

TEST(PlanByStarter, TextSaysHowLongToPressAndWhatToHeed) {
  const Around around = with_small_table("rest-text", kEven);
  for (const std::string from : {"35", "unknown"}) {
    const Ran ran = shutlane({"plan", kEven, "--from", from, "--by", "starter"}, around);
    EXPECT_EQ(ran.status, 0) << ran.err;
    for (const char* must :
         {"press about 0.", "nearly as good", "shortest taps in number order", "this plan", "no second bump",
          "remote switch", "Hybrids: never", "every port blasted so far", "Count       the bungs"})
      EXPECT_NE(ran.out.find(must), std::string::npos) << must << "\n" << ran.out;
    EXPECT_EQ(ran.out.find("two witnesses") != std::string::npos, from == "unknown");
    for (const std::string& line : lines_of(ran.out)) EXPECT_LE(width(line), 80u) << line;
  }
  const Ran done = shutlane({"plan", kEven, "--from", "35", "--done", "3,6", "--by", "starter"}, around);
  EXPECT_NE(done.out.find("No bump is needed"), std::string::npos) << done.out;
}

TEST(PressInWords, NeverWiderThanTheRange) {
  BumpPlan plan;
  plan.press_s = 0.3, plan.press_min_s = 0.24, plan.press_max_s = 0.36, plan.finish_first = 0.987;
  EXPECT_EQ(press_in_words(plan),
            "press about 0.3 s; anything from 0.24 to 0.36 s is nearly as good; one bump will most likely do "
            "(all are done after it in 98 of 100).");
  plan.press_min_s = 0.243, plan.press_max_s = 0.359, plan.finish_first = 0.5;
  EXPECT_EQ(
      press_in_words(plan),
      "press about 0.3 s; anything from 0.25 to 0.35 s is nearly as good; one bump may do, reckon with a "
      "second one (all are done after it in 50 of 100).");
  plan.press_min_s = plan.press_max_s = 0.3, plan.finish_first = 0.1;
  EXPECT_EQ(press_in_words(plan),
            "press about 0.3 s; no other press that was reckoned is nearly as good; it will most likely take "
            "more than one bump (all are done after it in 10 of 100).");
}

/// The cache in this process, with a table of one trial a car.
std::shared_ptr<const RestTable> small_table(const std::string& engine, const std::string& cache) {
  setenv("XDG_CACHE_HOME", cache.c_str(), 1);
  RestTableQuestion small;
  small.trials_per_car = 1;
  auto table = rest_table_for(model_of(engine), small);
  unsetenv("XDG_CACHE_HOME");
  return table;
}

std::vector<std::string> kept_files(const std::string& cache) {
  std::vector<std::string> files;
  for (const auto& entry : std::filesystem::directory_iterator(cache + "/shutlane"))
    files.push_back(entry.path().string());
  return files;
}

TEST(RestCache, KeepsATableAndMendsADamagedOne) {
  const std::string cache = scratch_folder("rest-cache");
  const auto first = small_table("v12", cache);
  const std::vector<std::string> files = kept_files(cache);
  ASSERT_EQ(files.size(), 1u) << "the table alone, nothing left beside it";
  const std::string whole = text_of_file(files[0]);
  const auto written = std::filesystem::last_write_time(files[0]);
  EXPECT_EQ(*small_table("v12", cache), *first);
  EXPECT_EQ(std::filesystem::last_write_time(files[0]), written) << "read, not worked out again";
  std::string flipped = whole;
  flipped.back() = static_cast<char>(flipped.back() ^ 1);
  for (const std::string& damaged : {flipped, whole.substr(0, 1000), std::string()}) {
    std::ofstream(files[0], std::ios::binary) << damaged;
    EXPECT_EQ(*small_table("v12", cache), *first);
    EXPECT_EQ(text_of_file(files[0]), whole);
  }
}

TEST(RestCache, ATableOfAnotherEngineIsNotTaken) {
  const std::string cache = scratch_folder("rest-other");
  const auto right = small_table("v12", cache);
  const std::string file = kept_files(cache).at(0), other = scratch_folder("rest-other-six");
  small_table(kEven, other);
  std::ofstream(file, std::ios::binary) << text_of_file(kept_files(other).at(0));
  EXPECT_EQ(*small_table("v12", cache), *right);
}

TEST(RestCache, AHundredLeftOversStopNoTable) {
  namespace fs = std::filesystem;
  const std::string cache = scratch_folder("rest-left-over");
  const auto first = small_table("v12", cache);
  const std::string file = kept_files(cache).at(0);
  fs::remove(file);
  for (int i = 0; i < 100; ++i) std::ofstream(file + ".part" + std::to_string(i)) << "left";
  const fs::path old = cache + "/shutlane/.shutlane-0123456789ab.part",
                 new_one = cache + "/shutlane/.shutlane-0123456789ac.part";
  for (const fs::path& path : {old, new_one}) std::ofstream(path) << "unfinished";
  fs::last_write_time(old, fs::file_time_type::clock::now() - std::chrono::hours(2));
  EXPECT_EQ(*small_table("v12", cache), *first);
  EXPECT_TRUE(fs::exists(file));
  EXPECT_FALSE(fs::exists(old)) << "nobody's any more";
  EXPECT_TRUE(fs::exists(new_one)) << "somebody may be writing it";
}

TEST(RestCache, OneThatCannotBeWrittenIsLeftOut) {
  EXPECT_EQ(*small_table("v12", "/dev/null"), *small_table("v12", scratch_folder("rest-good")));
}

TEST(RestCache, OnlyTheNewestAreKept) {
  namespace fs = std::filesystem;
  const fs::path folder = scratch_folder("rest-prune");
  fs::create_directories(folder);
  const auto now = fs::file_time_type::clock::now();
  const auto name = [](int i) { return "rest-00000000000000" + std::to_string(10 + i); };
  const auto fill = [&](int count) {
    for (int i = 0; i < count; ++i) {
      std::ofstream(folder / name(i)) << std::string(1000, 'x');
      fs::last_write_time(folder / name(i), now - std::chrono::minutes(i));  // 0 is the newest
    }
  };
  fill(50);
  for (const char* other : {"notes.txt", "rest-of-it", "rest-0000000000000010.part0"})
    std::ofstream(folder / other) << "of somebody else";
  prune_rest_cache(folder);
  for (int i = 0; i < 50; ++i) EXPECT_EQ(fs::exists(folder / name(i)), i < 40) << i;
  prune_rest_cache(folder, {40, 7500});
  for (int i = 0; i < 40; ++i) EXPECT_EQ(fs::exists(folder / name(i)), i < 7) << i;
  prune_rest_cache(folder, {1, 10});
  EXPECT_TRUE(fs::exists(folder / name(0))) << "the newest stays";
  EXPECT_FALSE(fs::exists(folder / name(1)));
  for (const char* other : {"notes.txt", "rest-of-it", "rest-0000000000000010.part0"})
    EXPECT_TRUE(fs::exists(folder / other)) << other;
  prune_rest_cache(folder / "not there");
}

TEST(RestCache, WritingOnePrunes) {
  namespace fs = std::filesystem;
  const std::string cache = scratch_folder("rest-write-prunes");
  fs::create_directories(cache + "/shutlane");
  for (int i = 0; i < 45; ++i) {
    const std::string old = cache + "/shutlane/rest-00000000000000" + std::to_string(10 + i);
    std::ofstream(old) << "x";
    fs::last_write_time(old, fs::file_time_type::clock::now() - std::chrono::hours(1));
  }
  small_table("v12", cache);
  EXPECT_EQ(kept_files(cache).size(), 40u);
}

/// What a progress line writes while the clock goes on by `step` with each look at it.
std::string progress_of(bool on_terminal, std::chrono::milliseconds step) {
  std::FILE* file = std::tmpfile();
  auto now = std::chrono::steady_clock::time_point{};
  {
    Progress progress("bumping", file, on_terminal, [&] { return now += step; });
    for (const double done : {0.25, 0.5, 0.501, 1.0}) progress.tell(done);
  }
  std::rewind(file);
  char bytes[200] = {};
  const size_t size = std::fread(bytes, 1, sizeof bytes, file);
  std::fclose(file);
  return {bytes, size};
}

TEST(ProgressLine, OnATerminalAfterASecondAndGoneAtTheEnd) {
  using std::chrono::milliseconds;
  EXPECT_EQ(progress_of(true, milliseconds(600)), "\rbumping:  50 %\rbumping: 100 %\r\033[K");
  EXPECT_EQ(progress_of(true, milliseconds(100)), "");
  EXPECT_EQ(progress_of(false, milliseconds(5000)), "");
}

}  // namespace
}  // namespace shutlane::terminal
