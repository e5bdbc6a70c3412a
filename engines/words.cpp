#include "engines/words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "engines/guard.hpp"

namespace shutlane {
namespace {

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; }

// C0 controls and DEL, and the C1 controls 0x80 to 0x9F in their two-byte form: terminals obey both.
bool is_control(std::string_view character) {
  const auto first = static_cast<unsigned char>(character[0]);
  if (first < 0x20 || first == 0x7F) return true;
  return character.size() == 2 && first == 0xC2 && static_cast<unsigned char>(character[1]) < 0xA0;
}

std::string_view character_at(std::string_view text, size_t i) {
  size_t end = i + 1;
  while (end < text.size() && continues(text[end]) && end - i < 4) ++end;
  return text.substr(i, end - i);
}

std::string shown(std::string_view character) {
  if (character == "\n") return "\\n";
  if (character == "\r") return "\\r";
  if (character == "\t") return "\\t";
  if (!is_control(character) && first_not_utf8(character) == std::string_view::npos)
    return std::string(character);
  std::string text;
  for (const char c : character) text += fmt::format("\\x{:02X}", static_cast<unsigned char>(c));
  return text;
}

}  // namespace

std::string one_line(std::string_view text, size_t most) {
  std::string line;
  size_t count = 0;
  for (size_t i = 0; i < text.size();) {
    if (count++ == most) return line + "...";
    const std::string_view character = character_at(text, i);
    line += shown(character);
    i += character.size();
  }
  return line;
}

size_t characters_in(std::string_view utf8) {
  return static_cast<size_t>(std::count_if(utf8.begin(), utf8.end(), [](char c) { return !continues(c); }));
}

bool has_control(std::string_view utf8) {
  for (size_t i = 0; i < utf8.size();) {
    const std::string_view character = character_at(utf8, i);
    if (is_control(character)) return true;
    i += character.size();
  }
  return false;
}

}  // namespace shutlane
