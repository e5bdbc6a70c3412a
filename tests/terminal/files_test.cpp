// What is read and written is a regular file and nothing else, and no word from outside commands a terminal:
// the real program, on what an attack left in its way.
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "engines/guard.hpp"
#include "tests/terminal/program.hpp"
#include "tests/terminal/small_table.hpp"
#include "ui/kept/rest_cache.hpp"

namespace shutlane::terminal {
namespace {

namespace fs = std::filesystem;

/// The program, ended after a while: what waits for a pipe would wait for ever.
Ran in_time(std::vector<std::string> words, const Around& around = {}, const std::string& seconds = "60") {
  words.insert(words.begin(), {"timeout", seconds, SHUTLANE_PROGRAM});
  return run_command(words, around);
}

std::vector<std::vector<std::string>> ways_to_write(const std::string& path) {
  std::vector<std::vector<std::string>> ways{{"draw", "inline-six", "lanes", "--from", "35", "--out", path}};
#ifdef SHUTLANE_HAS_WINDOW
  ways.push_back({"picture", "inline-six", "--size", "640x400", "--out", path});
#endif
  return ways;
}

void expect_refused(const Ran& ran, const std::string& named) {
  EXPECT_EQ(ran.status, 2) << named << ran.err;
  EXPECT_EQ(ran.out, "") << named;
  EXPECT_EQ(ran.err_lines(), 1u) << ran.err;
  EXPECT_NE(ran.err.find(named), std::string::npos) << ran.err;
}

TEST(Written, NothingButARegularFileIsReplaced) {
  const std::string folder = scratch_folder("written-kinds");
  const std::string fifo = folder + "/pipe.png", nowhere = folder + "/nowhere.png";
  ASSERT_EQ(mkfifo(fifo.c_str(), 0600), 0);
  fs::create_symlink(folder + "/missing.png", nowhere);
  for (size_t way = 0; way < ways_to_write("x").size(); ++way) {
    expect_refused(in_time(ways_to_write(fifo)[way]), "not a regular file");
    EXPECT_TRUE(fs::is_fifo(fifo));
    expect_refused(in_time(ways_to_write(nowhere)[way]), "link");
    EXPECT_TRUE(fs::is_symlink(nowhere));
    EXPECT_FALSE(fs::exists(folder + "/missing.png"));
  }
  if (!fs::exists("/dev/full")) return;
  fs::create_symlink("/dev/full", folder + "/full.png");  // the device itself is left out of danger
  for (const auto& words : ways_to_write(folder + "/full.png"))
    expect_refused(in_time(words), "not a regular file");
  EXPECT_TRUE(fs::is_character_file("/dev/full"));
  EXPECT_TRUE(fs::is_symlink(folder + "/full.png"));
}

TEST(Written, AReadOnlyFileStaysAndAWritableOneKeepsItsMode) {
  const std::string folder = scratch_folder("written-modes");
  for (const auto& words : ways_to_write(folder + "/a.png")) {
    const std::string path = words.back();
    std::ofstream(path) << "mine";
    ASSERT_EQ(chmod(path.c_str(), 0444), 0);
    expect_refused(in_time(words), "read-only");
    EXPECT_EQ(text_of_file(path), "mine");
    ASSERT_EQ(chmod(path.c_str(), 0640), 0);
    EXPECT_EQ(in_time(words).status, 0);
    struct stat now {};
    ASSERT_EQ(stat(path.c_str(), &now), 0);
    EXPECT_EQ(now.st_mode & 07777u, 0640u);
    EXPECT_TRUE(text_of_file(path).starts_with("\x89PNG"));
    fs::remove(path);
  }
  EXPECT_TRUE(fs::is_empty(folder)) << "nothing may be left beside";
}

TEST(Written, APlantedNameBesideIsNotFollowed) {
  const std::string folder = scratch_folder("written-planted");
  for (const auto& words : ways_to_write(folder + "/a.png")) {
    std::ofstream(folder + "/victim") << "mine";
    for (const char* planted : {"/a.png.part", "/a.png.part0"})
      if (!fs::is_symlink(folder + planted)) fs::create_symlink(folder + "/victim", folder + planted);
    EXPECT_EQ(in_time(words).status, 0);
    EXPECT_EQ(text_of_file(folder + "/victim"), "mine");
    EXPECT_TRUE(fs::is_symlink(folder + "/a.png.part"));
  }
}

TEST(ReadIn, AnEngineThatIsAPipeOrADeviceIsRefusedInOneLine) {
  const std::string folder = scratch_folder("read-pipe");
  const std::string fifo = folder + "/engine.toml";
  ASSERT_EQ(mkfifo(fifo.c_str(), 0600), 0);
  for (const std::string& path : {fifo, std::string("/dev/zero")}) {
    for (const std::vector<std::string>& words : {std::vector<std::string>{"check", path},
                                                  {"plan", path, "--from", "35"},
                                                  {"windows", path, "--json"},
                                                  {"bump", path, "--from", "35", "--press", "0.3"},
                                                  {"draw", path, "lanes", "--out", folder + "/a.pdf"}})
      expect_refused(in_time(words, {}, "20"), "not a regular file");
#ifdef SHUTLANE_HAS_WINDOW
    expect_refused(in_time({"picture", path, "--out", folder + "/a.png"}, {}, "20"), "not a regular file");
#endif
  }
  EXPECT_EQ(std::distance(fs::directory_iterator(folder), fs::directory_iterator()), 1);
}

TEST(ReadIn, WhatIsNoCharacterIsRefusedByTheReader) {
  const std::string folder = scratch_folder("read-characters");
  std::string file = text_of_file(SHUTLANE_SOURCE "/engines/inline-six.toml");
  const size_t name = file.find("name   = \"") + 10;
  ASSERT_GT(name, 10u);
  for (const char* code : {"\\uFFFE", "\\uFDD0", "\\U0010FFFF", "\xEF\xBF\xBF"}) {
    std::string other = file;
    other.insert(name, code);
    std::ofstream(folder + "/e.toml") << other;
    expect_refused(in_time({"check", folder + "/e.toml"}), "name");
    expect_refused(in_time({"draw", folder + "/e.toml", "lanes", "--out", folder + "/a.svg"}), "name");
  }
}

TEST(ReadIn, ABidirectionalNameReachesNoTerminal) {
  const std::string folder = scratch_folder("read-bidi");
  std::string file = text_of_file(SHUTLANE_SOURCE "/engines/inline-six.toml");
  file.insert(file.find("name   = \"") + 10, "\\u202Exis\\u2066");
  std::ofstream(folder + "/e.toml") << file;
  for (const std::vector<std::string>& words : {std::vector<std::string>{"check", folder + "/e.toml"},
                                                {"plan", folder + "/e.toml", "--from", "35"}}) {
    const Ran ran = in_time(words);
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ((ran.out + ran.err).find("\xE2\x80\xAE"), std::string::npos);
    EXPECT_EQ((ran.out + ran.err).find("\xE2\x81\xA6"), std::string::npos);
  }
}

TEST(Words, NoArgumentCommandsATerminal) {
  const std::string evil = "\033]0;x\007\xE2\x80\xAE\xC2\x9B\xFF\xFE";
  std::vector<std::vector<std::string>> all{
      {evil},
      {"plan", evil, "--from", "1"},
      {"plan", "inline-six", "--from", evil},
      {"plan", "inline-six", evil},
      {"draw", "inline-six", evil, "--out", "/tmp/x.pdf"},
      {"draw", "inline-six", "lanes", "--out", "/nowhere/" + evil + ".pdf"}};
#ifdef SHUTLANE_HAS_WINDOW
  for (const char* option : {"--theme", "--event", "--press", "--bench", "--size", "--by", "--scale"})
    all.push_back({"picture", "inline-six", option, evil, "--out", "/nowhere/x.png"});
  all.push_back({"picture", evil, "--out", "/nowhere/x.png"});
  all.push_back({"picture", "inline-six", evil, "--out", "/nowhere/x.png"});
  all.push_back({"picture", "inline-six", "--out", "/nowhere/" + evil + ".png"});
  all.push_back({"--renderer", evil});
  all.push_back({evil + ".toml"});
#endif
  for (const auto& words : all) {
    const Ran ran = in_time(words);
    EXPECT_EQ(ran.status, 2) << words.front();
    EXPECT_EQ(ran.out, "");
    EXPECT_FALSE(ran.err.empty());
    for (const char* command : {"\033", "\007", "\xE2\x80\xAE", "\xC2\x9B"})
      EXPECT_EQ(ran.err.find(command), std::string::npos) << words.front() << " " << words[words.size() - 2];
    EXPECT_EQ(first_not_utf8(ran.err), std::string_view::npos) << words.front();
  }
}

TEST(Together, EightWhoTellAtOnceAreAllKept) {
  RestTable table;
  Around around = with_small_table("together-cache", "inline-six", &table);
  around.env["XDG_STATE_HOME"] = scratch_folder("together-state");
  for (int round = 0; round < 3; ++round) {
    ASSERT_EQ(shutlane({"learn", "inline-six", "--forget"}, around).status, 0);
    std::vector<pid_t> children;
    for (int i = 0; i < 8; ++i) {
      const pid_t child = fork();
      if (child == 0) {
        for (const auto& [name, value] : around.env) setenv(name.c_str(), value.c_str(), 1);
        const int null = open("/dev/null", O_WRONLY);
        dup2(null, STDOUT_FILENO);
        const std::string from = std::to_string(10 * i);
        execl(SHUTLANE_PROGRAM, SHUTLANE_PROGRAM, "learn", "inline-six", "--from", from.c_str(), "--press",
              "0.3", "--went", "further", static_cast<char*>(nullptr));
        _exit(127);
      }
      children.push_back(child);
    }
    for (const pid_t child : children) {
      int state = 0;
      waitpid(child, &state, 0);
      EXPECT_TRUE(WIFEXITED(state) && WEXITSTATUS(state) == 0);
    }
    const Ran told = shutlane({"learn", "inline-six", "--json"}, around);
    EXPECT_EQ(nlohmann::json::parse(told.out)["bumps"].size(), 8u) << told.out;
  }
}

}  // namespace
}  // namespace shutlane::terminal
