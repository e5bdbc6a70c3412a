// Which folder may include what (DEVELOPERS.md, "The folders"): read off the sources, so that a wrong arrow
// fails.
#include <algorithm>
#include <cctype>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>

#include <gtest/gtest.h>

namespace shutlane::test {
namespace {

namespace fs = std::filesystem;
const fs::path kRoot = SHUTLANE_SOURCE_DIR;

struct Line {
  std::string file, text;
  int number = 0;
};

/// Every line of the sources under a folder, line comments cut off.
std::vector<Line> lines_under(const std::string& folder) {
  std::vector<Line> lines;
  if (!fs::exists(kRoot / folder)) return lines;
  for (const auto& entry : fs::recursive_directory_iterator(kRoot / folder)) {
    const auto extension = entry.path().extension();
    if (extension != ".cpp" && extension != ".hpp") continue;
    std::ifstream in(entry.path());
    std::string text;
    for (int number = 1; std::getline(in, text); ++number)
      lines.push_back({fs::relative(entry.path(), kRoot).string(), text.substr(0, text.find("//")), number});
  }
  return lines;
}

/// The included file, with its quotes or brackets; empty for any other line.
std::string included(const std::string& line) {
  auto skip = [&](size_t i) { return std::min(line.find_first_not_of(" \t", i), line.size()); };
  size_t i = skip(0);
  if (i == line.size() || line[i] != '#') return "";
  i = skip(i + 1);
  if (line.compare(i, 7, "include") != 0) return "";
  i = skip(i + 7);
  if (i == line.size() || (line[i] != '"' && line[i] != '<')) return "";
  const size_t end = line.find(line[i] == '"' ? '"' : '>', i + 1);
  return end == std::string::npos ? "" : line.substr(i, end + 1 - i);
}

/// The line with the insides of its string literals taken out.
std::string without_strings(const std::string& line) {
  std::string out;
  bool inside = false;
  for (size_t i = 0; i < line.size(); ++i) {
    if (inside && line[i] == '\\') {
      ++i;
    } else if (line[i] == '"') {
      inside = !inside;
      out += '"';
    } else if (!inside) {
      out += line[i];
    }
  }
  return out;
}

/// Does the word stand in the line by itself?
bool has_word(const std::string& line, const std::string& word) {
  auto part_of_a_name = [&](size_t i) {
    return i < line.size() && (std::isalnum(static_cast<unsigned char>(line[i])) || line[i] == '_');
  };
  for (size_t at = line.find(word); at != std::string::npos; at = line.find(word, at + 1))
    if ((at == 0 || !part_of_a_name(at - 1)) && !part_of_a_name(at + word.size())) return true;
  return false;
}

std::string at(const Line& line) { return line.file + ":" + std::to_string(line.number) + ": " + line.text; }

const std::map<std::string, std::vector<std::string>> kArrows = {
    {"sim", {"sim/"}},
    {"engines", {"engines/", "sim/"}},
    {"ui/disk", {"ui/disk/"}},
    {"ui/drawings", {"ui/drawings/", "ui/disk/", "engines/", "sim/", "assets/"}},
    {"ui/told", {"ui/told/", "sim/"}},
    {"ui/kept", {"ui/kept/", "ui/disk/", "sim/"}},
    {"ui/terminal", {"ui/terminal/", "ui/kept/", "ui/disk/", "ui/drawings/", "ui/told/", "engines/", "sim/"}},
    {"ui/window",
     {"ui/window/", "ui/kept/", "ui/disk/", "ui/drawings/", "ui/told/", "engines/", "sim/", "assets/"}},
};

TEST(IncludeRules, EveryFolderIncludesOnlyWhatTheArrowsAllow) {
  for (const auto& [folder, allowed] : kArrows)
    for (const Line& line : lines_under(folder)) {
      const std::string name = included(line.text);
      if (name.empty() || name[0] != '"') continue;
      // Files made by the build (fonts, bundled engines) lie beside no source and are named without a folder.
      if (name.find('/') == std::string::npos && folder != "sim") continue;
      const bool fine = std::any_of(allowed.begin(), allowed.end(),
                                    [&](const std::string& a) { return name.compare(1, a.size(), a) == 0; });
      EXPECT_TRUE(fine) << at(line);
    }
}

/// The rooms of sim and whom each may know beside itself. No room stands in a room that it knows: no circles.
const std::vector<std::pair<std::string, std::vector<std::string>>> kRooms = {
    {"cycle", {}},
    {"mechanism", {"cycle"}},
    {"shut", {"cycle", "mechanism"}},
    {"cranking", {"cycle", "mechanism"}},
    {"witness", {"cycle", "mechanism", "shut"}},
    {"plan", {"cycle", "mechanism", "shut", "cranking", "witness"}},
    {"job", {"cycle", "mechanism", "shut", "cranking", "witness", "plan"}},
};
/// What a room may include beyond that: plain values that include nothing of sim themselves.
const std::map<std::string, std::string> kBeyond = {{"mechanism", "sim/cranking/spec.hpp"}};

std::string room_of(const std::string& path) {  // "sim/cycle/angle.hpp": cycle
  const size_t from = path.find("sim/") + 4;
  return path.substr(from, path.find('/', from) - from);
}

TEST(IncludeRules, NoRoomOfSimKnowsARoomThatKnowsIt) {
  std::map<std::string, std::set<std::string>> known;
  for (const auto& [room, rooms] : kRooms) {  // in order: each knows only rooms above it
    for (const std::string& other : rooms) EXPECT_TRUE(known.contains(other)) << room << " -> " << other;
    known[room] = {rooms.begin(), rooms.end()};
  }
  std::set<std::string> found;
  for (const Line& line : lines_under("sim")) {
    const std::string room = room_of(line.file), name = included(line.text);
    ASSERT_TRUE(known.contains(room)) << line.file << ": a new room needs its arrows here";
    found.insert(room);
    if (name.rfind("\"sim/", 0) != 0) continue;
    const std::string file = name.substr(1, name.size() - 2), other = room_of(file);
    const auto beyond = kBeyond.find(room);
    const bool fine =
        other == room || known[room].contains(other) || (beyond != kBeyond.end() && beyond->second == file);
    EXPECT_TRUE(fine) << at(line);
  }
  EXPECT_EQ(found.size(), kRooms.size()) << "a room of the list is gone";
  for (const auto& [room, file] : kBeyond)
    for (const Line& line : lines_under("sim"))
      if (line.file == file) {
        EXPECT_NE(included(line.text).rfind("\"sim/", 0), 0u) << at(line);
      }
}

TEST(IncludeRules, TheArrowsAreReallyThere) {  // the walk finds sources and includes at all
  int found = 0;
  for (const Line& line : lines_under("sim")) found += included(line.text) == "\"sim/cycle/angle.hpp\"";
  EXPECT_GT(found, 2);
  EXPECT_EQ(included("  #  include <vector>"), "<vector>");
  EXPECT_EQ(included("#include \"sim/x.hpp\""), "\"sim/x.hpp\"");
  EXPECT_EQ(included("int include;"), "");
  EXPECT_TRUE(has_word("  throw 1;", "throw"));
  EXPECT_FALSE(has_word("throw_away", "throw"));
  EXPECT_EQ(without_strings("f(\"a \\\" b\", 1)"), "f(\"\", 1)");
}

TEST(IncludeRules, SimKnowsNoFileWindowDatabaseOrClock) {
  static const std::set<std::string> never = {
      "<fstream>", "<iostream>",  "<filesystem>", "<chrono>",   "<ctime>",  "<time.h>",   "<cstdio>",
      "<stdio.h>", "<future>",    "<ranges>",     "<charconv>", "<format>", "<unistd.h>", "<locale>",
      "<clocale>", "<sqlite3.h>", "<random>",     "<csignal>",  "<iomanip>"};
  for (const Line& line : lines_under("sim")) {
    const std::string name = included(line.text);
    if (name.empty() || name[0] == '"') continue;
    EXPECT_FALSE(never.contains(name)) << at(line);
    // Nothing from outside but Boost's headers; the standard library has neither a folder nor an ending.
    const bool standard = name.find('/') == std::string::npos && name.find('.') == std::string::npos;
    EXPECT_TRUE(standard || name.rfind("<boost/", 0) == 0) << at(line);
  }
}

TEST(IncludeRules, SimThrowsNothingAndKeepsToWhatCompilesForTheWeb) {
  for (const Line& line : lines_under("sim"))
    for (const char* word : {"throw", "std::ranges", "std::views", "to_chars", "getenv", "printf",
                             "std::cout", "rand", "time", "clock", "std::chrono"})
      EXPECT_FALSE(has_word(without_strings(line.text), word)) << at(line);
}

TEST(IncludeRules, PathsStartAtTheRoot) {
  for (const auto& [folder, allowed] : kArrows)
    for (const Line& line : lines_under(folder)) {
      const std::string name = included(line.text);
      EXPECT_EQ(name.find(".."), std::string::npos) << at(line);
    }
}

}  // namespace
}  // namespace shutlane::test
