#pragma once
// The embedded fonts, as the bytes of their files: OpenType (CFF outlines) for Inter, TrueType for DejaVu
// Sans Mono. They stay valid for the life of the program; whoever loads them must not free them.
#include <span>

namespace shutlane {

std::span<const unsigned char> font_regular();  ///< Inter Regular: text
std::span<const unsigned char> font_bold();     ///< Inter Bold: headings, numbers, state words
std::span<const unsigned char> font_mono();     ///< DejaVu Sans Mono: digits in columns

}  // namespace shutlane
