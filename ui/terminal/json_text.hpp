#pragma once
// A JSON tree as text, numbers in the shortest form that reads back as the same double (588, not 588.0).
#include <nlohmann/json.hpp>
#include <string>

namespace shutlane::terminal {

using Json = nlohmann::ordered_json;

/// One document with a newline at its end; lists of objects stand one object a line.
std::string json_text(const Json& tree);

}  // namespace shutlane::terminal
