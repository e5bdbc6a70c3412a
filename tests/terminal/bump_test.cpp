// The verb bump, and plan --by starter. The physics has its own outside checks in tests/cranking; here: the
// public keys, that the histogram and the quantiles tell of the same bumps, and that bad words change
// nothing.
#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <numeric>

#include "tests/terminal/program.hpp"

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

TEST(Bump, AnEngineWithoutAStarterIsRefused) {
  const std::string folder = scratch_folder("no-starter"), file = folder + "/hybrid.toml";
  std::string text = text_of_file(std::string(SHUTLANE_SOURCE) + "/engines/inline-three.toml");
  std::filesystem::create_directories(folder);
  FILE* out = std::fopen(file.c_str(), "w");
  text += "\n[cranking]\nstarter = \"none\"\n";
  std::fwrite(text.data(), 1, text.size(), out);
  std::fclose(out);
  for (const std::vector<std::string>& words :
       std::vector<std::vector<std::string>>{{"bump", file, "--from", "0", "--press", "0.2", "--json"},
                                             {"plan", file, "--from", "0", "--by", "starter", "--json"}}) {
    const Ran ran = shutlane(words);
    EXPECT_EQ(ran.status, 1) << ran.err;
    EXPECT_TRUE(Json::parse(ran.out).contains("no_bump"));
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
           {"plan", "inline-six", "--from", "unknown"},
           {"plan", "inline-six", "--from", "looks", "--by", "starter"}}) {
    const Ran ran = shutlane(words);
    EXPECT_EQ(ran.status, 2);
    EXPECT_EQ(ran.out, "");
    EXPECT_EQ(ran.err_lines(), 1u) << ran.err;
  }
}

// The second run reads the table from the cache; a damaged one is worked out again. All three say the same.
TEST(PlanByStarter, AgreesWithItsCache) {
  const std::string cache = scratch_folder("rest-cache");
  const Around around{.env = {{"XDG_CACHE_HOME", cache}}};
  const std::vector<std::string> words = {"plan", "inline-four", "--from", "35", "--by", "starter", "--json"};
  const Ran first = shutlane(words, around);
  ASSERT_EQ(first.status, 0) << first.err;
  const Json plan = Json::parse(first.out);
  for (const char* key : {"positions", "by", "press_s", "press_min_s", "press_max_s", "expected_bumps",
                          "finish_first", "habits"})
    EXPECT_TRUE(plan.contains(key)) << key;
  EXPECT_LE(plan["press_min_s"], plan["press_s"]);
  EXPECT_LE(plan["press_s"], plan["press_max_s"]);
  EXPECT_GE(plan["expected_bumps"], 1);
  for (const Json& habit : plan["habits"])  // never better than the best plan of the same model
    if (!habit["expected_bumps"].is_null()) {
      EXPECT_GE(habit["expected_bumps"].get<double>(), plan["expected_bumps"].get<double>() - 1e-6);
    }

  size_t files = 0;
  for (const auto& entry : std::filesystem::directory_iterator(cache + "/shutlane")) {
    EXPECT_EQ(shutlane(words, around).out, first.out);
    std::filesystem::resize_file(entry.path(), 1000);
    ++files;
  }
  EXPECT_EQ(files, 1u);
  EXPECT_EQ(shutlane(words, around).out, first.out);
}

}  // namespace
}  // namespace shutlane::terminal
