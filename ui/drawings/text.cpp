#include "ui/drawings/text.hpp"

#include "sim/mechanism/text.hpp"

namespace shutlane {

namespace {

// Length of the valid UTF-8 sequence at i, 0 when there is none (overlong, surrogate and out-of-range forms
// included).
size_t sequence_length(std::string_view s, size_t i) {
  const auto byte = [&](size_t k) { return static_cast<unsigned char>(s[k]); };
  const unsigned char first = byte(i);
  if (first < 0x80) return 1;
  const size_t length = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || i + length > s.size()) return 0;
  for (size_t k = 1; k < length; ++k)
    if ((byte(i + k) & 0xC0) != 0x80) return 0;
  if ((first == 0xE0 && byte(i + 1) < 0xA0) || (first == 0xED && byte(i + 1) > 0x9F)) return 0;
  if ((first == 0xF0 && byte(i + 1) < 0x90) || (first == 0xF4 && byte(i + 1) > 0x8F)) return 0;
  return length;
}

char32_t code_at(std::string_view utf8, size_t i, size_t length) {
  const auto byte = [&](size_t k) { return static_cast<char32_t>(static_cast<unsigned char>(utf8[i + k])); };
  if (length == 1) return byte(0);
  char32_t code = byte(0) & (0x7Fu >> length);
  for (size_t k = 1; k < length; ++k) code = code << 6 | (byte(k) & 0x3F);
  return code;
}

}  // namespace

std::string plain_text(std::string_view utf8) {
  std::string out;
  out.reserve(utf8.size());
  for (size_t i = 0; i < utf8.size();) {
    const size_t length = sequence_length(utf8, i);
    const char32_t code = length == 0 ? 0 : code_at(utf8, i, length);
    if (length == 0 || is_noncharacter(code))
      out += '?';
    else if (commands_a_screen(code))
      out += ' ';
    else
      out.append(utf8.substr(i, length));
    i += length == 0 ? 1 : length;
  }
  return out;
}

std::string fitted(Canvas& canvas, std::string_view utf8, double width, double size, Weight weight) {
  constexpr size_t most = 1000;  // bytes; no line of ours holds more
  std::string text = plain_text(utf8.substr(0, most));
  if (utf8.size() <= most && canvas.text_width(text, size, weight) <= width) return text;
  while (!text.empty()) {
    do {
      const bool continuation = (static_cast<unsigned char>(text.back()) & 0xC0) == 0x80;
      text.pop_back();
      if (!continuation) break;
    } while (!text.empty());
    while (!text.empty() && text.back() == ' ') text.pop_back();
    if (canvas.text_width(text + "…", size, weight) <= width) return text + "…";
  }
  return {};
}

std::vector<std::string> wrapped(Canvas& canvas, std::string_view utf8, double width, double size,
                                 Weight weight) {
  const std::string text = plain_text(utf8);
  std::vector<std::string> lines;
  std::string line;
  for (size_t i = 0; i < text.size();) {
    size_t end = text.find(' ', i);
    if (end == std::string::npos) end = text.size();
    const std::string word = text.substr(i, end - i);
    i = end + 1;
    if (word.empty()) continue;
    const std::string longer = line.empty() ? word : line + ' ' + word;
    if (canvas.text_width(longer, size, weight) <= width) {
      line = longer;
      continue;
    }
    if (!line.empty()) lines.push_back(line);
    line = fitted(canvas, word, width, size, weight);
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

double draw_paragraph(Canvas& canvas, Point top_left, double width, std::string_view utf8, double size,
                      Colour colour, Weight weight) {
  double y = top_left.y;
  for (const std::string& line : wrapped(canvas, utf8, width, size, weight)) {
    canvas.text({top_left.x, y + kAscent * size}, line, size, colour, Align::left, weight);
    y += kLeading * size;
  }
  return y;
}

}  // namespace shutlane
