// engines --show: the very file of an engine, bundled or the person's own.
#include <filesystem>
#include <fstream>

#include "tests/terminal/program.hpp"

namespace shutlane::terminal {
namespace {

namespace fs = std::filesystem;

TEST(Show, PrintsABundledFileAsItStands) {
  for (const char* name : {"inline-six", "v4-90-anticlockwise", "any-v10"}) {
    const Ran ran = shutlane({"engines", "--show", name});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ(ran.out, text_of_file(std::string(SHUTLANE_SOURCE) + "/engines/" + name + ".toml"));
    EXPECT_EQ(ran.err, "");
  }
}

/// A home with two engines of its own, the second with a mistake.
std::string home_with_engines(const std::string& name, const std::string& inside) {
  const std::string home = scratch_folder(name);
  const std::string own = home + inside;
  fs::create_directories(own);
  std::string text = shutlane({"engines", "--show", "inline-four"}).out;
  std::ofstream(own + "/van.toml") << text;
  std::ofstream(own + "/broken.toml") << text << "\nsurplus = 1\n";
  std::ofstream(own + "/inline-six.toml") << text;
  return home;
}

TEST(Show, PrintsOnesOwnByNameAndAnyByPath) {
  const std::string four = shutlane({"engines", "--show", "inline-four"}).out;
  const std::string data = home_with_engines("show-data", "/shutlane/engines");
  const std::string home = home_with_engines("show-home", "/.local/share/shutlane/engines");
  for (const Around& around : {Around{.env = {{"XDG_DATA_HOME", data}}}, Around{.env = {{"HOME", home}}},
                               Around{.env = {{"XDG_DATA_HOME", data}, {"HOME", "/nowhere"}}},
                               Around{.env = {{"XDG_DATA_HOME", "not/absolute"}, {"HOME", home}}}}) {
    for (const char* name : {"van", "van.toml"}) {
      const Ran ran = shutlane({"engines", "--show", name}, around);
      EXPECT_EQ(ran.status, 0) << ran.err;
      EXPECT_EQ(ran.out, four);
    }
    // As everywhere the bundled engine comes first.
    EXPECT_NE(shutlane({"engines", "--show", "inline-six"}, around).out, four);
    EXPECT_EQ(shutlane({"engines", "--show", "inline-six.toml"}, around).out, four);
  }
  EXPECT_EQ(shutlane({"engines", "--show", data + "/shutlane/engines/van.toml"}).out, four);
  EXPECT_EQ(shutlane({"engines", "--show", "van.toml"}, {.folder = data + "/shutlane/engines"}).out, four);
}

TEST(Show, RefusesWhatIsNoEngineAndNamesTheNearest) {
  const std::string data = home_with_engines("show-wrong", "/shutlane/engines");
  const Around around{.env = {{"XDG_DATA_HOME", data}}};
  const std::vector<std::pair<std::vector<std::string>, std::string>> wrong{
      {{"inline-sx"}, "the nearest name is inline-six"},
      {{"vam"}, "the nearest name is van"},
      {{"nothing-like-any-of-them"}, "shutlane engines lists"},
      {{""}, "is neither"},
      {{"../engines/van"}, "is neither"},
      {{data}, "is a folder"},
      {{"broken"}, "surplus: is an unknown key"},
      {{"van", "--json"}, "--show stands alone"},
      {{"van", "--names"}, "--show stands alone"},
  };
  for (const auto& [words, said] : wrong) {
    std::vector<std::string> all{"engines", "--show"};
    all.insert(all.end(), words.begin(), words.end());
    const Ran ran = shutlane(all, around);
    EXPECT_EQ(ran.status, 2) << words[0];
    EXPECT_EQ(ran.out, "") << words[0];
    EXPECT_EQ(ran.err_lines(), 1u) << ran.err;
    EXPECT_NE(ran.err.find(said), std::string::npos) << words[0] << ": " << ran.err;
  }
}

}  // namespace
}  // namespace shutlane::terminal
