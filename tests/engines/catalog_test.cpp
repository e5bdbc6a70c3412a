// Finding an engine by name or path, and saying why not.
#include "engines/catalog.hpp"

#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "engines/guard.hpp"
#include "engines/spelling.hpp"
#include "tests/engines/sample.hpp"

namespace shutlane::test {
namespace {

class Catalog : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::temp_directory_path() / ("shutlane-catalog-" + std::to_string(getpid()));
    std::filesystem::create_directories(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  std::string file(const std::string& name, const std::string& text) {
    const auto path = folder_ / name;
    std::ofstream(path, std::ios::binary) << text;
    return path.string();
  }
  std::filesystem::path folder_;
};

std::string complaint(const std::string& word) {
  const auto found = find_engine(word);
  return std::holds_alternative<std::string>(found) ? std::get<std::string>(found) : "";
}

TEST_F(Catalog, BundledNamesAreSortedAndGood) {
  const auto& files = bundled_files();
  ASSERT_GE(files.size(), 24u);
  for (size_t i = 0; i < files.size(); ++i) {
    EXPECT_EQ(complaint(std::string(files[i].name)), "");
    if (i > 0) {
      EXPECT_LT(files[i - 1].name, files[i].name);
    }
  }
}

TEST_F(Catalog, APathIsReadFromAnyFolder) {
  const auto found = find_engine(file("mine.toml", kSample));
  ASSERT_TRUE(std::holds_alternative<Engine>(found));
  EXPECT_EQ(std::get<Engine>(found).spec.name, "Sample");
  EXPECT_EQ(std::get<std::string>(engine_text((folder_ / "mine.toml").string())), kSample);
  EXPECT_TRUE(std::get<std::string>(engine_text("inline-six")).starts_with("format = 1\n"));
}

TEST_F(Catalog, MistakesNameTheFileAsGiven) {
  const std::string path = file("bad.toml", with_line(5, "bore_mm = 1"));
  EXPECT_EQ(complaint(path), path + ":5: cylinder.bore_mm: 1 is out of range; a number of mm, 5 to 1000\n");
}

TEST_F(Catalog, AnUnknownNameIsAnsweredWithTheNearest) {
  EXPECT_EQ(complaint("inline-sicks"),
            "inline-sicks: is neither a bundled engine nor a file; the nearest name is inline-six\n");
  EXPECT_EQ(complaint("inline_four"),
            "inline_four: is neither a bundled engine nor a file; the nearest name is inline-four\n");
  EXPECT_EQ(complaint("v12x"), "v12x: is neither a bundled engine nor a file; the nearest name is v12\n");
  EXPECT_EQ(complaint("narrow"),
            "narrow: is neither a bundled engine nor a file; the nearest name is narrow-angle-six\n");
  for (const char* far : {"nosuch", "q", "banana", ""})
    EXPECT_EQ(complaint(far), std::string(far) +
                                  ": is neither a bundled engine nor a file; shutlane engines "
                                  "lists the bundled ones\n");
  EXPECT_EQ(complaint("a\nb").find('\n'), complaint("a\nb").size() - 1);
}

TEST_F(Catalog, WhatIsNoFileIsSaid) {
  const std::string folder = folder_.string();
  EXPECT_TRUE(complaint(folder).starts_with(folder + ": is a folder; ")) << complaint(folder);
  const std::string missing = (folder_ / "inline-six.toml").string();
  EXPECT_EQ(
      complaint(missing),
      missing +
          ": there is no such file; an engine file, or the name of a bundled engine such as inline-six\n");
  const std::string big = file("big.toml", std::string(kFileBytes + 1, '#'));
  EXPECT_TRUE(complaint(big).starts_with(big + ": is longer than 1048576 bytes; ")) << complaint(big);
  EXPECT_TRUE(
      complaint("/dev/zero").starts_with("/dev/zero: is a device, a pipe or a socket, not a regular file; "));
  const std::string endless = folder + std::string(5000, 'x');
  EXPECT_NE(complaint(endless).find("there is no such file"), std::string::npos);
  EXPECT_EQ(complaint(file("empty.toml", "")),
            (folder_ / "empty.toml").string() +
                ":1: file: is empty; an engine file, plain UTF-8 text with format = 1\n");
}

TEST_F(Catalog, AFileThatMayNotBeReadIsSaid) {
  const std::string path = file("locked.toml", kSample);
  std::filesystem::permissions(path, std::filesystem::perms::none);
  if (std::ifstream(path).good()) GTEST_SKIP() << "this user may read everything";
  EXPECT_TRUE(complaint(path).starts_with(path + ": can't be opened: ")) << complaint(path);
}

TEST_F(Catalog, AFileThatFailsWhileReadIsSaid) {
  const std::string path = "/proc/self/mem";  // opens, but its first byte cannot be read
  if (!std::filesystem::exists(path)) GTEST_SKIP() << "no such file on this system";
  EXPECT_TRUE(complaint(path).starts_with(path + ": can't be read: ")) << complaint(path);
}

TEST(Spelling, EditDistance) {
  EXPECT_EQ(edit_distance("", ""), 0u);
  EXPECT_EQ(edit_distance("", "abc"), 3u);
  EXPECT_EQ(edit_distance("kitten", "sitting"), 3u);   // Levenshtein's standard example
  EXPECT_EQ(edit_distance("bore_mm", "boer_mm"), 1u);  // neighbours swapped
  EXPECT_EQ(edit_distance("ca", "abc"), 3u);           // 2 if swapped letters could be edited again
  EXPECT_EQ(edit_distance(std::string(1'000'000, 'a'), "a"), 99u);  // only the first 100 letters count
}

TEST(Spelling, NearestOnlyWhenItLooksLikeASlip) {
  const std::vector<std::string> names{"plan", "windows", "locate"};
  EXPECT_EQ(nearest("plna", names), "plan");
  EXPECT_EQ(nearest("window", names), "windows");
  EXPECT_EQ(nearest("zebra", names), std::nullopt);
  EXPECT_EQ(nearest("x", {}), std::nullopt);
}

}  // namespace
}  // namespace shutlane::test
