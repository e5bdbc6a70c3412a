#pragma once
// What the reader has found so far: where each key stands, what is wrong, and which keys gave no usable
// value.
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "engines/reader.hpp"

namespace shutlane {

class Findings {
 public:
  /// Remembers the line of a key path such as "valves[1].at_lift_mm".
  void stands(const std::string& path, int line) { lines_.emplace(path, line); }
  /// The line of the path, or of the nearest part of it that the file has; 1 when it has none.
  int line_of(std::string_view path) const;

  /// A mistake that leaves the key without a usable value.
  void flaw(const std::string& path, int line, std::string wrong, std::string expected);
  /// A mistake beside the values, such as an unknown key.
  void remark(const std::string& path, int line, std::string wrong, std::string expected);

  /// The key gave no usable value, and another key's line says so.
  void unusable(const std::string& path) { flawed_.insert(path); }

  bool flawed(std::string_view path) const { return flawed_.contains(path); }
  /// Whether the path, anything in it, or anything that it is part of gave no usable value.
  bool touched(std::string_view path) const;
  bool touched_any(std::initializer_list<std::string_view> paths) const;

  /// In the order of their lines.
  std::vector<FileMistake> take();
  bool empty() const { return mistakes_.empty(); }

 private:
  std::map<std::string, int, std::less<>> lines_;
  std::set<std::string, std::less<>> flawed_;
  std::vector<FileMistake> mistakes_;
};

}  // namespace shutlane
