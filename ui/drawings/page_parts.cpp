#include "ui/drawings/page_parts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"
#include "ui/drawings/words.hpp"

namespace shutlane {

namespace {

constexpr double kTitle_mm = 8.0;

std::string joined(std::span<const int> numbers, const char* between) {
  std::string text;
  for (const int n : numbers) text += (text.empty() ? "" : between) + std::to_string(n);
  return text;
}

std::string intervals_in_words(const LayoutSpec& layout) {
  const auto n = static_cast<double>(layout.firing_order.size());
  const std::vector<double>& given = layout.firing_intervals_deg;
  if (given.empty() ||
      std::all_of(given.begin(), given.end(), [&](double d) { return std::abs(d - given[0]) < 1e-9; }))
    return n > 1 ? " every " + degrees_in_words(kCycle_deg / n) : "";
  std::string text;
  const size_t shown =
      given.size() % 2 == 0 &&
              std::equal(given.begin(), given.begin() + static_cast<std::ptrdiff_t>(given.size() / 2),
                         given.begin() + static_cast<std::ptrdiff_t>(given.size() / 2))
          ? given.size() / 2
          : given.size();
  for (size_t i = 0; i < shown; ++i) text += (i ? ", " : "") + degrees_in_words(given[i]);
  return " unevenly, after " + text + (shown < given.size() ? " and again" : "");
}

constexpr const char* kCaution =
    "Reckoned is not seen: look into the port before you blast. Keep fuel and ignition off and hands clear "
    "while the "
    "crank moves. Nut-shell dust is a severe allergen (WorkSafeBC advisory) and can burn; US rule 29 CFR "
    "1910.94(a) "
    "restricts combustible organic abrasives. Local rules and licensed practice come first.";

}  // namespace

std::string layout_in_words(const EngineSpec& spec) {
  const LayoutSpec& layout = spec.layout;
  const size_t n = layout.firing_order.size();
  std::string text = n == 1 ? "1 cylinder" : std::to_string(n) + " cylinders";
  if (n > 1) text += " · fires " + joined(layout.firing_order, "-") + intervals_in_words(layout);
  text += std::string(" · turns ") + (layout.rotation == Rotation::clockwise ? "clockwise" : "anticlockwise") +
          " seen from the pulley end";
  return text;
}

std::string banks_in_words(const EngineSpec& spec) {
  const std::vector<BankSpec>& banks = spec.layout.banks;
  std::string text;
  // A bank for each cylinder (a radial, a V twin's names aside) says nothing that the number does not.
  const bool single = banks.size() > 2 && std::all_of(banks.begin(), banks.end(), [](const BankSpec& b) {
                        return b.cylinders.size() == 1;
                      });
  if (banks.size() > 1 && !single)
    for (const BankSpec& bank : banks)
      text += (text.empty() ? "" : " · ") + bank.name + ": " + joined(bank.cylinders, ", ");
  return text;
}

Box draw_frame(Canvas& canvas, Box paper, const Engine& engine, const Palette& colours,
               const std::string& title, const std::string& settings) {
  const Box inner{paper.x + kPageMargin_mm, paper.y + kPageMargin_mm, paper.w - 2 * kPageMargin_mm,
                  paper.h - 2 * kPageMargin_mm};
  const double right_w = std::min(0.45 * inner.w, std::max(canvas.text_width(title, kBody_mm, Weight::bold),
                                                           canvas.text_width(settings, kSmall_mm)));
  const double left_w = inner.w - right_w - 8;
  double y = inner.y;
  double size = kTitle_mm;
  while (size > 5.5 && canvas.text_width(engine.spec.name, size, Weight::bold) > left_w) size -= 0.5;
  canvas.text({inner.x, y + kAscent * kTitle_mm},
              fitted(canvas, engine.spec.name, left_w, size, Weight::bold), size, colours.text, Align::left,
              Weight::bold);
  canvas.text({inner.right(), y + 0.1 * kTitle_mm + kAscent * kBody_mm},
              fitted(canvas, title, right_w, kBody_mm, Weight::bold), kBody_mm, colours.text, Align::right,
              Weight::bold);
  canvas.text({inner.right(), y + 0.1 * kTitle_mm + kLeading * kBody_mm + kAscent * kSmall_mm},
              fitted(canvas, settings, right_w, kSmall_mm), kSmall_mm, colours.dim_text, Align::right);
  y += 1.25 * kTitle_mm;
  const auto about = [&](const std::string& words, size_t most_lines) {
    std::vector<std::string> lines = wrapped(canvas, words, inner.w, kBody_mm);
    if (lines.size() > most_lines) {
      lines.resize(most_lines);
      lines.back() = fitted(canvas, lines.back() + " …", inner.w, kBody_mm);
    }
    for (const std::string& line : lines) {
      canvas.text({inner.x, y + kAscent * kBody_mm}, line, kBody_mm, colours.dim_text);
      y += kLeading * kBody_mm;
    }
  };
  about(layout_in_words(engine.spec), 2);
  about(banks_in_words(engine.spec), 1);
  const double top = y + 1.5;

  // The foot, from the bottom up: the source in a frame of its own, then the caution.
  const double foot = inner.bottom();
  const std::string mark =
      "Numbers: " + (engine.spec.source.empty() ? "source not stated" : engine.spec.source);
  const std::string shown = fitted(canvas, mark, inner.w - 60, kSmall_mm, Weight::bold);
  const double mark_w = canvas.text_width(shown, kSmall_mm, Weight::bold) + 4;
  const Box mark_box{inner.x, foot - 1.6 * kSmall_mm, mark_w, 1.6 * kSmall_mm};
  canvas.stroke_box(mark_box, {colours.text, 0.3}, 1);
  canvas.text({mark_box.x + 2, mark_box.y + mark_box.h / 2 + kHalfCapital * kSmall_mm}, shown, kSmall_mm,
              colours.text, Align::left, Weight::bold);
  canvas.text({inner.right(), mark_box.y + mark_box.h / 2 + kHalfCapital * kSmall_mm}, "Shutlane", kSmall_mm,
              colours.dim_text, Align::right, Weight::bold);
  const std::vector<std::string> caution = wrapped(canvas, kCaution, inner.w - 7, kSmall_mm);
  double cy = mark_box.y - 1.5 - kLeading * kSmall_mm * static_cast<double>(caution.size());
  const double bottom = cy - 2.2;
  const Point rule[] = {{inner.x, bottom + 0.6}, {inner.right(), bottom + 0.6}};
  canvas.line(rule, {colours.grid, 0.3});
  canvas.text({inner.x, cy + kAscent * kSmall_mm}, "⚠", 1.2 * kSmall_mm, colours.open, Align::left,
              Weight::bold);
  for (const std::string& line : caution) {
    canvas.text({inner.x + 7, cy + kAscent * kSmall_mm}, line, kSmall_mm, colours.text);
    cy += kLeading * kSmall_mm;
  }
  return {inner.x, top, inner.w, bottom - top};
}

double draw_heading(Canvas& canvas, Point top_left, const std::string& words, const Palette& colours) {
  canvas.text({top_left.x, top_left.y + kAscent * kBody_mm}, words, kBody_mm, colours.text, Align::left,
              Weight::bold);
  return top_left.y + 1.5 * kBody_mm;
}

double draw_legend(Canvas& canvas, Point top_left, double width, const std::vector<LegendEntry>& entries,
                   const Palette& colours) {
  constexpr double swatch_w = 11, swatch_h = 3.6, gap = 3;
  double y = top_left.y;
  for (const LegendEntry& e : entries) {
    e.swatch(canvas, {top_left.x, y + 0.5 * kSmall_mm * kLeading - swatch_h / 2, swatch_w, swatch_h});
    y = draw_paragraph(canvas, {top_left.x + swatch_w + gap, y}, width - swatch_w - gap, e.words, kSmall_mm,
                       colours.text) +
        1.0;
  }
  return y;
}

void draw_number(Canvas& canvas, Point centre, double radius, const std::string& number, Colour fill,
                 Colour text) {
  canvas.fill_circle(centre, radius, fill);
  const double size = 1.4 * radius;
  canvas.text({centre.x, centre.y + kHalfCapital * size}, number, size, text, Align::centre, Weight::bold);
}

LegendEntry sure_entry(const Palette& colours, const std::string& words) {
  return {[&colours](Canvas& c, Box b) { c.fill_box(b, colours.shut, 0.6); }, words};
}

LegendEntry unsure_entry(const Palette& colours, const std::string& words) {
  return {[&colours](Canvas& c, Box b) {
            c.fill_box(b, colours.shut_soft, 0.6);
            hatch_box(c, b, Hatch::falling, 1.1, {colours.shut, 0.17}, b);
            c.stroke_box(b, {colours.shut, 0.17}, 0.6);
          },
          words};
}

LegendEntry open_entry(const Palette& colours, const std::string& words) {
  return {[&colours](Canvas& c, Box b) {
            std::vector<Point> hump{{b.x, b.bottom()}};
            for (int i = 0; i <= 40; ++i) {
              const double u = i / 40.0, s = std::sin(u * 3.14159265358979);
              hump.push_back({b.x + u * b.w, b.y + 0.72 * b.h - 0.72 * b.h * s * s});
            }
            hump.push_back({b.right(), b.bottom()});
            c.fill(hump, colours.open_soft);
            hatch(c, hump, Hatch::rising, 1.4, {colours.open, 0.17}, b);
            c.line(hump, {colours.open, 0.31}, true);
          },
          words};
}

LegendEntry exhaust_entry(const Palette& colours, const std::string& words) {
  return {[&colours](Canvas& c, Box b) {
            std::vector<Point> hump;
            for (int i = 0; i <= 40; ++i) {
              const double u = i / 40.0, s = std::sin(u * 3.14159265358979);
              hump.push_back({b.x + u * b.w, b.bottom() - 0.9 * b.h * s * s});
            }
            c.line(hump, {colours.exhaust, 0.31, 1.0});
          },
          words};
}

}  // namespace shutlane
