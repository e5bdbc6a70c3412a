#include "ui/window/colours.hpp"

#include <cmath>

namespace shutlane {
namespace {

constexpr WindowColours kDark{
    .button = {40, 48, 58},
    .button_over = {52, 62, 74},
    .button_text = {240, 243, 245},
    .button_off = {110, 122, 134},
    .chosen = {240, 243, 245},
    .chosen_text = {16, 21, 26},
    .card_frame = {58, 68, 78},
    .card_done = {39, 46, 55},
    .done_text = {160, 171, 182},
    .focus = {255, 255, 255},
};

constexpr WindowColours kLight{
    .button = {226, 222, 211},
    .button_over = {214, 209, 196},
    .button_text = {22, 32, 42},
    .button_off = {138, 140, 138},
    .chosen = {22, 32, 42},
    .chosen_text = {255, 255, 255},
    .card_frame = {200, 197, 186},
    .card_done = {229, 227, 219},
    .done_text = {92, 101, 110},
    .focus = {0, 0, 0},
};

}  // namespace

const WindowColours& window_colours(Theme theme) { return theme == Theme::dark ? kDark : kLight; }

Colour mixed(Colour a, Colour b, double share_of_b) {
  auto mix = [share_of_b](std::uint8_t x, std::uint8_t y) {
    return static_cast<std::uint8_t>(std::lround(x + (y - x) * share_of_b));
  };
  return {mix(a.r, b.r), mix(a.g, b.g), mix(a.b, b.b), mix(a.a, b.a)};
}

Colour with_alpha(Colour c, double alpha) {
  c.a = static_cast<std::uint8_t>(std::lround(255 * alpha));
  return c;
}

}  // namespace shutlane
