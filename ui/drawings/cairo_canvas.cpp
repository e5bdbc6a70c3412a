#include "ui/drawings/cairo_canvas.hpp"

#include <cairo-ft.h>
#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <cairo.h>

#include <algorithm>
#include <array>
#include <map>
#include <memory>
#include <numbers>

#include "assets/fonts.hpp"
#include "ui/drawings/text.hpp"

namespace shutlane {

namespace {

constexpr double kPointsPerMm = 72.0 / 25.4;

struct Font {
  cairo_font_face_t* face = nullptr;
  double em_per_line = 1;  // the font's em for a line of text of height 1
};

// Cairo keeps faces in caches of its own beyond the life of any surface, so the fonts stay for the life of
// the program.
const Font& font(Weight weight) {
  static const std::array<Font, 2> fonts = [] {
    std::array<Font, 2> made;
    FT_Library library = nullptr;
    if (FT_Init_FreeType(&library) != 0) return made;
    const std::array files{font_regular(), font_bold()};
    for (size_t i = 0; i < made.size(); ++i) {
      FT_Face face = nullptr;
      if (FT_New_Memory_Face(library, files[i].data(), static_cast<FT_Long>(files[i].size()), 0, &face) != 0)
        continue;
      made[i].face = cairo_ft_font_face_create_for_ft_face(face, FT_LOAD_NO_HINTING);
      made[i].em_per_line = face->units_per_EM / static_cast<double>(face->ascender - face->descender);
    }
    return made;
  }();
  return fonts[weight == Weight::bold ? 1 : 0];
}

class CairoCanvas : public Canvas {
 public:
  explicit CairoCanvas(cairo_t* cairo) : cairo_(cairo) {
    cairo_set_line_join(cairo_, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_cap(cairo_, CAIRO_LINE_CAP_BUTT);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    cairo_set_font_options(cairo_, options);
    cairo_font_options_destroy(options);
  }

  void fill(std::span<const Point> polygon, Colour colour) override {
    path(polygon, true);
    source(colour);
    cairo_fill(cairo_);
  }
  void fill_box(Box box, Colour colour, double corner) override {
    box_path(box, corner);
    source(colour);
    cairo_fill(cairo_);
  }
  void line(std::span<const Point> points, Stroke stroke, bool closed) override {
    path(points, closed);
    pen(stroke);
  }
  void stroke_box(Box box, Stroke stroke, double corner) override {
    box_path(box, corner);
    pen(stroke);
  }
  void fill_circle(Point centre, double radius, Colour colour) override {
    circle_path(centre, radius);
    source(colour);
    cairo_fill(cairo_);
  }
  void stroke_circle(Point centre, double radius, Stroke stroke) override {
    circle_path(centre, radius);
    pen(stroke);
  }
  void text(Point at, std::string_view utf8, double size, Colour colour, Align align,
            Weight weight) override {
    const std::string clean = plain_text(utf8);
    set_font(size, weight);
    cairo_text_extents_t extents;
    cairo_text_extents(cairo_, clean.c_str(), &extents);
    const double back = align == Align::left ? 0 : align == Align::right ? 1 : 0.5;
    cairo_move_to(cairo_, at.x - back * extents.x_advance, at.y);
    source(colour);
    cairo_show_text(cairo_, clean.c_str());
    cairo_new_path(cairo_);
  }
  double text_width(std::string_view utf8, double size, Weight weight) override {
    set_font(size, weight);
    cairo_text_extents_t extents;
    cairo_text_extents(cairo_, plain_text(utf8).c_str(), &extents);
    return extents.x_advance;
  }
  void push_clip(Box box) override {
    cairo_save(cairo_);
    cairo_rectangle(cairo_, box.x, box.y, box.w, box.h);
    cairo_clip(cairo_);
  }
  void pop_clip() override { cairo_restore(cairo_); }

 private:
  void source(Colour c) { cairo_set_source_rgba(cairo_, c.r / 255.0, c.g / 255.0, c.b / 255.0, c.a / 255.0); }
  void pen(const Stroke& stroke) {
    source(stroke.colour);
    cairo_set_line_width(cairo_, stroke.width);
    const double dash = stroke.dash;
    cairo_set_dash(cairo_, &dash, dash > 0 ? 1 : 0, 0);
    cairo_stroke(cairo_);
  }
  void path(std::span<const Point> points, bool closed) {
    cairo_new_path(cairo_);
    for (const Point& p : points) cairo_line_to(cairo_, p.x, p.y);
    if (closed) cairo_close_path(cairo_);
  }
  void circle_path(Point centre, double radius) {
    cairo_new_path(cairo_);
    cairo_arc(cairo_, centre.x, centre.y, radius, 0, 2 * std::numbers::pi);
    cairo_close_path(cairo_);
  }
  void box_path(Box box, double corner) {
    const double r = std::min({corner, box.w / 2, box.h / 2});
    cairo_new_path(cairo_);
    if (r <= 0) {
      cairo_rectangle(cairo_, box.x, box.y, box.w, box.h);
      return;
    }
    constexpr double quarter = std::numbers::pi / 2;
    cairo_arc(cairo_, box.right() - r, box.y + r, r, -quarter, 0);
    cairo_arc(cairo_, box.right() - r, box.bottom() - r, r, 0, quarter);
    cairo_arc(cairo_, box.x + r, box.bottom() - r, r, quarter, 2 * quarter);
    cairo_arc(cairo_, box.x + r, box.y + r, r, 2 * quarter, 3 * quarter);
    cairo_close_path(cairo_);
  }
  void set_font(double size, Weight weight) {
    const Font& f = font(weight);
    cairo_set_font_face(cairo_, f.face);
    cairo_set_font_size(cairo_, size * f.em_per_line);
  }

  cairo_t* cairo_;
};

cairo_status_t append(void* closure, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

struct SurfaceEnd {
  void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
};
struct ContextEnd {
  void operator()(cairo_t* c) const { cairo_destroy(c); }
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceEnd>;
using Context = std::unique_ptr<cairo_t, ContextEnd>;

Surface make_surface(PageFormat format, const Sheet& sheet, std::string& bytes) {
  switch (format) {
    case PageFormat::pdf: {
      Surface s(cairo_pdf_surface_create_for_stream(append, &bytes, sheet.width_mm * kPointsPerMm,
                                                    sheet.height_mm * kPointsPerMm));
      cairo_pdf_surface_set_metadata(s.get(), CAIRO_PDF_METADATA_TITLE, plain_text(sheet.title).c_str());
      // Cairo would write the time of day; any fixed date keeps the bytes the same.
      cairo_pdf_surface_set_metadata(s.get(), CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
      return s;
    }
    case PageFormat::svg: {
      Surface s(cairo_svg_surface_create_for_stream(append, &bytes, sheet.width_mm, sheet.height_mm));
      cairo_svg_surface_set_document_unit(s.get(), CAIRO_SVG_UNIT_MM);
      return s;
    }
    case PageFormat::png:
      break;
  }
  return Surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                            static_cast<int>(sheet.width_mm * sheet.pixels_per_mm),
                                            static_cast<int>(sheet.height_mm * sheet.pixels_per_mm)));
}

double units_per_mm(PageFormat format, const Sheet& sheet) {
  switch (format) {
    case PageFormat::pdf:
      return kPointsPerMm;
    case PageFormat::svg:
      return 1;
    case PageFormat::png:
      break;
  }
  return sheet.pixels_per_mm;
}

// Cairo numbers its surfaces over the life of the program and writes the number into the SVG. Numbered anew
// in the order of appearance, a page is the same however many were drawn before it.
void renumber_surfaces(std::string& svg) {
  constexpr std::string_view word = "surface";
  std::map<std::string, size_t> numbers;
  std::string out;
  out.reserve(svg.size());
  for (size_t at = 0; at < svg.size();) {
    const size_t found = svg.find(word, at);
    if (found == std::string::npos) {
      out.append(svg, at);
      break;
    }
    size_t end = found + word.size();
    while (end < svg.size() && svg[end] >= '0' && svg[end] <= '9') ++end;
    out.append(svg, at, found + word.size() - at);
    const std::string number = svg.substr(found + word.size(), end - found - word.size());
    if (!number.empty()) out += std::to_string(numbers.emplace(number, numbers.size()).first->second);
    at = end;
  }
  svg = std::move(out);
}

// Cairo's SVG draws text as outlines; a title keeps the page findable and lets a screen reader name it.
void add_svg_title(std::string& svg, const std::string& title) {
  const size_t root = svg.find("<svg");
  const size_t end = root == std::string::npos ? root : svg.find('>', root);
  if (end == std::string::npos) return;
  std::string escaped;
  for (const char c : title) {
    if (c == '&')
      escaped += "&amp;";
    else if (c == '<')
      escaped += "&lt;";
    else if (c == '>')
      escaped += "&gt;";
    else
      escaped += c;
  }
  svg.insert(end + 1, "\n<title>" + escaped + "</title>");
}

}  // namespace

std::optional<PageFormat> page_format_of(std::string_view path) {
  const size_t dot = path.rfind('.');
  if (dot == std::string_view::npos) return std::nullopt;
  std::string ending(path.substr(dot + 1));
  for (char& c : ending)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  if (ending == "pdf") return PageFormat::pdf;
  if (ending == "svg") return PageFormat::svg;
  if (ending == "png") return PageFormat::png;
  return std::nullopt;
}

RenderedSheet render_sheet(PageFormat format, const Sheet& sheet, const std::function<void(Canvas&)>& draw) {
  RenderedSheet out;
  if (!font(Weight::regular).face || !font(Weight::bold).face) {
    out.error = "the embedded fonts cannot be loaded";
    return out;
  }
  const Surface surface = make_surface(format, sheet, out.bytes);
  cairo_status_t status = CAIRO_STATUS_SUCCESS;
  {
    const Context context(cairo_create(surface.get()));
    const double scale = units_per_mm(format, sheet);
    cairo_scale(context.get(), scale, scale);
    CairoCanvas canvas(context.get());
    canvas.fill_box({0, 0, sheet.width_mm, sheet.height_mm}, sheet.paper, 0);
    draw(canvas);
    cairo_show_page(context.get());
    status = cairo_status(context.get());
  }
  if (status == CAIRO_STATUS_SUCCESS && format == PageFormat::png)
    status = cairo_surface_write_to_png_stream(surface.get(), append, &out.bytes);
  cairo_surface_finish(surface.get());
  if (status == CAIRO_STATUS_SUCCESS) status = cairo_surface_status(surface.get());
  if (status != CAIRO_STATUS_SUCCESS) {
    out.bytes.clear();
    out.error = cairo_status_to_string(status);
  } else if (format == PageFormat::svg) {
    renumber_surfaces(out.bytes);
    add_svg_title(out.bytes, plain_text(sheet.title));
  }
  return out;
}

double paper_text_width(std::string_view utf8, double size, Weight weight) {
  const Surface surface(cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, nullptr));
  const Context context(cairo_create(surface.get()));
  // Measured large and scaled down, since a tiny font would be rounded.
  constexpr double scale = 100;
  CairoCanvas canvas(context.get());
  return canvas.text_width(utf8, size * scale, weight) / scale;
}

}  // namespace shutlane
