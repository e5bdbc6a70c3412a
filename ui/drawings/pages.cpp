#include "ui/drawings/pages.hpp"

#include "ui/drawings/cairo_canvas.hpp"
#include "ui/drawings/page_parts.hpp"
#include "ui/disk/write_file.hpp"

namespace shutlane {

std::optional<std::string> draw_page(const Engine& engine, const PageRequest& request,
                                     const std::string& path) {
  const std::optional<PageFormat> format = page_format_of(path);
  if (!format) return path + ": the ending is not known; expected .pdf, .svg or .png";
  if (request.cylinder && !engine.find(*request.cylinder))
    return "the engine has no cylinder " + std::to_string(*request.cylinder);

  if (request.kind == PageKind::bump && !request.bump) return "there is no bump to draw";
  Sheet sheet;
  if (request.kind == PageKind::dial) std::swap(sheet.width_mm, sheet.height_mm);
  sheet.title = engine.spec.name;
  sheet.paper = palette(request.theme).panel;
  const RenderedSheet page = render_sheet(*format, sheet, [&](Canvas& canvas) {
    const Box paper{0, 0, sheet.width_mm, sheet.height_mm};
    switch (request.kind) {
      case PageKind::lanes:
        draw_lanes_page(canvas, paper, engine, request);
        break;
      case PageKind::dial:
        draw_dial_page(canvas, paper, engine, request);
        break;
      case PageKind::lift:
        draw_lift_page(canvas, paper, engine, request);
        break;
      case PageKind::bump:
        draw_bump_page(canvas, paper, engine, request);
        break;
    }
  });
  if (!page.error.empty()) return path + ": cannot be drawn: " + page.error;
  return write_whole_file(path, page.bytes);
}

}  // namespace shutlane
