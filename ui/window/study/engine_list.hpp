#pragma once
// The engines that come with the program, as a list that can be searched.
#include <string>
#include <string_view>
#include <vector>

#include "sim/mechanism/engine.hpp"

namespace shutlane {

struct EngineEntry {
  std::string name;    ///< to open it by: "inline-six"
  std::string title;   ///< the file's name for it
  std::string layout;  ///< "inline six"
  std::string order;   ///< "1-5-3-6-2-4"
  LayoutSpec drawn;    ///< for its small drawing
  bool own = false;    ///< a file of the person's; its name is the path
};

/// The entry of an engine under a name (a bundled one or a path).
EngineEntry entry_of(const std::string& name, const EngineSpec& spec, bool own);

/// All bundled engines, read once, by number of cylinders and then by layout.
const std::vector<EngineEntry>& bundled_entries();

/// Those in which every word of the query occurs somewhere, capitals or not. All for an empty query.
std::vector<const EngineEntry*> matching(const std::vector<EngineEntry>& entries, std::string_view query);

}  // namespace shutlane
