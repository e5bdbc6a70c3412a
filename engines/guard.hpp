#pragma once
// What no engine file may hold before its TOML is even looked at. It keeps the parser, which works by
// recursion, on inputs that it can stand, and gives plain words to what it would call an unexpected
// character.
#include <cstddef>
#include <optional>
#include <string_view>

#include "engines/reader.hpp"

namespace shutlane {

inline constexpr size_t kFileBytes =
    1 << 20;                            ///< longest engine file; a lift table of 0.1 degree rows takes 60 kB
inline constexpr size_t kKeyParts = 8;  ///< parts of a dotted key; the format itself uses at most three

/// The one thing that makes the text no engine file at all: empty, too long, NUL bytes, not UTF-8, keys
/// without end.
std::optional<FileMistake> unfit(std::string_view text);

/// Offset of the first byte that is not part of a well-formed UTF-8 sequence (Unicode 15, table 3-7); npos
/// when none.
size_t first_not_utf8(std::string_view text);

}  // namespace shutlane
