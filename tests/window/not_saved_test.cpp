// The real program, without a display of its own, where nothing can be kept: it says so and does not end as
// if all were well.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

#include "tests/folder.hpp"

namespace shutlane {
namespace {

struct Closed {
  int status = -1;
  std::string err;
};

/// Opened on an engine and asked to end after a few seconds, as a desktop asks.
Closed opened_and_closed(const Folder& folder, const std::string& surroundings) {
  const std::string err = folder.file("err");
  const std::string command = "cd / && env -i PATH=\"$PATH\" SDL_VIDEODRIVER=dummy SDL_AUDIODRIVER=dummy " +
                              std::string("ASAN_OPTIONS=detect_leaks=0 ") + surroundings +
                              " timeout --preserve-status -s TERM 5 '" SHUTLANE_PROGRAM
                              "' --renderer cpu inline-six > /dev/null 2> '" +
                              err + "'";
  const int state = std::system(command.c_str());
  std::ifstream in(err);
  return {WIFEXITED(state) ? WEXITSTATUS(state) : -1,
          {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()}};
}

TEST(NotSaved, ClosingSaysSoAndFailsWhereNothingCouldBeKept) {
  const Folder folder;
  const Closed homeless = opened_and_closed(folder, "");
  EXPECT_EQ(homeless.status, 1) << homeless.err;
  EXPECT_NE(homeless.err.find("NOT SAVED: neither HOME"), std::string::npos) << homeless.err;
  std::ofstream(folder.file("no-folder")) << "in the way";
  const Closed refused = opened_and_closed(folder, "XDG_STATE_HOME='" + folder.file("no-folder") + "'");
  EXPECT_EQ(refused.status, 1) << refused.err;
  EXPECT_NE(refused.err.find("NOT SAVED"), std::string::npos) << refused.err;
}

TEST(NotSaved, ClosingIsQuietWhereAllIsKept) {
  const Folder folder;
  const Closed closed = opened_and_closed(folder, "XDG_STATE_HOME='" + folder.file("state") + "'");
  EXPECT_EQ(closed.status, 0) << closed.err;
  EXPECT_EQ(closed.err.find("NOT SAVED"), std::string::npos) << closed.err;
  EXPECT_TRUE(std::filesystem::is_regular_file(folder.file("state/shutlane/state.json")));
}

}  // namespace
}  // namespace shutlane
