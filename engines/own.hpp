#pragma once
// The engine files of the person's own, beside the bundled ones.
#include <string>
#include <variant>
#include <vector>

namespace shutlane {

/// $XDG_DATA_HOME/shutlane/engines, else ~/.local/share/shutlane/engines: where engine files of the person's
/// own are saved; empty when there is no home.
std::string own_engines_folder();

/// The paths of the engine files in a folder, by name; none when there is no such folder.
std::vector<std::string> engine_files_in(const std::string& folder);

/// The file of an engine as it stands, or the lines for standard error (each one ends in a newline): a
/// bundled engine by name, a file by path, or one in `own_folder` by its name, with .toml or without; the
/// first of these that there is. A file with mistakes is no engine.
struct EngineFile {
  std::string text;
};
std::variant<EngineFile, std::string> shown_engine(const std::string& name_or_path,
                                                   const std::string& own_folder);

}  // namespace shutlane
