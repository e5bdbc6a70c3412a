#include "engines/guard.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace shutlane {
namespace {

int line_of(std::string_view text, size_t offset) {
  return 1 +
         static_cast<int>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(offset), '\n'));
}

struct Sequence {
  size_t length;
  unsigned char second_least, second_greatest;
};

/// What may follow a lead byte; length 0 when the byte cannot lead.
Sequence sequence_led_by(unsigned char lead) {
  if (lead < 0x80) return {1, 0, 0};
  if (lead >= 0xC2 && lead <= 0xDF) return {2, 0x80, 0xBF};
  if (lead == 0xE0) return {3, 0xA0, 0xBF};
  if (lead == 0xED) return {3, 0x80, 0x9F};
  if (lead >= 0xE1 && lead <= 0xEF) return {3, 0x80, 0xBF};
  if (lead == 0xF0) return {4, 0x90, 0xBF};
  if (lead >= 0xF1 && lead <= 0xF3) return {4, 0x80, 0xBF};
  if (lead == 0xF4) return {4, 0x80, 0x8F};
  return {0, 0, 0};
}

/// End of the string or comment that starts at `at`, or `at` when none does.
size_t past_quotes(std::string_view text, size_t at) {
  const char quote = text[at];
  if (quote == '#') return std::min(text.find('\n', at), text.size());
  if (quote != '"' && quote != '\'') return at;
  const bool long_form = text.substr(at, 3) == std::string(3, quote);
  size_t i = at + (long_form ? 3 : 1);
  while (i < text.size()) {
    if (quote == '"' && text[i] == '\\') {
      i += 2;
    } else if (long_form && text.substr(i, 3) == std::string(3, quote)) {
      return i + 3;
    } else if (!long_form && text[i] == quote) {
      return i + 1;
    } else if (!long_form && text[i] == '\n') {
      return i;
    } else {
      ++i;
    }
  }
  return text.size();
}

/// Start of the first key with more than kKeyParts parts; npos when none. A number has one dot at most, so it
/// is no matter that values are looked at too.
size_t endless_key(std::string_view text) {
  size_t dots = 0, start = 0;
  for (size_t i = 0; i < text.size();) {
    const size_t past = past_quotes(text, i);
    if (past != i) {
      i = past;
      continue;
    }
    const char c = text[i];
    if (c == '.') {
      if (dots == 0) start = i;
      if (++dots >= kKeyParts) return start;
    } else if (c == '=' || c == ',' || c == '[' || c == ']' || c == '{' || c == '}' || c == '\n') {
      dots = 0;
    }
    ++i;
  }
  return std::string_view::npos;
}

FileMistake whole(int line, std::string wrong) {
  return {line, {"file", std::move(wrong), "an engine file, plain UTF-8 text with format = 1"}};
}

}  // namespace

size_t first_not_utf8(std::string_view text) {
  for (size_t i = 0; i < text.size();) {
    const auto byte = [&](size_t k) { return static_cast<unsigned char>(text[k]); };
    const Sequence sequence = sequence_led_by(byte(i));
    if (sequence.length == 0 || i + sequence.length > text.size()) return i;
    for (size_t k = 1; k < sequence.length; ++k) {
      const unsigned char least = k == 1 ? sequence.second_least : 0x80;
      const unsigned char greatest = k == 1 ? sequence.second_greatest : 0xBF;
      if (byte(i + k) < least || byte(i + k) > greatest) return i;
    }
    i += sequence.length;
  }
  return std::string_view::npos;
}

std::optional<FileMistake> unfit(std::string_view text) {
  if (text.empty()) return whole(1, "is empty");
  if (text.size() > kFileBytes) return whole(1, fmt::format("is longer than {} bytes", kFileBytes));
  if (const size_t at = text.find('\0'); at != std::string_view::npos)
    return whole(line_of(text, at), "holds a NUL byte");
  if (const size_t at = first_not_utf8(text); at != std::string_view::npos)
    return whole(line_of(text, at), fmt::format("holds the byte 0x{:02X}, which is not UTF-8 here",
                                                static_cast<unsigned char>(text[at])));
  if (const size_t at = endless_key(text); at != std::string_view::npos)
    return whole(line_of(text, at), fmt::format("holds a key of more than {} parts", kKeyParts));
  return std::nullopt;
}

}  // namespace shutlane
