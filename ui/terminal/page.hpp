#pragma once
// Plain text for a terminal: what it can show, wrapped paragraphs, aligned tables.
#include <string>
#include <string_view>
#include <vector>

namespace shutlane::terminal {

inline constexpr size_t kColumns = 80;  ///< no line of ours is longer

/// What the terminal can show. The default is the plainest.
struct Style {
  bool unicode = false;  ///< the locale is UTF-8
  bool colour = false;   ///< a terminal, and NO_COLOR is not set
};
Style style_of_environment(int out_descriptor);

/// Characters (code points) of a UTF-8 text.
size_t width(std::string_view utf8);
/// The text cut to so many characters, "..." at its end when something was cut.
std::string cut(std::string_view utf8, size_t characters);

/// Broken at spaces to kColumns; the first line begins with `first`, the others with as many spaces.
std::string paragraph(std::string_view first, std::string_view text);

enum class Side { left, right };
struct Column {
  std::string title;
  Side side = Side::right;
};
/// Two spaces between columns; no space at the end of a line.
std::string table(const std::vector<Column>& columns, const std::vector<std::vector<std::string>>& rows);

/// `text` set in an SGR code ("1" bold, "2" faint) when the style has colour.
std::string paint(const Style& style, std::string_view sgr, std::string_view text);

}  // namespace shutlane::terminal
