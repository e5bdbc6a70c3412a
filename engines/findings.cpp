#include "engines/findings.hpp"

#include <algorithm>

namespace shutlane {
namespace {

/// "valves[1].banks[0]" -> "valves[1].banks" -> "valves[1]" -> "valves" -> "".
std::string_view parent_of(std::string_view path) {
  const size_t cut = path.find_last_of(".[");
  return cut == std::string_view::npos ? std::string_view{} : path.substr(0, cut);
}

}  // namespace

int Findings::line_of(std::string_view path) const {
  for (; !path.empty(); path = parent_of(path))
    if (const auto at = lines_.find(path); at != lines_.end()) return at->second;
  return 1;
}

void Findings::flaw(const std::string& path, int line, std::string wrong, std::string expected) {
  flawed_.insert(path);
  remark(path, line, std::move(wrong), std::move(expected));
}

void Findings::remark(const std::string& path, int line, std::string wrong, std::string expected) {
  mistakes_.push_back({line, {path, std::move(wrong), std::move(expected)}});
}

bool Findings::touched(std::string_view path) const {
  for (std::string_view part = path; !part.empty(); part = parent_of(part))
    if (flawed_.contains(part)) return true;
  for (const char joint : {'.', '['}) {
    const std::string inside = std::string(path) + joint;
    const auto at = flawed_.lower_bound(inside);
    if (at != flawed_.end() && at->starts_with(inside)) return true;
  }
  return false;
}

bool Findings::touched_any(std::initializer_list<std::string_view> paths) const {
  return std::any_of(paths.begin(), paths.end(), [&](std::string_view path) { return touched(path); });
}

std::vector<FileMistake> Findings::take() {
  std::stable_sort(mistakes_.begin(), mistakes_.end(),
                   [](const FileMistake& a, const FileMistake& b) { return a.line < b.line; });
  return std::move(mistakes_);
}

}  // namespace shutlane
