#include "engines/own.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "engines/catalog.hpp"
#include "engines/words.hpp"

namespace shutlane {
namespace {

namespace fs = std::filesystem;

constexpr size_t kPathShown = 4096;

/// The path of the own file of that name; empty when there is none.
std::string own_path(const std::string& name, const std::string& folder) {
  if (name.empty() || name.find('/') != std::string::npos) return "";
  for (const std::string& path : engine_files_in(folder))
    if (const fs::path file(path); file.filename() == name || file.stem() == name) return path;
  return "";
}

std::string nowhere(const std::string& name, const std::string& folder) {
  std::vector<std::string> names;
  for (const std::string& path : engine_files_in(folder)) names.push_back(fs::path(path).stem().string());
  for (const BundledFile& file : bundled_files()) names.emplace_back(file.name);
  const auto near = nearest(name, names);
  return fmt::format("{}: is neither a bundled engine, nor one of your own, nor a file; {}\n",
                     one_line(name, kPathShown),
                     near ? "the nearest name is " + one_line(*near, kPathShown)
                          : "shutlane engines lists the bundled ones");
}

}  // namespace

std::string own_engines_folder() {
  if (const char* data = std::getenv("XDG_DATA_HOME"); data && data[0] == '/')
    return std::string(data) + "/shutlane/engines";
  if (const char* home = std::getenv("HOME"); home && home[0] == '/')
    return std::string(home) + "/.local/share/shutlane/engines";
  return "";
}

std::vector<std::string> engine_files_in(const std::string& folder) {
  std::vector<std::string> paths;
  std::error_code wrong;
  for (const auto& file : fs::directory_iterator(folder, wrong))
    if (file.path().extension() == ".toml" && file.is_regular_file(wrong))
      paths.push_back(file.path().string());
  std::sort(paths.begin(), paths.end());
  return paths;
}

std::variant<EngineFile, std::string> shown_engine(const std::string& name_or_path,
                                                   const std::string& own_folder) {
  std::string where = name_or_path;
  std::error_code wrong;
  if (!is_bundled(where) && !fs::exists(where, wrong)) {
    const std::string own = own_path(where, own_folder);
    if (own.empty()) return nowhere(where, own_folder);
    where = own;
  }
  auto found = find_engine(where);  // with the lines of its mistakes
  if (auto* lines = std::get_if<std::string>(&found)) return std::move(*lines);
  auto text = engine_text(where);
  if (auto* whole = std::get_if<std::string>(&text)) return EngineFile{std::move(*whole)};
  return fmt::format("{}: {}\n", one_line(where, kPathShown), std::get<ReadFailure>(text).why);
}

}  // namespace shutlane
