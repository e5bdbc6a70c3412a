#pragma once
// The bundled engines, as their own files tell them.
#include <gtest/gtest.h>

#include "engines/catalog.hpp"

namespace shutlane::test {

inline Engine bundled(std::string_view name) {
  auto found = find_engine(std::string(name));
  if (const auto* why = std::get_if<std::string>(&found)) {
    ADD_FAILURE() << *why;
    return {};
  }
  return std::get<Engine>(found);
}

inline std::vector<std::string> bundled_names() {
  std::vector<std::string> names;
  for (const BundledFile& file : bundled_files()) names.emplace_back(file.name);
  return names;
}

}  // namespace shutlane::test
