#pragma once
#include <optional>
#include <string>

namespace shutlane {

/// Of a file that is not there yet; one that is there keeps its own mode.
struct NewFile {
  bool only_for_me = false;  ///< mode 0600, else as the umask has it
  bool must_be_new = false;  ///< a file that is there is left alone
};

/// Writes a file of a name of its own beside `path`, syncs it and renames it over, so that `path` holds
/// either the old bytes or all of the new ones, after a fall of the power too. Only a regular file that may
/// be written is replaced, through a link the one that it points at; its mode stays. nullopt when all went
/// well, else why not, in a few words.
std::optional<std::string> replace_file(const std::string& path, const std::string& bytes,
                                        const NewFile& rules = {});

/// The same; what went wrong as one line that names the path, without a line end.
std::optional<std::string> write_whole_file(const std::string& path, const std::string& bytes,
                                            const NewFile& rules = {});

inline constexpr const char* kUnfinishedPrefix = ".shutlane-";  ///< of the file beside
inline constexpr const char* kUnfinishedEnding = ".part";

}  // namespace shutlane
