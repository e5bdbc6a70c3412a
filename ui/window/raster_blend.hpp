#pragma once
// One colour over another, on packed pixels: red and blue share a register. Rounded to the nearest.
#include <algorithm>
#include <cstdint>

namespace shutlane {

inline constexpr std::uint32_t kOpaque = 0xff000000u;
inline constexpr std::uint32_t kRedBlue = 0x00ff00ffu;

/// Both halves divided by 255, rounded; each holds at most 255 * 255, with 128 added.
inline std::uint32_t divided_by_255(std::uint32_t halves) {
  return ((halves + ((halves >> 8) & kRedBlue)) >> 8) & kRedBlue;
}

/// `over`: R, G, B in the lower three bytes; the fourth does not matter. `alpha`: 0..255.
inline std::uint32_t blended(std::uint32_t under, std::uint32_t over, std::uint32_t alpha) {
  const std::uint32_t rest = 255 - alpha;
  const std::uint32_t rb =
      divided_by_255((over & kRedBlue) * alpha + (under & kRedBlue) * rest + 0x00800080u);
  const std::uint32_t g = divided_by_255(((over >> 8) & 255) * alpha + ((under >> 8) & 255) * rest + 0x80u);
  return kOpaque | rb | (g << 8);
}

inline void blend(std::uint32_t& under, std::uint32_t over, std::uint32_t alpha) {
  if (alpha == 0) return;
  under = alpha >= 255 ? over | kOpaque : blended(under, over, alpha);
}

/// A row of pixels in one colour, its alpha in the fourth byte.
inline void blend_span(std::uint32_t* from, std::uint32_t* to, std::uint32_t colour) {
  const std::uint32_t alpha = colour >> 24;
  if (alpha == 255) {
    std::fill(from, to, colour);
  } else if (alpha != 0) {
    for (; from != to; ++from) *from = blended(*from, colour, alpha);
  }
}

}  // namespace shutlane
