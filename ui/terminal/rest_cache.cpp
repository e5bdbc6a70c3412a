#include "ui/terminal/rest_cache.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <thread>

#include "ui/drawings/write_file.hpp"

namespace shutlane::terminal {
namespace {

std::filesystem::path cache_folder() {
  if (const char* xdg = std::getenv("XDG_CACHE_HOME"); xdg != nullptr && xdg[0] == '/')
    return std::filesystem::path(xdg) / "shutlane";
  if (const char* home = std::getenv("HOME"); home != nullptr && home[0] == '/')
    return std::filesystem::path(home) / ".cache" / "shutlane";
  return {};
}

std::optional<RestTable> kept(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) return std::nullopt;
  return rest_table_from_bytes({std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()});
}

/// A line that is written over; nothing for what takes less than a second.
std::function<bool(double)> progress_line(bool& shown) {
  const auto begin = std::chrono::steady_clock::now();
  return [begin, &shown](double done) {
    if (std::chrono::steady_clock::now() - begin > std::chrono::seconds(1)) {
      std::fprintf(stderr, "\rworking out where bumps leave the crank: %3.0f %%", 100 * done);
      shown = true;
    }
    return true;
  };
}

}  // namespace

std::shared_ptr<const RestTable> rest_table_for(const CrankingModel& model, bool progress) {
  RestTableQuestion question;
  question.threads = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
  const std::filesystem::path folder = cache_folder();
  const std::filesystem::path path = folder / ("rest-" + rest_table_key(model, question));
  if (!folder.empty())
    if (auto table = kept(path)) return std::make_shared<const RestTable>(*std::move(table));
  bool shown = false;
  if (progress) question.progress = progress_line(shown);
  auto table = std::make_shared<const RestTable>(build_rest_table(model, question).value());
  if (shown) std::fputs("\r\033[K", stderr);
  if (!folder.empty()) {
    std::error_code ignored;
    std::filesystem::create_directories(folder, ignored);
    const std::vector<unsigned char> bytes = to_bytes(*table);
    (void)write_whole_file(path.string(), std::string(bytes.begin(), bytes.end()));
  }
  return table;
}

}  // namespace shutlane::terminal
