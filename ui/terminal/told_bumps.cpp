#include "ui/terminal/told_bumps.hpp"
#include "ui/drawings/bump_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <optional>

#include "ui/disk/folder_lock.hpp"
#include "ui/disk/read_file.hpp"
#include "ui/disk/write_file.hpp"
#include "ui/terminal/answer.hpp"
#include "ui/terminal/bump_words.hpp"
#include "ui/terminal/json_text.hpp"
#include "ui/terminal/read_options.hpp"

namespace shutlane::terminal {
namespace {

constexpr std::array kWent{std::pair{Went::less_far, "less-far"}, std::pair{Went::as_reckoned, "as-reckoned"},
                           std::pair{Went::further, "further"}};
constexpr int kFormat = 1;
constexpr size_t kMostBytes = 1 << 20;

std::filesystem::path state_folder() {
  if (const char* xdg = std::getenv("XDG_STATE_HOME"); xdg != nullptr && xdg[0] == '/')
    return std::filesystem::path(xdg) / "shutlane";
  if (const char* home = std::getenv("HOME"); home != nullptr && home[0] == '/')
    return std::filesystem::path(home) / ".local" / "state" / "shutlane";
  return {};
}

/// Empty when there is no home to keep anything in.
std::filesystem::path file_of(const CrankingModel& model) {
  const std::filesystem::path folder = state_folder();
  return folder.empty() ? folder : folder / ("bumps-" + rest_table_key(model, {}) + ".json");
}

/// Half the step between presses, and what rounding adds.
constexpr double kNearPress_s = 0.0101;

std::optional<int> nearest_press(const std::vector<double>& presses, double press_s) {
  const auto near = std::min_element(presses.begin(), presses.end(), [&](double a, double b) {
    return std::abs(a - press_s) < std::abs(b - press_s);
  });
  if (near == presses.end() || !(std::abs(*near - press_s) <= kNearPress_s)) return std::nullopt;
  return static_cast<int>(near - presses.begin());
}

std::optional<std::vector<ToldBump>> from_text(const std::string& text) {
  const Json all = Json::parse(text, nullptr, false);
  if (!all.is_object() || all.value("format", Json()) != kFormat || !all.contains("bumps") ||
      !all["bumps"].is_array() || all["bumps"].size() > kMostToldBumps)
    return std::nullopt;
  const std::vector<double> presses = default_presses_s();
  std::vector<ToldBump> bumps;
  for (const Json& entry : all["bumps"]) {
    if (!entry.is_object() || !entry.contains("from_deg") || !entry["from_deg"].is_number() ||
        !entry.contains("press_s") || !entry["press_s"].is_number() || !entry.contains("went"))
      return std::nullopt;
    ToldBump bump{entry["from_deg"].get<double>(), entry["press_s"].get<double>(), Went::as_reckoned};
    const auto* went =
        std::find_if(kWent.begin(), kWent.end(), [&](const auto& w) { return entry["went"] == w.second; });
    if (went == kWent.end() || !(bump.from_deg >= 0 && bump.from_deg < kCycle_deg) ||
        !nearest_press(presses, bump.press_s))
      return std::nullopt;
    bump.went = went->first;
    bumps.push_back(bump);
  }
  return bumps;
}

}  // namespace

std::string went_word(Went went) {
  return std::find_if(kWent.begin(), kWent.end(), [&](const auto& w) { return w.first == went; })->second;
}

ToldBumps told_bumps(const CrankingModel& model) {
  const std::filesystem::path path = file_of(model);
  const auto text = read_regular_file(path.string(), kMostBytes);
  if (!text) return {};
  if (auto bumps = from_text(*text)) return {*std::move(bumps), {}};
  const std::string aside = path.string() + ".damaged";
  std::error_code failed;
  std::filesystem::rename(path, aside, failed);
  return {
      {},
      fmt::format("shutlane: what was told of this engine's bumps is damaged and {}; nothing of it is used\n",
                  failed ? "can't be set aside" : "was set aside as " + harmless(aside))};
}

ToldBumps add_told_bump(const CrankingModel& model, const ToldBump& bump) {
  const std::filesystem::path path = file_of(model);
  if (path.empty()) throw BadInput("neither XDG_STATE_HOME nor HOME is set: nowhere to keep what was told");
  const FolderLock lock(path.parent_path().string());
  ToldBumps told = told_bumps(model);
  std::vector<ToldBump>& bumps = told.bumps;
  bumps.push_back(bump);
  if (bumps.size() > kMostToldBumps) bumps.erase(bumps.begin(), bumps.end() - kMostToldBumps);
  Json list = Json::array();
  for (const ToldBump& b : bumps)
    list.push_back({{"from_deg", b.from_deg}, {"press_s", b.press_s}, {"went", went_word(b.went)}});
  if (const auto wrong =
          write_whole_file(path.string(), json_text({{"format", kFormat}, {"bumps", std::move(list)}})))
    throw BadInput(harmless(*wrong));
  return told;
}

void forget_told_bumps(const CrankingModel& model) {
  const std::filesystem::path path = file_of(model);
  if (path.empty()) return;
  std::error_code failed;
  std::filesystem::remove(path, failed);
  if (failed) throw BadInput(fmt::format("{}: can't be removed", harmless(path.string())));
}

int press_in_table(const RestTable& table, double press_s) {
  if (const auto near = nearest_press(table.presses_s, press_s)) return *near;
  throw BadInput(fmt::format("--press: bumps are compared for presses of {} to {} s",
                             seconds_in_words(table.presses_s.front()),
                             seconds_in_words(table.presses_s.back())));
}

std::vector<CarSample> cars_after(const RestTable& table, const std::vector<ToldBump>& bumps) {
  std::vector<CarSample> cars = table.cars;
  std::vector<double> weights = weights_of(cars);
  for (const ToldBump& b : bumps)
    weights = learned(table, weights, static_cast<int>(b.from_deg), press_in_table(table, b.press_s), b.went);
  for (size_t i = 0; i < cars.size(); ++i) cars[i].weight = weights[i];
  return cars;
}

std::vector<double> weights_of(const std::vector<CarSample>& cars) {
  std::vector<double> weights;
  for (const CarSample& c : cars) weights.push_back(c.weight);
  return weights;
}

}  // namespace shutlane::terminal
