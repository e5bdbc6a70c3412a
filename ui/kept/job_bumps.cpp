#include "ui/kept/job_bumps.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <optional>

#include "ui/disk/folder_lock.hpp"
#include "ui/disk/read_file.hpp"
#include "ui/disk/write_file.hpp"

namespace shutlane {
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

constexpr int kFormat = 1;
constexpr size_t kMostStops = 500;  // of one job
constexpr size_t kMostBytes = 16 << 20;

/// Empty when there is no home to keep anything in.
fs::path file_of(const CrankingModel& model) {
  fs::path folder;
  if (const char* xdg = std::getenv("XDG_STATE_HOME"); xdg != nullptr && xdg[0] == '/')
    folder = fs::path(xdg) / "shutlane";
  else if (const char* home = std::getenv("HOME"); home != nullptr && home[0] == '/')
    folder = fs::path(home) / ".local" / "state" / "shutlane";
  return folder.empty() ? folder : folder / ("jobs-" + rest_table_key(model, {}) + ".json");
}

json to_json(const BumpStop& stop) {
  json arcs = json::array();
  for (const Arc& arc : stop.where.arcs()) arcs.push_back({arc.from_deg, arc.length_deg});
  return {{"where_deg", arcs}, {"press_s", stop.press_s}, {"timed", stop.timed}};
}

BumpStop stop_from(const json& j) {
  std::vector<Arc> arcs;
  for (const json& arc : j.at("where_deg")) {
    const Arc read{arc.at(0).get<double>(), arc.at(1).get<double>()};
    if (!(read.from_deg >= 0 && read.from_deg < kCycle_deg && read.length_deg > 0 &&
          read.length_deg <= kCycle_deg))
      throw std::out_of_range("arc");
    arcs.push_back(read);
  }
  BumpStop stop{ArcSet(std::move(arcs)), j.at("press_s").get<double>(), j.at("timed").get<bool>(), false};
  if (!(stop.press_s >= 0 && stop.press_s <= 60)) throw std::out_of_range("press");
  return stop;
}

std::optional<std::vector<JobBumps>> from_text(const std::string& text) {
  try {
    const json all = json::parse(text);
    if (all.at("format") != kFormat || all.at("jobs").size() > kMostKeptJobs) return std::nullopt;
    std::vector<JobBumps> jobs;
    for (const json& kept : all.at("jobs")) {
      JobBumps job{kept.at("started_s").get<double>(), {}};
      size_t stops = 0;
      for (const json& row : kept.at("rows")) {
        job.rows.push_back({});
        for (const json& stop : row) job.rows.back().push_back(stop_from(stop));
        stops += row.size();
        if (row.empty() || stops > kMostStops) return std::nullopt;
      }
      jobs.push_back(std::move(job));
    }
    return jobs;
  } catch (const std::exception&) {
    return std::nullopt;
  }
}

void write(const fs::path& path, const std::vector<JobBumps>& jobs) {
  json list = json::array();
  for (const JobBumps& job : jobs) {
    json rows = json::array();
    for (const BumpRow& row : job.rows) {
      rows.push_back(json::array());
      for (const BumpStop& stop : row) rows.back().push_back(to_json(stop));
    }
    list.push_back({{"started_s", job.started_s}, {"rows", rows}});
  }
  (void)write_whole_file(path.string(), json{{"format", kFormat}, {"jobs", list}}.dump(1) + "\n");
}

bool tells_something(const BumpRow& row) {
  return std::any_of(row.begin(), row.end(), [](const BumpStop& stop) { return stop.timed; });
}

}  // namespace

std::vector<JobBumps> job_bumps(const CrankingModel& model) {
  const fs::path path = file_of(model);
  const auto text = read_regular_file(path.string(), kMostBytes);
  if (!text) return {};
  if (auto jobs = from_text(*text)) return *std::move(jobs);
  std::error_code ignored;
  fs::rename(path, path.string() + ".damaged", ignored);
  return {};
}

void keep_job_bumps(const CrankingModel& model, const JobBumps& job) {
  const fs::path path = file_of(model);
  if (path.empty()) return;
  const FolderLock lock(path.parent_path().string());
  const std::vector<JobBumps> before = job_bumps(model);
  std::vector<JobBumps> jobs;
  for (const JobBumps& kept : before)
    if (kept.started_s != job.started_s) jobs.push_back(kept);
  JobBumps now{job.started_s, {}};
  size_t stops = 0;
  for (const BumpRow& row : job.rows)
    if (tells_something(row) && (stops += row.size()) <= kMostStops) now.rows.push_back(row);
  for (BumpRow& row : now.rows)
    for (BumpStop& stop : row) stop.gained = false;  // of this day's work alone
  if (!now.rows.empty()) jobs.push_back(std::move(now));
  if (jobs.size() > kMostKeptJobs) jobs.erase(jobs.begin());
  if (jobs != before) write(path, jobs);
}

void forget_job_bumps(const CrankingModel& model) {
  std::error_code ignored;
  if (const fs::path path = file_of(model); !path.empty()) fs::remove(path, ignored);
}

size_t timed_bumps(const std::vector<JobBumps>& jobs) {
  size_t count = 0;
  for (const JobBumps& job : jobs)
    for (const BumpRow& row : job.rows)
      for (const BumpStop& stop : row) count += stop.timed;
  return count;
}

std::vector<double> weights_after(const RestTable& table, std::vector<double> weights,
                                  const std::vector<BumpRow>& rows, int* learnt_from) {
  for (const BumpRow& row : rows) {
    BumpBelief belief = believed_after(table, std::move(weights), row);
    weights = std::move(belief.cars);
    if (learnt_from != nullptr) *learnt_from += belief.learnt_from;
  }
  return weights;
}

BumpMemory kept_bump_memory() {
  return {[](const CrankingModel& model, const RestTable& table, double but_job_s) {
            std::vector<double> weights;
            for (const CarSample& car : table.cars) weights.push_back(car.weight);
            for (const JobBumps& job : job_bumps(model))
              if (job.started_s != but_job_s) weights = weights_after(table, std::move(weights), job.rows);
            return weights;
          },
          keep_job_bumps};
}

}  // namespace shutlane
