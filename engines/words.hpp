#pragma once
// How file content is repeated in messages: on one line, without control characters, cut to length.
#include <cstddef>
#include <string>
#include <string_view>

namespace shutlane {

/// Control and bidirectional characters as \n, \t, \x1B ...; what is longer than `most` characters ends in
/// "...". Cuts between UTF-8 characters; bytes that are not UTF-8 are escaped.
std::string one_line(std::string_view text, size_t most);

/// The text with '?' for every control or bidirectional character and every byte that is no UTF-8, so that no
/// word and no file can command a terminal: always one line.
std::string made_harmless(std::string_view text);

/// Number of UTF-8 characters.
size_t characters_in(std::string_view utf8);

/// Whether the UTF-8 text holds a control character (line ends included) or a noncharacter, which no drawing
/// takes.
bool has_control(std::string_view utf8);

}  // namespace shutlane
