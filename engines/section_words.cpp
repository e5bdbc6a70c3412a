// What a section says about values and keys that it cannot use.
#include <fmt/format.h>

#include <cmath>

#include "engines/section.hpp"
#include "engines/spelling.hpp"
#include "engines/words.hpp"

namespace shutlane {
namespace {

std::string header_of(std::string_view table) {
  if (table.empty()) return "the top of the file";
  const bool many = table == "valves" || table == "layout.bank";
  return fmt::format("{}{}{}", many ? "[[" : "[", table, many ? "]]" : "]");
}

constexpr std::string_view kCrankPins = "layout.crank_pins_deg";  // the one table whose keys are numbers

/// The table in which a key would be right, or nullptr.
const KeyInfo* elsewhere(std::string_view key) {
  for (const KeyInfo& info : known_keys())
    if (info.key == key) return &info;
  return nullptr;
}

std::string shown_key(std::string_view key) {
  const bool bare = !key.empty() && key.find_first_not_of(
                                        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
                                        "0123456789_-") == std::string_view::npos;
  const std::string text = one_line(key, kValueShown);
  return bare ? text : '"' + text + '"';
}

}  // namespace

int cylinder_of(std::string_view key) {
  if (key.empty() || key.size() > 2 || key[0] == '0') return 0;
  int number = 0;
  for (const char c : key) {
    if (c < '0' || c > '9') return 0;
    number = number * 10 + (c - '0');
  }
  return number;
}

std::string shown_value(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::string:
      return fmt::format("the text \"{}\"", one_line(node.as_string()->get(), kValueShown));
    case toml::node_type::integer:
      return fmt::format("{}", node.as_integer()->get());
    case toml::node_type::floating_point: {
      const double value = node.as_floating_point()->get();
      if (!std::isfinite(value)) return std::isnan(value) ? "nan" : value > 0 ? "inf" : "-inf";
      const std::string digits = fmt::format("{}", value);
      return digits.find_first_of(".e") == std::string::npos ? digits + ".0" : digits;
    }
    case toml::node_type::boolean:
      return node.as_boolean()->get() ? "true" : "false";
    case toml::node_type::array:
      return fmt::format("a list of {}", node.as_array()->size());
    case toml::node_type::table:
      return "a table";
    default:
      return "a date or a time";
  }
}

void Section::old_key(std::string_view old, int line, std::string_view now) const {
  const bool here = find_key(name_, now) != nullptr;
  findings_.flaw(
      path_of(old), line, "is the old name of a key",
      here ? fmt::format("{} is its name now", now)
           : fmt::format("{} is its name now, and it stands in {}", now, header_of(elsewhere(now)->table)));
  // What it says is not read, so nothing that hangs on it may be called wrong.
  if (here) findings_.unusable(path_of(now));
}

void Section::note_unknown_keys() const {
  std::vector<std::string_view> known;
  for (const KeyInfo& info : known_keys())
    if (info.table == name_) known.push_back(info.key);
  for (const auto& [key, node] : table_) {
    const std::string_view word = key.str();
    if (find_key(name_, word)) continue;
    if (name_ == kCrankPins) {
      if (cylinder_of(word) == 0)
        findings_.remark(path_of(shown_key(word)), shutlane::line_of(node), "is no cylinder's number",
                         "numbers 1 to 99");
      continue;
    }
    if (const std::string_view now = name_now(word); !now.empty()) {
      old_key(word, shutlane::line_of(node), now);
      continue;
    }
    const KeyInfo* other = elsewhere(word);
    const std::string expected =
        other ? fmt::format("{} stands in {}", shown_key(word), header_of(other->table))
              : fmt::format("the nearest known key in {} is {}", header_of(name_), closest(word, known));
    findings_.remark(path_of(shown_key(word)), shutlane::line_of(node), "is an unknown key", expected);
  }
}

}  // namespace shutlane
