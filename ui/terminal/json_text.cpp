#include "ui/terminal/json_text.hpp"

#include <fmt/format.h>

namespace shutlane::terminal {
namespace {

void write(const Json& tree, std::string& out, int depth) {
  if (tree.is_object()) {
    out += '{';
    bool first = true;
    for (const auto& [key, value] : tree.items()) {
      if (!first) out += ", ";
      first = false;
      out += Json(key).dump() + ": ";
      write(value, out, depth);
    }
    out += '}';
  } else if (tree.is_array()) {
    const bool tall = depth == 0 && !tree.empty() && tree.front().is_object();
    out += '[';
    bool first = true;
    for (const Json& item : tree) {
      if (!first) out += tall ? "," : ", ";
      first = false;
      if (tall) out += "\n  ";
      write(item, out, depth + 1);
    }
    out += ']';
  } else if (tree.is_number_float()) {
    fmt::format_to(std::back_inserter(out), "{}", tree.get<double>() + 0.0);  // + 0.0: never -0
  } else {
    // A word of the command line need not be UTF-8; JSON must be.
    out += tree.dump(-1, ' ', false, Json::error_handler_t::replace);
  }
}

}  // namespace

std::string json_text(const Json& tree) {
  std::string out;
  write(tree, out, 0);
  out += '\n';
  return out;
}

}  // namespace shutlane::terminal
