#include "ui/window/saved/state_file.hpp"

#include <cstdlib>
#include <filesystem>

#include "ui/disk/read_file.hpp"
#include "ui/disk/write_file.hpp"

namespace shutlane {
namespace {

namespace fs = std::filesystem;

constexpr size_t kMostBytes = 64 << 20;  // a job on the largest engine file is a fraction of it

}  // namespace

std::string state_path() {
  if (const char* state = std::getenv("XDG_STATE_HOME"); state && state[0] == '/')
    return std::string(state) + "/shutlane/state.json";
  if (const char* home = std::getenv("HOME"); home && home[0] == '/')
    return std::string(home) + "/.local/state/shutlane/state.json";
  return "";
}

std::optional<std::string> save_whole(const std::string& path, const std::string& text) {
  std::error_code failed;
  fs::create_directories(fs::path(path).parent_path(), failed);
  if (const auto why = replace_file(path, text, {.only_for_me = true}))
    return "the state could not be saved: " + *why;
  return {};
}

Loaded load_state(const std::string& path) {
  std::error_code failed;
  if (path.empty() || !fs::exists(path, failed)) return {};
  if (const auto text = read_regular_file(path, kMostBytes)) {
    auto document = from_json(*text);
    if (auto* good = std::get_if<Document>(&document)) return {std::move(*good), ""};
  }
  Loaded damaged;
  for (int n = 1; n < 1000; ++n) {
    damaged.set_aside = path + ".damaged-" + std::to_string(n);
    if (!fs::exists(damaged.set_aside, failed)) break;
  }
  fs::rename(path, damaged.set_aside, failed);
  return damaged;
}

}  // namespace shutlane
