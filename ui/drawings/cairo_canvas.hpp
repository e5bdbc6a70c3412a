#pragma once
// The paper backend of the canvas: PDF, SVG or PNG through Cairo, text through the embedded fonts alone (no
// font of the machine, no fontconfig). Millimetres. The same drawing gives the same bytes.
#include <functional>
#include <optional>
#include <string>
#include <string_view>

#include "ui/drawings/canvas.hpp"

namespace shutlane {

enum class PageFormat { pdf, svg, png };

/// By the ending of the file name, whatever its case; nullopt for any other.
std::optional<PageFormat> page_format_of(std::string_view path);

struct Sheet {
  double width_mm = 297, height_mm = 210;
  std::string title;         ///< of the PDF and the SVG
  double pixels_per_mm = 8;  ///< of the PNG
  Colour paper{255, 255, 255};
};

struct RenderedSheet {
  std::string bytes;  ///< the whole file
  std::string error;  ///< empty when all went well
};

RenderedSheet render_sheet(PageFormat format, const Sheet& sheet, const std::function<void(Canvas&)>& draw);

/// How wide text comes out on paper, without drawing any: millimetres for a size in millimetres.
double paper_text_width(std::string_view utf8, double size, Weight weight = Weight::regular);

}  // namespace shutlane
