#include "engines/section.hpp"

#include <fmt/format.h>

#include <cmath>

#include "engines/words.hpp"

namespace shutlane {
namespace {

/// What belongs at a path: the key's value, or one entry of its list.
std::string expected_at(const std::string& path, const KeyInfo& info) {
  return expected_of(info, path.ends_with(']'));
}

}  // namespace

int line_of(const toml::node& node) { return std::max(1, static_cast<int>(node.source().begin.line)); }

Section::Section(const toml::table& table, std::string path, std::string_view name, Findings& findings)
    : table_(table),
      path_(std::move(path)),
      name_(name),
      findings_(findings),
      line_(shutlane::line_of(table)) {
  if (!path_.empty()) findings_.stands(path_, line_);
}

std::string Section::path_of(std::string_view key) const {
  return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
}

const KeyInfo& Section::info(std::string_view key) const {
  const KeyInfo* info = find_key(name_, key);
  return info ? *info : *find_key(name_, kCylinderKey);  // a crank pin's key is a cylinder's number
}

void Section::flaw(std::string_view key, std::string wrong) {
  flaw(key, std::move(wrong), expected_of(info(key)));
}

void Section::flaw(std::string_view key, std::string wrong, std::string expected) {
  const toml::node* node = table_.get(key);
  findings_.flaw(path_of(key), node ? shutlane::line_of(*node) : line_, std::move(wrong),
                 std::move(expected));
}

const toml::node* Section::find(std::string_view key) {
  const toml::node* node = table_.get(key);
  if (node)
    findings_.stands(path_of(key), shutlane::line_of(*node));
  else if (info(key).required())
    flaw(key, "is missing");
  return node;
}

void Section::wrong_type(const toml::node& node, const std::string& path, const KeyInfo& info) {
  findings_.flaw(path, shutlane::line_of(node), "is " + shown_value(node), expected_at(path, info));
}

bool Section::number(const toml::node& node, const std::string& path, const KeyInfo& info, double& value) {
  double found = 0;
  if (const auto* whole = node.as_integer()) {
    found = static_cast<double>(whole->get());  // where this rounds, it is far out of every range
  } else if (const auto* real = node.as_floating_point()) {
    found = real->get();
  } else {
    wrong_type(node, path, info);
    return false;
  }
  if (!std::isfinite(found) || (info.range && !info.range->holds(found))) {
    findings_.flaw(
        path, shutlane::line_of(node),
        shown_value(node) + (std::isfinite(found) ? " is out of range" : " is not a finite number"),
        expected_at(path, info));
    return false;
  }
  value = found;
  return true;
}

bool Section::integer(const toml::node& node, const std::string& path, const KeyInfo& info, int& value) {
  if (!node.is_integer()) {
    wrong_type(node, path, info);
    return false;
  }
  double checked = 0;
  if (!number(node, path, info, checked)) return false;
  value = static_cast<int>(checked);  // every whole number here has a range well inside int
  return true;
}

bool Section::text(const toml::node& node, const std::string& path, const KeyInfo& info, std::string& value,
                   size_t most) {
  if (!node.is_string()) {
    wrong_type(node, path, info);
    return false;
  }
  const std::string& found = node.as_string()->get();
  const std::string wrong = found.empty()                 ? "is empty"
                            : characters_in(found) > most ? fmt::format("is longer than {} characters", most)
                            : has_control(found)          ? "holds a line end or another control character"
                                                          : "";
  if (!wrong.empty()) {
    findings_.flaw(path, shutlane::line_of(node), wrong, expected_at(path, info));
    return false;
  }
  value = found;
  return true;
}

bool Section::read(std::string_view key, double& value) {
  const toml::node* node = find(key);
  return node && number(*node, path_of(key), info(key), value);
}

bool Section::read(std::string_view key, int& value) {
  const toml::node* node = find(key);
  return node && integer(*node, path_of(key), info(key), value);
}

bool Section::read(std::string_view key, std::string& value, size_t most_characters) {
  const toml::node* node = find(key);
  return node && text(*node, path_of(key), info(key), value, most_characters);
}

const toml::array* Section::list(std::string_view key) {
  const toml::node* node = find(key);
  if (!node) return nullptr;
  const toml::array* list = node->as_array();
  if (!list)
    wrong_type(*node, path_of(key), info(key));
  else if (list->empty())
    flaw(key, "is an empty list");
  else if (const size_t most = info(key).holds == Holds::tables ? kTableCount : kListLength;
           list->size() > most)
    flaw(key, fmt::format("holds {} entries", list->size()), fmt::format("at most {}", most));
  else
    return list;
  return nullptr;
}

template <typename Value, typename ReadOne>
bool Section::read_list(std::string_view key, std::vector<Value>& values, ReadOne read_one) {
  const toml::array* nodes = list(key);
  if (!nodes) return false;
  std::vector<Value> found(nodes->size());
  bool good = true;
  for (size_t i = 0; i < found.size(); ++i) {
    const std::string path = fmt::format("{}[{}]", path_of(key), i);
    findings_.stands(path, shutlane::line_of((*nodes)[i]));
    if (!read_one((*nodes)[i], path, found[i])) good = false;
  }
  if (good) values = std::move(found);
  return good;
}

bool Section::read(std::string_view key, std::vector<double>& values) {
  return read_list(key, values, [&](const toml::node& node, const std::string& path, double& value) {
    return number(node, path, info(key), value);
  });
}

bool Section::read(std::string_view key, std::vector<int>& values) {
  return read_list(key, values, [&](const toml::node& node, const std::string& path, int& value) {
    return integer(node, path, info(key), value);
  });
}

bool Section::read(std::string_view key, std::vector<std::string>& values) {
  return read_list(key, values, [&](const toml::node& node, const std::string& path, std::string& value) {
    return text(node, path, info(key), value, kNameLength);
  });
}

bool Section::read_rows(std::string_view key, std::vector<LiftRow>& rows) {
  return read_list(key, rows, [&](const toml::node& node, const std::string& path, LiftRow& row) {
    const toml::array* pair = node.as_array();
    if (!pair || pair->size() != 2) {
      wrong_type(node, path, info(key));
      return false;
    }
    // Both are read, so that a row with two wrong numbers gets two lines.
    const bool angle = number((*pair)[0], path + "[0]", info(key), row.from_peak_deg);
    const bool lift = number((*pair)[1], path + "[1]", info(key), row.lift_mm);
    return angle && lift;
  });
}

const toml::table* Section::table(std::string_view key) {
  const toml::node* node = find(key);
  if (!node) return nullptr;
  if (!node->is_table()) wrong_type(*node, path_of(key), info(key));
  return node->as_table();
}

std::vector<const toml::table*> Section::tables(std::string_view key) {
  std::vector<const toml::table*> found;
  const toml::array* nodes = list(key);
  for (size_t i = 0; nodes && i < nodes->size(); ++i) {
    const std::string path = fmt::format("{}[{}]", path_of(key), i);
    findings_.stands(path, shutlane::line_of((*nodes)[i]));
    if (!(*nodes)[i].is_table()) wrong_type((*nodes)[i], path, info(key));
    found.push_back((*nodes)[i].as_table());
  }
  return found;
}

}  // namespace shutlane
