#include "ui/terminal/rest_cache.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <thread>

#include "ui/drawings/write_file.hpp"
#include "ui/terminal/progress.hpp"

namespace shutlane::terminal {
namespace {

std::filesystem::path cache_folder() {
  if (const char* xdg = std::getenv("XDG_CACHE_HOME"); xdg != nullptr && xdg[0] == '/')
    return std::filesystem::path(xdg) / "shutlane";
  if (const char* home = std::getenv("HOME"); home != nullptr && home[0] == '/')
    return std::filesystem::path(home) / ".cache" / "shutlane";
  return {};
}

/// A whole table is not yet the right one: it may lie under another's name.
bool fits(const RestTable& table, const CrankingModel& model, const RestTableQuestion& question) {
  return table.presses_s == question.presses_s && table.period_deg == model.period_deg() &&
         table.phases == static_cast<int>(std::ceil(table.period_deg - 1e-9)) &&
         table.cars.size() == car_samples(model.spreads).size();
}

std::optional<RestTable> kept(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  if (!in) return std::nullopt;
  return rest_table_from_bytes({std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()});
}

}  // namespace

std::shared_ptr<const RestTable> rest_table_for(const CrankingModel& model, RestTableQuestion question) {
  question.threads = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
  const std::filesystem::path folder = cache_folder();
  const std::filesystem::path path = folder / ("rest-" + rest_table_key(model, question));
  if (!folder.empty())
    if (auto table = kept(path); table && fits(*table, model, question))
      return std::make_shared<const RestTable>(*std::move(table));
  std::shared_ptr<const RestTable> table;
  {
    Progress progress("working out where bumps leave the crank");
    question.progress = [&](double done) {
      progress.tell(done);
      return true;
    };
    table = std::make_shared<const RestTable>(build_rest_table(model, question).value());
  }
  if (!folder.empty()) {
    std::error_code ignored;
    std::filesystem::create_directories(folder, ignored);
    const std::vector<unsigned char> bytes = to_bytes(*table);
    (void)write_whole_file(path.string(), std::string(bytes.begin(), bytes.end()));
  }
  return table;
}

}  // namespace shutlane::terminal
