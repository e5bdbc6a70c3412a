// `draw`: a whole file or none, and one line when there is none. What is on the page is the drawings' own
// matter.
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "tests/terminal/program.hpp"

namespace shutlane::terminal {
namespace {

namespace fs = std::filesystem;

size_t files_in(const std::string& folder) {
  return static_cast<size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

void expect_refused(const std::vector<std::string>& words, const std::string& named, const Around& around) {
  const Ran ran = shutlane(words, around);
  EXPECT_EQ(ran.status, 2) << named;
  EXPECT_EQ(ran.out, "") << named;
  EXPECT_EQ(ran.err_lines(), 1u) << ran.err;
  EXPECT_NE(ran.err.find(named), std::string::npos) << ran.err;
}

TEST(Draw, EveryPageInEveryFormatTwiceTheSame) {
  const Around there{.folder = scratch_folder("draw")};
  const std::vector<std::pair<std::string, std::string>> begins{
      {"svg", "<?xml"}, {"pdf", "%PDF-"}, {"png", "\x89PNG"}};
  for (const char* page : {"lanes", "dial", "lift"}) {
    for (const auto& [format, begin] : begins) {
      const std::string one = std::string(page) + "." + format, two = std::string("again-") + one;
      for (const std::string& name : {one, two}) {
        const Ran ran = shutlane({"draw", "inline-six", page, "--from", "35:5", "--out", name}, there);
        EXPECT_EQ(ran.status, 0) << ran.err;
        EXPECT_EQ(ran.out + ran.err, "");
      }
      const std::string bytes = text_of_file(there.folder + "/" + one);
      EXPECT_TRUE(bytes.starts_with(begin)) << one;
      EXPECT_EQ(bytes, text_of_file(there.folder + "/" + two)) << one;
    }
  }
  EXPECT_EQ(files_in(there.folder), 18u) << "nothing else may be left beside them";
}

TEST(Draw, TheFanOfABumpTwiceTheSame) {
  const Around there{.folder = scratch_folder("draw-fan")};
  const std::vector<std::string> lanes{"draw", "inline-six", "lanes", "--from", "35", "--out"};
  const auto drawn = [&](const std::string& name, std::vector<std::string> more) {
    std::vector<std::string> words = lanes;
    words.push_back(name);
    words.insert(words.end(), more.begin(), more.end());
    const Ran ran = shutlane(words, there);
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ(ran.out + ran.err, "");
    return text_of_file(there.folder + "/" + name);
  };
  const std::string fan = drawn("a.svg", {"--press", "0.3"});
  EXPECT_EQ(fan, drawn("b.svg", {"--press", "0.3"}));
  EXPECT_NE(fan, drawn("c.svg", {"--press", "0.5"}));
  EXPECT_NE(fan, drawn("d.svg", {}));
}

TEST(Draw, TheCourseOfABump) {
  const Around there{.folder = scratch_folder("draw-bump")};
  const std::vector<std::string> words{"draw", "inline-six", "bump", "--from",
                                       "35",   "--press",    "0.3",  "--out"};
  for (const char* name : {"a.pdf", "a.svg", "b.svg", "a.png"}) {
    std::vector<std::string> all = words;
    all.emplace_back(name);
    const Ran ran = shutlane(all, there);
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_EQ(ran.out + ran.err, "");
  }
  EXPECT_EQ(text_of_file(there.folder + "/a.svg"), text_of_file(there.folder + "/b.svg"));
  expect_refused({"draw", "inline-six", "bump", "--from", "35", "--out", "c.pdf"}, "--press", there);
  expect_refused({"draw", "inline-six", "bump", "--press", "0.3", "--out", "c.pdf"}, "--from", there);
  expect_refused({"draw", "inline-six", "lift", "--from", "0", "--press", "0.3", "--out", "c.pdf"}, "--press",
                 there);
  const Ran hybrid =
      shutlane({"draw", "hybrid-three", "bump", "--from", "35", "--press", "0.3", "--out", "c.pdf"}, there);
  EXPECT_EQ(hybrid.status, 1);
  EXPECT_NE(hybrid.out.find("No bump"), std::string::npos) << hybrid.out;
  EXPECT_EQ(files_in(there.folder), 4u);
}

TEST(Draw, NoFanWithoutAStarterAndNoFileThen) {
  const Around there{.folder = scratch_folder("draw-hybrid")};
  const Ran ran =
      shutlane({"draw", "hybrid-three", "lanes", "--from", "35", "--press", "0.3", "--out", "a.svg"}, there);
  EXPECT_EQ(ran.status, 1);
  EXPECT_EQ(ran.err, "");
  EXPECT_NE(ran.out.find("No bump"), std::string::npos) << ran.out;
  EXPECT_EQ(files_in(there.folder), 0u);
}

TEST(Draw, WithoutAPlanToo) {
  const Around there{.folder = scratch_folder("draw-plain")};
  EXPECT_EQ(shutlane({"draw", "inline-six", "lanes", "--out", "a.svg"}, there).status, 0);
  EXPECT_EQ(shutlane({"draw", "inline-six", "dial", "--cylinder", "5", "--out", "b.svg"}, there).status, 0);
  EXPECT_EQ(shutlane({"draw", "inline-six", "dial", "--cylinder", "1", "--out", "c.svg"}, there).status, 0);
  EXPECT_NE(text_of_file(there.folder + "/b.svg"), text_of_file(there.folder + "/c.svg"));
}

TEST(Draw, RefusesInOneLineAndLeavesNothing) {
  const Around there{.folder = scratch_folder("draw-refused")};
  const std::vector<std::string> lanes{"draw", "inline-six", "lanes"};
  const auto with = [&](std::vector<std::string> more) {
    more.insert(more.begin(), lanes.begin(), lanes.end());
    return more;
  };
  expect_refused(lanes, "--out", there);
  expect_refused(with({"--out", "plan.gif"}), "plan.gif", there);
  expect_refused(with({"--out", "plan.jpg"}), ".pdf, .svg or .png", there);
  expect_refused(with({"--out", "plan"}), "plan", there);
  expect_refused(with({"--out", ""}), "expected", there);
  expect_refused(with({"--out", "no/such/folder/plan.svg"}), "plan.svg", there);
  expect_refused(with({"--out", "a.svg", "--from", "nan"}), "nan", there);
  expect_refused(with({"--out", "a.svg", "--press", "0.3"}), "--from", there);
  expect_refused(with({"--out", "a.svg", "--from", "35", "--press", "6"}), "--press", there);
  expect_refused({"draw", "inline-six", "dial", "--from", "35", "--press", "0.3", "--out", "a.svg"}, "lanes",
                 there);
  expect_refused(with({"--out", "a.svg", "--done", "7"}), "--done", there);
  expect_refused(with({"--out", "a.svg", "--cylinder", "7"}), "--cylinder", there);
  expect_refused(with({"--out", "a.svg", "--cylinder", "1,2"}), "--cylinder", there);
  expect_refused({"draw", "inline-six", "lane", "--out", "a.svg"}, "lanes", there);
  expect_refused({"draw", "inline-six", "--out", "a.svg"}, "PAGE", there);
  expect_refused({"draw", "inlne-six", "lanes", "--out", "a.svg"}, "inline-six", there);
  EXPECT_EQ(files_in(there.folder), 0u);
  fs::create_directory(there.folder + "/folder.svg");
  expect_refused(with({"--out", "folder.svg"}), "folder.svg", there);
  EXPECT_EQ(files_in(there.folder), 1u);
}

TEST(Draw, AFileThatIsThereStaysWholeWhenTheNewOneFails) {
  // A file size limit makes the write fail half way, as a full disk does.
  const std::string folder = scratch_folder("draw-full");
  std::ofstream(folder + "/plan.svg") << "the old page";
  const Ran ran = run_command({"bash", "-c",
                               std::string("ulimit -f 1; trap '' XFSZ; exec ") + SHUTLANE_PROGRAM +
                                   " draw inline-six lanes --from 35 --out plan.svg"},
                              {.folder = folder});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.err_lines(), 1u) << ran.err;
  EXPECT_EQ(text_of_file(folder + "/plan.svg"), "the old page");
  EXPECT_EQ(files_in(folder), 1u);
}

}  // namespace
}  // namespace shutlane::terminal
