#include "ui/drawings/palette.hpp"

namespace shutlane {

namespace {

// shut, open, crank and position were moved from a first choice until every pair of them stays at least 20
// apart (CIE 1976 L*a*b*) for each of the three kinds of colour blindness; tests/drawings/palette_test.cpp
// holds them to it.
constexpr Colour rgb(unsigned hex) {
  return {static_cast<std::uint8_t>(hex >> 16), static_cast<std::uint8_t>(hex >> 8),
          static_cast<std::uint8_t>(hex)};
}

constexpr Palette kLight{
    .background = rgb(0xF4F3EE),
    .panel = rgb(0xFFFFFF),
    .text = rgb(0x16202A),
    .dim_text = rgb(0x545F6B),
    .grid = rgb(0xD9D8D1),
    .shut = rgb(0x197C5C),
    .shut_soft = rgb(0xD3EBE0),
    .open = rgb(0xB5490B),
    .open_soft = rgb(0xFBEADD),
    .exhaust = rgb(0x6B7480),
    .crank = rgb(0x004799),
    .crank_soft = rgb(0xD4E6F5),
    .position = rgb(0xA43E84),
    .position_soft = rgb(0xF6E4F0),
    .what_if = rgb(0x6F5E00),
    .on_fill = rgb(0xFFFFFF),
};

constexpr Palette kDark{
    .background = rgb(0x13181D),
    .panel = rgb(0x1B2229),
    .text = rgb(0xF0F3F5),
    .dim_text = rgb(0xA6B1BB),
    .grid = rgb(0x36404A),
    .shut = rgb(0x26A28F),
    .shut_soft = rgb(0x1A3F39),
    .open = rgb(0xF58B3B),
    .open_soft = rgb(0x43301F),
    .exhaust = rgb(0x8E99A4),
    .crank = rgb(0x85CEFF),
    .crank_soft = rgb(0x26445B),
    .position = rgb(0xB479BB),
    .position_soft = rgb(0x432F47),
    .what_if = rgb(0xE6D16B),
    .on_fill = rgb(0x10151A),
};

}  // namespace

const Palette& palette(Theme theme) { return theme == Theme::dark ? kDark : kLight; }

}  // namespace shutlane
