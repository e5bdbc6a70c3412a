#pragma once
#include <optional>
#include <string>

namespace shutlane {

/// Writes a file beside `path` and renames it over, so that `path` holds either the old bytes or all of the
/// new ones. Only a regular file is replaced. nullopt when all went well, otherwise one line, without a line
/// end.
std::optional<std::string> write_whole_file(const std::string& path, const std::string& bytes);

}  // namespace shutlane
