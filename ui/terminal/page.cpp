#include "ui/terminal/page.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cctype>
#include <cstdlib>

namespace shutlane::terminal {
namespace {

bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xc0) == 0x80; }

/// The locale's name from the environment, as setlocale would pick it; asking the environment leaves the
/// program's own locale (and with it the decimal point) alone.
std::string locale_name() {
  for (const char* variable : {"LC_ALL", "LC_CTYPE", "LANG"}) {
    const char* value = std::getenv(variable);
    if (value != nullptr && *value != '\0') return value;
  }
  return "";
}

std::string padded(const std::string& text, size_t to, Side side) {
  const std::string space(to - std::min(to, width(text)), ' ');
  return side == Side::left ? text + space : space + text;
}

}  // namespace

Style style_of_environment(int out_descriptor) {
  std::string name = locale_name();
  std::transform(name.begin(), name.end(), name.begin(),
                 [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  const char* no_color = std::getenv("NO_COLOR");
  const char* term = std::getenv("TERM");
  const bool dumb = term == nullptr || std::string_view(term) == "dumb";
  return {.unicode = name.find("utf-8") != std::string::npos || name.find("utf8") != std::string::npos,
          .colour = isatty(out_descriptor) == 1 && (no_color == nullptr || *no_color == '\0') && !dumb};
}

size_t width(std::string_view utf8) {
  return static_cast<size_t>(
      std::count_if(utf8.begin(), utf8.end(), [](char c) { return !continues_character(c); }));
}

std::string cut(std::string_view utf8, size_t characters) {
  if (width(utf8) <= characters) return std::string(utf8);
  const size_t kept = characters > 3 ? characters - 3 : 0;
  size_t end = 0;
  for (size_t seen = 0; end < utf8.size(); ++end) {
    if (!continues_character(utf8[end]) && seen++ == kept) break;
  }
  return std::string(utf8.substr(0, end)) + "...";
}

std::string paragraph(std::string_view first, std::string_view text) {
  const std::string indent(width(first), ' ');
  std::string out, line(first);
  bool empty = true;  // no word on this line yet
  for (size_t start = 0; start < text.size();) {
    const size_t end = std::min(text.find(' ', start), text.size());
    const std::string_view word = text.substr(start, end - start);
    start = end + 1;
    if (word.empty()) continue;
    if (!empty && width(line) + 1 + width(word) > kColumns) {
      out += line + "\n";
      line = indent;
      empty = true;
    }
    if (!empty) line += ' ';
    line += word;
    empty = false;
  }
  return out + line + "\n";
}

std::string table(const std::vector<Column>& columns, const std::vector<std::vector<std::string>>& rows) {
  std::vector<size_t> widths;
  for (size_t i = 0; i < columns.size(); ++i) {
    size_t widest = width(columns[i].title);
    for (const auto& row : rows) widest = std::max(widest, width(row[i]));
    widths.push_back(widest);
  }
  std::string out;
  const auto add = [&](const auto& cell) {
    std::string line;
    for (size_t i = 0; i < columns.size(); ++i)
      line += (i == 0 ? "" : "  ") + padded(cell(i), widths[i], columns[i].side);
    line.erase(line.find_last_not_of(' ') + 1);
    out += line + "\n";
  };
  add([&](size_t i) { return columns[i].title; });
  for (const auto& row : rows) add([&](size_t i) { return row[i]; });
  return out;
}

std::string paint(const Style& style, std::string_view sgr, std::string_view text) {
  if (!style.colour || text.empty()) return std::string(text);
  return fmt::format("\033[{}m{}\033[0m", sgr, text);
}

}  // namespace shutlane::terminal
