#pragma once
#include <cstddef>
#include <optional>
#include <string>

namespace shutlane {

/// The bytes of a regular file no longer than `most`; nullopt for anything else. Never waits for a pipe.
std::optional<std::string> read_regular_file(const std::string& path, size_t most);

}  // namespace shutlane
