#include "ui/window/font_book.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "assets/fonts.hpp"

namespace shutlane {
namespace {

constexpr int kMeasure_px =
    32;                        // always held: widths grow evenly with the size, so one size measures for all
constexpr int kLarge_px = 56;  // from here on letters, digits and a few signs are enough, and one sample each

std::span<const unsigned char> bytes_of(Typeface face) {
  return face == Typeface::bold ? font_bold() : face == Typeface::mono ? font_mono() : font_regular();
}

// Static: the atlas reads the ranges when it is built.
constexpr ImWchar kAll[] = {0x20,   0x7e,   0xa0,   0x17f,  0x391,  0x3c9,  0x2010, 0x2026, 0x2030,
                            0x203a, 0x2190, 0x2199, 0x2212, 0x2212, 0x221a, 0x221e, 0x2260, 0x2265,
                            0x25a0, 0x25ff, 0x2713, 0x2717, 0x26a0, 0x26a0, 0};
constexpr ImWchar kFew[] = {0x20,   0x7e,   0xb0,   0xb1,   0xb7,   0xb7, 0x2013,
                            0x2014, 0x2019, 0x2019, 0x2713, 0x2713, 0};

ImFont* add(ImFontAtlas& atlas, Typeface face, int px) {
  const std::span<const unsigned char> bytes = bytes_of(face);
  ImFontConfig config;
  config.FontDataOwnedByAtlas = false;
  config.OversampleH = px >= kLarge_px ? 1 : 2;
  config.OversampleV = 1;
  // The atlas does not write to fonts that it does not own.
  return atlas.AddFontFromMemoryTTF(const_cast<unsigned char*>(bytes.data()), static_cast<int>(bytes.size()),
                                    static_cast<float>(px), &config, px >= kLarge_px ? kFew : kAll);
}

}  // namespace

ImFont* FontBook::at(Typeface face, double px) {
  const int wanted = std::clamp(static_cast<int>(std::lround(px)), 6, 400);
  const Sized* nearest = nullptr;
  for (const Sized& sized : held_) {
    if (sized.face != face) continue;
    if (sized.px == wanted) return sized.font;
    if (!nearest || std::abs(sized.px - wanted) < std::abs(nearest->px - wanted)) nearest = &sized;
  }
  const bool asked = std::any_of(wanted_.begin(), wanted_.end(),
                                 [&](const Sized& s) { return s.face == face && s.px == wanted; });
  if (!asked) wanted_.push_back({face, wanted, nullptr});
  return nearest ? nearest->font : ImGui::GetFont();
}

double FontBook::width(Typeface face, std::string_view utf8, double px) const {
  for (const Sized& sized : held_)
    if (sized.face == face && sized.px == kMeasure_px && sized.font)
      return static_cast<double>(
                 sized.font->CalcTextSizeA(kMeasure_px, 1e6f, 0, utf8.data(), utf8.data() + utf8.size()).x) *
             std::round(px) / kMeasure_px;
  return 0;
}

bool FontBook::rebuild(ImFontAtlas& atlas) {
  if (wanted_.empty() && !held_.empty()) return false;
  constexpr size_t kMost = 64;  // sizes of a window that was resized for long are forgotten
  if (held_.size() + wanted_.size() > kMost) held_.clear();
  if (held_.empty())
    for (const Typeface face : {Typeface::regular, Typeface::bold, Typeface::mono})
      held_.push_back({face, kMeasure_px, nullptr});
  held_.insert(held_.end(), wanted_.begin(), wanted_.end());
  wanted_.clear();
  atlas.Clear();
  atlas.TexDesiredWidth = 2048;
  for (Sized& sized : held_) sized.font = add(atlas, sized.face, sized.px);
  atlas.Build();
  ++generation_;
  return true;
}

}  // namespace shutlane
