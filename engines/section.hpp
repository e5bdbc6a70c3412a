#pragma once
// One table of an engine file while it is read: typed values by key, each wrong one noted and left alone.
#include <toml++/toml.h>

#include <string>
#include <string_view>
#include <vector>

#include "engines/findings.hpp"
#include "engines/keys.hpp"

namespace shutlane {

inline constexpr size_t kSourceLength = 1000;  ///< characters of source
inline constexpr size_t kTextLength = 200;     ///< characters of any other text
inline constexpr size_t kNameLength = 60;      ///< characters of a bank's name
inline constexpr size_t kListLength = 10000;   ///< entries of any list
inline constexpr size_t kTableCount =
    99;  ///< [[valves]] or [[layout.bank]] entries: there are 99 cylinders at most

/// Every `read` gives true and sets the value when the key holds a right one. Otherwise the mistake is noted
/// (an absent optional key is none) and the value keeps what it held.
class Section {
 public:
  /// `name` is the table's name in keys.hpp, `path` its place in the file: "layout.bank" and
  /// "layout.bank[1]".
  Section(const toml::table& table, std::string path, std::string_view name, Findings& findings);

  bool has(std::string_view key) const { return table_.contains(key); }
  bool read(std::string_view key, double& value);
  bool read(std::string_view key, int& value);
  bool read(std::string_view key, std::string& value, size_t most_characters);
  bool read(std::string_view key, std::vector<double>& values);
  bool read(std::string_view key, std::vector<int>& values);
  bool read(std::string_view key, std::vector<std::string>& values);
  bool read_rows(std::string_view key, std::vector<LiftRow>& rows);
  const toml::table* table(std::string_view key);
  std::vector<const toml::table*> tables(std::string_view key);

  /// The node of a key that stands there; an absent required key is noted. Remembers its line.
  const toml::node* find(std::string_view key);
  bool number(const toml::node& node, const std::string& path, const KeyInfo& info, double& value);
  /// Notes every key that keys.hpp does not know in this table.
  void note_unknown_keys() const;

  std::string path_of(std::string_view key) const;
  void flaw(std::string_view key, std::string wrong);  ///< expected as keys.hpp says
  void flaw(std::string_view key, std::string wrong, std::string expected);
  const toml::table& raw() const { return table_; }
  int line() const { return line_; }
  Findings& findings() { return findings_; }

 private:
  const toml::array* list(std::string_view key);
  const KeyInfo& info(std::string_view key) const;
  void old_key(std::string_view old, int line, std::string_view now) const;
  void wrong_type(const toml::node& node, const std::string& path, const KeyInfo& info);
  bool text(const toml::node& node, const std::string& path, const KeyInfo& info, std::string& value,
            size_t most);
  bool integer(const toml::node& node, const std::string& path, const KeyInfo& info, int& value);
  template <typename Value, typename ReadOne>
  bool read_list(std::string_view key, std::vector<Value>& values, ReadOne read_one);

  const toml::table& table_;
  std::string path_;
  std::string_view name_;
  Findings& findings_;
  int line_;
};

/// "the text "abc"", "84", "a list of 3 values", "a table" ...; texts cut to kValueShown.
std::string shown_value(const toml::node& node);
int line_of(const toml::node& node);

/// A key of [layout.crank_pins_deg], 1 to 99 written as a person would; 0 when it is something else.
int cylinder_of(std::string_view key);

}  // namespace shutlane
