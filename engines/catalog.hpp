#pragma once
// Finding an engine by the word on the command line: a bundled name or a path.
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engines/reader.hpp"

namespace shutlane {

struct BundledFile {
  std::string_view name;  ///< "inline-six"
  std::string_view text;
};
const std::vector<BundledFile>& bundled_files();  ///< sorted by name
bool is_bundled(std::string_view name);
/// The bundled engines that assume the widest events of road engines begin so; all others hold invented
/// numbers.
inline constexpr std::string_view kAnyEngine = "any-";

/// The engine, or the lines for standard error (each one ends in a newline).
/// A word that is neither a bundled name nor a readable file is answered with the nearest bundled name, when
/// it may be a slip of one.
std::variant<Engine, std::string> find_engine(const std::string& name_or_path);

/// The candidate nearest to `word` by edit distance; nullopt when none is near enough to be a slip.
std::optional<std::string> nearest(std::string_view word, const std::vector<std::string>& candidates);

/// Why a file could not be read whole (missing, a folder, too large, unreadable), or its bytes.
struct ReadFailure {
  std::string why;
};
std::variant<std::string, ReadFailure> read_file(const std::string& path);

/// The text that find_engine reads: a bundled file or one of the user's. With it, at_lines() places doubts.
std::variant<std::string, ReadFailure> engine_text(const std::string& name_or_path);

}  // namespace shutlane
