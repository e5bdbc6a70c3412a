#include "ui/terminal/figures.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string_view>

namespace shutlane::terminal {

std::string degrees(double deg) { return fmt::format("{}", std::round(deg * 100.0) / 100.0 + 0.0); }

std::string spelt_out(std::string text) {
  constexpr std::string_view sign = "°";
  for (size_t at = text.find(sign); at != std::string::npos; at = text.find(sign)) {
    const size_t behind = at + sign.size();
    const bool range = text.compare(behind, 4, " to ") == 0 && behind + 4 < text.size() &&
                       text[behind + 4] >= '0' && text[behind + 4] <= '9';
    text.replace(at, sign.size(), range ? "" : " degrees");
  }
  return text;
}

}  // namespace shutlane::terminal
