#include "engines/words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "engines/guard.hpp"
#include "sim/mechanism/text.hpp"

namespace shutlane {
namespace {

bool continues(char c) { return (static_cast<unsigned char>(c) & 0xC0) == 0x80; }

/// Of one well-formed character.
char32_t code_of(std::string_view character) {
  const auto byte = [&](size_t i) { return static_cast<char32_t>(static_cast<unsigned char>(character[i])); };
  if (character.size() == 1) return byte(0);
  char32_t code = byte(0) & (0x7Fu >> character.size());
  for (size_t i = 1; i < character.size(); ++i) code = code << 6 | (byte(i) & 0x3F);
  return code;
}

bool may_be_shown(std::string_view character) {
  return first_not_utf8(character) == std::string_view::npos && !commands_a_screen(code_of(character)) &&
         !is_noncharacter(code_of(character));
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
  if (may_be_shown(character)) return std::string(character);
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

std::string made_harmless(std::string_view text) {
  std::string safe;
  for (size_t i = 0; i < text.size();) {
    const std::string_view character = character_at(text, i);
    const bool whole = first_not_utf8(character) == std::string_view::npos;
    safe += may_be_shown(character) ? std::string(character) : "?";
    i += whole ? character.size() : 1;  // after a byte too many the next one may begin a character
  }
  return safe;
}

size_t characters_in(std::string_view utf8) {
  return static_cast<size_t>(std::count_if(utf8.begin(), utf8.end(), [](char c) { return !continues(c); }));
}

bool has_control(std::string_view utf8) {
  for (size_t i = 0; i < utf8.size();) {
    const std::string_view character = character_at(utf8, i);
    const char32_t code = code_of(character);
    if (is_control(code) || is_noncharacter(code)) return true;
    i += character.size();
  }
  return false;
}

}  // namespace shutlane
