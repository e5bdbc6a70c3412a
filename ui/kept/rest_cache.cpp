#include "ui/kept/rest_cache.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <string>
#include <vector>

#include "ui/disk/read_file.hpp"
#include "ui/disk/write_file.hpp"

namespace shutlane {
namespace {

namespace fs = std::filesystem;

constexpr const char* kPrefix = "rest-";
constexpr size_t kKeyDigits = 16;
constexpr size_t kMostCacheBytes = 1 << 30;  // of one table
constexpr std::chrono::hours kLeftOver{1};   // an unfinished file as old as this is nobody's any more

/// A whole table is not yet the right one: it may lie under another's name.
bool fits(const RestTable& table, const CrankingModel& model, const RestTableQuestion& question) {
  return table.presses_s == question.presses_s && table.period_deg == model.period_deg() &&
         table.phases == static_cast<int>(std::ceil(table.period_deg - 1e-9)) &&
         table.cars.size() == car_samples(model.spreads).size();
}

std::optional<RestTable> kept(const fs::path& path) {
  const auto bytes = read_regular_file(path.string(), kMostCacheBytes);
  if (!bytes) return std::nullopt;
  return rest_table_from_bytes({bytes->begin(), bytes->end()});
}

bool is_table_name(const std::string& name) {
  const std::string prefix = kPrefix;
  return name.size() == prefix.size() + kKeyDigits && name.starts_with(prefix) &&
         name.find_first_not_of("0123456789abcdef", prefix.size()) == std::string::npos;
}

/// What a run left that was ended while it wrote.
void remove_left_over(const fs::path& folder) {
  std::error_code wrong;
  for (fs::directory_iterator at(folder, wrong), end; !wrong && at != end; at.increment(wrong)) {
    const std::string name = at->path().filename().string();
    if (!name.starts_with(kUnfinishedPrefix) || !name.ends_with(kUnfinishedEnding)) continue;
    std::error_code gone;
    const auto written = at->last_write_time(gone);
    if (!gone && fs::file_time_type::clock::now() - written > kLeftOver) fs::remove(at->path(), gone);
  }
}

struct KeptFile {
  fs::path path;
  fs::file_time_type written;
  std::uintmax_t bytes = 0;
};

std::vector<KeptFile> newest_first(const fs::path& folder) {
  std::vector<KeptFile> files;
  std::error_code wrong;
  for (fs::directory_iterator at(folder, wrong), end; !wrong && at != end; at.increment(wrong)) {
    if (!is_table_name(at->path().filename().string())) continue;
    std::error_code gone;  // another run may prune at the same time
    KeptFile file{at->path(), at->last_write_time(gone), 0};
    if (!gone && at->is_regular_file(gone)) file.bytes = at->file_size(gone);
    if (!gone && file.bytes > 0) files.push_back(std::move(file));
  }
  std::sort(files.begin(), files.end(), [](const KeptFile& a, const KeptFile& b) {
    return a.written != b.written ? a.written > b.written : a.path < b.path;
  });
  return files;
}

}  // namespace

fs::path rest_cache_folder() {
  if (const char* xdg = std::getenv("XDG_CACHE_HOME"); xdg != nullptr && xdg[0] == '/')
    return fs::path(xdg) / "shutlane";
  if (const char* home = std::getenv("HOME"); home != nullptr && home[0] == '/')
    return fs::path(home) / ".cache" / "shutlane";
  return {};
}

void prune_rest_cache(const fs::path& folder, const RestCacheLimits& limits) {
  remove_left_over(folder);
  const std::vector<KeptFile> files = newest_first(folder);
  std::uintmax_t bytes = 0;
  for (size_t i = 0; i < files.size(); ++i) {
    bytes += files[i].bytes;
    std::error_code ignored;
    if (i > 0 && (i >= limits.files || bytes > limits.bytes)) fs::remove(files[i].path, ignored);
  }
}

std::shared_ptr<const RestTable> rest_table_for(const CrankingModel& model,
                                                const RestTableQuestion& question) {
  const fs::path folder = rest_cache_folder();
  const fs::path path = folder / (kPrefix + rest_table_key(model, question));
  if (!folder.empty())
    if (auto table = kept(path); table && fits(*table, model, question))
      return std::make_shared<const RestTable>(*std::move(table));
  std::optional<RestTable> built = build_rest_table(model, question);
  if (!built) return nullptr;
  const auto table = std::make_shared<const RestTable>(*std::move(built));
  if (!folder.empty()) {
    std::error_code ignored;
    fs::create_directories(folder, ignored);
    const std::vector<unsigned char> bytes = to_bytes(*table);
    if (!write_whole_file(path.string(), std::string(bytes.begin(), bytes.end()))) prune_rest_cache(folder);
  }
  return table;
}

}  // namespace shutlane
