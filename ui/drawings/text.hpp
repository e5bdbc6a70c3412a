#pragma once
// Text that keeps inside its place: cleaned, cut to a width, broken into lines.
#include <string>
#include <string_view>
#include <vector>

#include "ui/drawings/canvas.hpp"

namespace shutlane {

/// Valid UTF-8 on one line: control characters become spaces, broken bytes a question mark.
std::string plain_text(std::string_view utf8);

/// The text, or as much of it as fits into `width` with an ellipsis after it.
std::string fitted(Canvas& canvas, std::string_view utf8, double width, double size,
                   Weight weight = Weight::regular);

/// Broken between words into lines no wider than `width`; a single word that is wider is cut.
std::vector<std::string> wrapped(Canvas& canvas, std::string_view utf8, double width, double size,
                                 Weight weight = Weight::regular);

/// Draws wrapped lines, the first one's top at `top_left`; gives the y below the last line.
double draw_paragraph(Canvas& canvas, Point top_left, double width, std::string_view utf8, double size,
                      Colour colour, Weight weight = Weight::regular);

/// From the top of a line of text to its baseline, for a line of height 1.
inline constexpr double kAscent = 0.80;
/// Half the height of a capital above the baseline: text centred on y has its baseline at y + kHalfCapital *
/// size.
inline constexpr double kHalfCapital = 0.30;
/// From baseline to baseline of a paragraph, for a line of height 1.
inline constexpr double kLeading = 1.12;

}  // namespace shutlane
