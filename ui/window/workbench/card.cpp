#include "ui/window/workbench/card.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "ui/drawings/shapes.hpp"
#include "ui/drawings/text.hpp"

namespace shutlane {
namespace {

constexpr double kWordMost_mm = 20;     // its capitals are then 12 mm high
constexpr double kLow_mm = 30;          // a card lower than that has no room for two lines of words
constexpr double kSqueeze = 0.86;       // a word may be drawn this much narrower before it is made smaller
constexpr double kCapitalShare = 0.62;  // of a line's height

struct CardColours {
  Colour fill, frame, number, word, glyph;
  double frame_mm;
};

CardColours colours_of(const Ui& ui, const PortView& port, bool greyed) {
  const Palette& p = ui.palette();
  const WindowColours& c = ui.colours();
  CardColours out{p.panel, c.card_frame, p.text, p.text, p.dim_text, 0.7};
  switch (port.face) {
    case Face::seen_shut:  // without a second witness it looks like any port that is not settled
      if (port.certain) out.word = out.glyph = p.shut;
      break;
    case Face::suspect:
    case Face::open:
      out.word = out.glyph = out.frame = p.open;
      out.frame_mm = 1.8;
      break;
    case Face::blasting:
      out.word = out.glyph = p.crank;
      break;
    case Face::done:
      out = {c.card_done, c.card_done, c.done_text, c.done_text, port.open ? p.open : c.done_text, 0.7};
      break;
    case Face::waits:
    case Face::out_of_reach:
    case Face::left_out:
      out = {p.background, c.card_frame, c.done_text, c.done_text, c.done_text, 0.7};
      break;
    case Face::look:
    case Face::touching:
    case Face::hidden:
      break;
  }
  if (port.next && port.face != Face::suspect) {
    out.frame = p.crank;
    out.frame_mm = 2.0;
  }
  if (greyed)
    for (Colour* colour : {&out.frame, &out.number, &out.word, &out.glyph})
      *colour = mixed(*colour, p.background, 0.65);
  return out;
}

/// The disc stands off its seat: a crescent of the port shows. Dashed: reckoned.
void draw_open_valve(Ui& ui, bool seen, Colour colour, Point at, double radius) {
  const double line = std::max(1.5, radius * 0.1);
  ui.canvas().fill_circle(at, radius - line, ui.palette().background);
  ui.canvas().stroke_circle(at, radius - line, {colour, line * 1.6, seen ? 0 : radius * 0.32});
  ui.canvas().fill_circle({at.x + radius * 0.24, at.y + radius * 0.10}, radius * 0.60, colour);
}

void draw_valve(Ui& ui, const PortView& port, const CardColours& c, Point at, double radius) {
  if (port.face == Face::open || (port.face == Face::done && port.open))
    return draw_open_valve(ui, port.seen, c.glyph, at, radius);
  ScreenCanvas& canvas = ui.canvas();
  const double line = std::max(1.5, radius * 0.1);
  switch (port.face) {
    case Face::look:
    case Face::hidden:
      canvas.stroke_circle(at, radius - line / 2, {c.glyph, line, radius * 0.32});
      canvas.text({at.x, at.y + radius * 1.0 * kHalfCapital}, port.face == Face::look ? "?" : "\u2013",
                  radius * 1.0, c.glyph, Align::centre, Weight::bold);
      break;
    case Face::suspect:
      canvas.stroke_circle(at, radius - line / 2, {c.glyph, line, 0});
      canvas.text({at.x, at.y + radius * 1.2 * kHalfCapital}, "!", radius * 1.2, c.glyph, Align::centre,
                  Weight::bold);
      break;
    case Face::touching:
      draw_seat(ui, Saw::touching, at, radius, c.glyph);
      break;
    case Face::seen_shut:
    case Face::blasting:
    case Face::done:
      canvas.stroke_circle(at, radius - line / 2, {c.glyph, line, 0});
      if (port.face == Face::done && !port.seen) break;  // where the crank stands now nobody has looked
      canvas.fill_circle(at, radius - 2.2 * line,
                         port.face == Face::done ? mixed(c.glyph, c.fill, 0.7) : c.glyph);
      break;
    case Face::open:
      break;
    case Face::waits:
    case Face::out_of_reach:
    case Face::left_out:
      canvas.stroke_circle(at, radius - line / 2, {c.glyph, line, 0});
      break;
  }
}

void draw_valves(Ui& ui, const PortView& port, const CardColours& c, Box room, int count, Align align) {
  const double n = std::max(1, count);
  const double radius = std::min(room.h / 2, room.w / (2 * n + 0.3 * (n - 1)));
  const double step = radius * 2.3;
  const double width = step * (n - 1) + 2 * radius;
  const double left = align == Align::right ? room.right() - width : room.x + (room.w - width) / 2;
  for (int i = 0; i < count; ++i)
    draw_valve(ui, port, c, {left + radius + step * i, room.y + room.h / 2}, radius);
}

struct SetWord {
  std::array<std::string, 2> lines;
  int count = 1;
  double size = 0;
};

/// One line as large as fits, or two where one would be below the least size.
SetWord set_word(Ui& ui, const std::string& word, double width, double height, double most_px) {
  const double least = ui.mm(kStateWord_mm);
  auto size_for = [&](const std::string& text, double room_h) {
    const double at_most = std::min(most_px, room_h);
    const double w = ui.canvas().text_width(text, at_most, Weight::bold) * kSqueeze;
    return w <= width ? at_most : at_most * width / w;
  };
  SetWord one{{word, ""}, 1, std::floor(size_for(word, height))};
  const size_t space = word.find(' ');
  if (space == std::string::npos) {
    one.size = std::max(one.size, least);
    return one;
  }
  SetWord two{{word.substr(0, space), word.substr(space + 1)}, 2, 0};
  two.size = std::floor(std::min(size_for(two.lines[0], height / 1.7), size_for(two.lines[1], height / 1.7)));
  if (one.size >= least * 1.05 && one.size >= two.size * 0.8) return one;
  two.size = std::max(two.size, least);
  return two;
}

void draw_word(Ui& ui, const SetWord& word, Box room, Colour colour, Align align) {
  const double step = word.size * 0.78;
  const double capital = word.size * kCapitalShare;
  const double block = step * (word.count - 1) + capital;
  double baseline = room.y + (room.h - block) / 2 + capital;
  for (int i = 0; i < word.count; ++i) {
    const std::string& line = word.lines[static_cast<size_t>(i)];
    const double natural = ui.canvas().text_width(line, word.size, Weight::bold);
    const double squeeze = std::min(1.0, room.w / natural);
    const double x = align == Align::centre ? room.x + room.w / 2 : room.x;
    ui.canvas().squeezed_text({x, baseline}, line, word.size, colour, align, Weight::bold, squeeze);
    const double left = align == Align::centre ? x - natural * squeeze / 2 : x;
    ui.items().texts.push_back(
        {line, {left, baseline - capital, natural * squeeze, capital}, room, word.size});
    baseline += step;
  }
}

void draw_tick(Ui& ui, Box box, double size, Colour colour) {
  const double right = box.right() - ui.mm(3.5), top = box.y + ui.mm(4);
  const std::array<Point, 3> tick{Point{right - size, top + size * 0.55},
                                  Point{right - size * 0.62, top + size * 0.95},
                                  Point{right, top + size * 0.1}};
  ui.canvas().line(tick, {colour, size * 0.18, 0});
}

/// Number on top, valves, word, note: for cards higher than wide.
void tall(Ui& ui, const PortView& port, const CardLook& look, const CardColours& c, Box in) {
  const double number_px = std::min(in.h * 0.30, in.w * 0.62);
  const double note_px = std::min(ui.type_mm(7.4), in.h * 0.115);
  ui.text_in({in.x + ui.mm(1), in.y, in.w * 0.6, number_px * 0.86}, std::to_string(port.cylinder),
             {number_px, c.number, Align::left, Weight::bold, 0.5});
  const Box note{in.x, in.bottom() - note_px * 1.25, in.w, note_px * 1.15};
  ui.text_in(note, port.note,
             {note_px, mixed(c.word, ui.palette().dim_text, 0.6), Align::centre, Weight::regular, 0.42});
  const double word_h = in.h * 0.31;
  const Box word{in.x, note.y - word_h, in.w, word_h};
  draw_word(ui, set_word(ui, port.word, word.w, word.h, ui.mm(kWordMost_mm)), word, c.word, Align::centre);
  const double top = in.y + number_px * 0.88;
  draw_valves(ui, port, c, {in.x, top, in.w, word.y - top}, look.valves, Align::centre);
}

/// Number, word and valves in one row: for cards too low for two.
void low(Ui& ui, const PortView& port, const CardLook& look, const CardColours& c, Box in) {
  const SetWord number{{std::to_string(port.cylinder), ""}, 1, std::min(in.h, ui.mm(16)) / kCapitalShare};
  const double number_w =
      std::min(in.w * 0.2, ui.canvas().text_width(port.cylinder > 9 ? "00" : "0", number.size, Weight::bold));
  draw_word(ui, number, {in.x, in.y, number_w, in.h}, c.number, Align::left);
  const double valves_w = std::min(in.w * 0.25, in.h * 2.4);
  draw_valves(ui, port, c, {in.right() - valves_w, in.y, valves_w, in.h}, look.valves, Align::right);
  const double left = in.x + number_w + ui.mm(3);
  const Box word{left, in.y, in.right() - valves_w - ui.mm(2) - left, in.h};
  draw_word(ui, {{port.word, ""}, 1, std::min(in.h / kCapitalShare, ui.mm(kWordMost_mm))}, word, c.word,
            Align::left);
}

/// Number and valves in one row, word and note below: for cards wider than high.
void flat(Ui& ui, const PortView& port, const CardLook& look, const CardColours& c, Box in) {
  const double note_px = std::min(ui.type_mm(4.8), in.h * 0.15), note_h = note_px * 1.25;
  const double top_h = in.h * 0.38;
  SetWord word = set_word(ui, port.word, in.w, (in.h - top_h - note_h) / 0.74, ui.mm(kWordMost_mm));
  const double block = word.size * (0.78 * (word.count - 1) + kCapitalShare);
  const bool note_fits = in.h - top_h - block > note_h + ui.mm(1);
  const SetWord number{{std::to_string(port.cylinder), ""}, 1, top_h / kCapitalShare};
  const double number_w = ui.canvas().text_width(port.cylinder > 9 ? "00" : "0", number.size, Weight::bold);
  draw_word(ui, number, {in.x, in.y, std::min(number_w, in.w * 0.42), top_h}, c.number, Align::left);
  const double tick_w = port.face == Face::done ? std::min(in.h * 0.36, in.w * 0.26) : 0;
  const double left = std::min(number_w, in.w * 0.42) + ui.mm(2);
  draw_valves(ui, port, c, {in.x + left, in.y, in.w - left - tick_w, top_h * 0.96}, look.valves,
              Align::right);
  const double below = in.y + top_h;
  draw_word(ui, word, {in.x, below + in.h * 0.03, in.w, in.h * 0.97 - top_h - (note_fits ? note_h : 0)},
            c.word, Align::left);
  if (note_fits)
    ui.text_in({in.x, in.bottom() - note_h, in.w, note_h}, port.note,
               {note_px, mixed(c.word, ui.palette().dim_text, 0.8), Align::left, Weight::regular, 0.6});
}

}  // namespace

void draw_seat(Ui& ui, Saw saw, Point at, double radius, Colour colour) {
  const double line = std::max(1.5, radius * 0.1);
  ui.canvas().stroke_circle(at, radius - line, {colour, line * 1.6, 0});
  if (saw == Saw::shut) ui.canvas().fill_circle(at, radius - 2.6 * line, colour);
  if (saw == Saw::open)
    ui.canvas().fill_circle({at.x + radius * 0.24, at.y + radius * 0.10}, radius * 0.60, colour);
  if (saw == Saw::touching)  // a thin crescent
    ui.canvas().fill_circle({at.x + radius * 0.10, at.y + radius * 0.04}, radius * 0.70, colour);
}

void draw_card(Ui& ui, const PortView& port, const CardLook& look, Box box) {
  const CardColours c = colours_of(ui, port, look.greyed);
  ScreenCanvas& canvas = ui.canvas();
  const double corner = ui.mm(3), frame = ui.mm(c.frame_mm);
  canvas.fill_box(box, look.over && !look.greyed ? mixed(c.fill, ui.palette().text, 0.04) : c.fill, corner);
  if (port.face == Face::open || port.face == Face::suspect) {
    const double band = ui.mm(3.4);
    const Colour line = mixed(ui.palette().open, c.fill, look.greyed ? 0.8 : 0.35);
    // Kept clear of the rounded corners; the frame covers the rest.
    const Box inside{box.x + frame * 0.7, box.y + frame * 0.7, box.w - frame * 1.4, box.h - frame * 1.4};
    hatch_box(canvas, inside, Hatch::rising, ui.mm(2.2), {line, ui.mm(0.35), 0}, ui.screen());
    canvas.fill_box({box.x + band, box.y + band, box.w - 2 * band, box.h - 2 * band}, c.fill, corner * 0.6);
  }
  canvas.stroke_box({box.x + frame / 2, box.y + frame / 2, box.w - frame, box.h - frame}, {c.frame, frame, 0},
                    corner - frame / 2);
  const double pad = ui.mm(4.2);
  const Box in{box.x + pad, box.y + ui.mm(3.2), box.w - 2 * pad, box.h - ui.mm(5.6)};
  if (box.h < ui.mm(kLow_mm) && box.w > 3 * box.h)
    low(ui, port, look, c, in);
  else if (box.h < 0.95 * box.w)
    flat(ui, port, look, c, in);
  else
    tall(ui, port, look, c, in);
  if (port.face == Face::done)
    draw_tick(ui, box, std::min(box.h * 0.16, box.w * 0.24), look.greyed ? c.glyph : ui.palette().shut);
  if (look.focused) ui.draw_focus(box, corner);
}

}  // namespace shutlane
