#pragma once
#include <stdexcept>

#include "engines/catalog.hpp"

namespace shutlane {

inline Engine bundled(const std::string& name) {
  std::variant<Engine, std::string> found = find_engine(name);
  if (auto* engine = std::get_if<Engine>(&found)) return std::move(*engine);
  throw std::runtime_error(std::get<std::string>(found));
}

}  // namespace shutlane
