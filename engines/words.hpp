#pragma once
// How file content is repeated in messages: on one line, without control characters, cut to length.
#include <cstddef>
#include <string>
#include <string_view>

namespace shutlane {

/// Control characters as \n, \t, \x1B ...; what is longer than `most` characters ends in "...". Cuts between
/// UTF-8 characters; bytes that are not UTF-8 are escaped.
std::string one_line(std::string_view text, size_t most);

/// Number of UTF-8 characters.
size_t characters_in(std::string_view utf8);

/// Whether the text holds a control character (line ends included).
bool has_control(std::string_view utf8);

}  // namespace shutlane
