// Contrast after WCAG 2.1 (relative luminance and contrast ratio, success criterion 1.4.3: 4.5 for text).
// Colour blindness after Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of
// Color Vision Deficiency", IEEE TVCG 15 (2009) 1291: the matrices for full severity, on linear light.
#include "ui/drawings/palette.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace shutlane {
namespace {

using Light = std::array<double, 3>;

Light linear(Colour c) {
  const auto one = [](double v) { return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); };
  return {one(c.r / 255.0), one(c.g / 255.0), one(c.b / 255.0)};
}

double luminance(const Light& l) { return 0.2126 * l[0] + 0.7152 * l[1] + 0.0722 * l[2]; }

double contrast(Colour a, Colour b) {
  const double la = luminance(linear(a)), lb = luminance(linear(b));
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

// CIE 1976 L*a*b*, white D65; the plain distance is enough to tell far from near.
Light lab(const Light& l) {
  const double x = (0.4124 * l[0] + 0.3576 * l[1] + 0.1805 * l[2]) / 0.9505;
  const double y = luminance(l);
  const double z = (0.0193 * l[0] + 0.1192 * l[1] + 0.9505 * l[2]) / 1.0890;
  const auto f = [](double t) { return t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116; };
  return {116 * f(y) - 16, 500 * (f(x) - f(y)), 200 * (f(y) - f(z))};
}

using Matrix = std::array<Light, 3>;
constexpr Matrix kProtan{
    {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}};
constexpr Matrix kDeutan{
    {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}};
constexpr Matrix kTritan{
    {{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}};

Light seen(Colour c, const Matrix& m) {
  const Light l = linear(c);
  Light out{};
  for (size_t i = 0; i < 3; ++i)
    out[i] = std::clamp(m[i][0] * l[0] + m[i][1] * l[1] + m[i][2] * l[2], 0.0, 1.0);
  return out;
}

double apart(Colour a, Colour b, const Matrix& m) {
  const Light la = lab(seen(a, m)), lb = lab(seen(b, m));
  return std::hypot(la[0] - lb[0], la[1] - lb[1], la[2] - lb[2]);
}

class Both : public testing::TestWithParam<Theme> {};

TEST_P(Both, TextReadsOnWhateverItLiesOn) {
  const Palette& p = palette(GetParam());
  for (const Colour ground : {p.background, p.panel})
    for (const Colour text : {p.text, p.dim_text, p.shut, p.open, p.crank, p.position, p.what_if})
      EXPECT_GE(contrast(text, ground), 4.5) << int{text.r} << ' ' << int{text.g} << ' ' << int{text.b};
  for (const Colour fill : {p.shut, p.open, p.crank, p.position, p.what_if})
    EXPECT_GE(contrast(p.on_fill, fill), 4.5);
  for (const Colour soft : {p.shut_soft, p.open_soft, p.crank_soft, p.position_soft})
    EXPECT_GE(contrast(p.text, soft), 4.5);
}

TEST_P(Both, LinesShowOnThePanel) {  // success criterion 1.4.11: 3 for graphics
  const Palette& p = palette(GetParam());
  for (const Colour line : {p.shut, p.open, p.exhaust, p.crank, p.position, p.what_if})
    EXPECT_GE(contrast(line, p.panel), 3.0);
}

TEST_P(Both, ColourBlindEyesTellThemApart) {
  const Palette& p = palette(GetParam());
  // 20 is far beyond a just noticeable difference (about 2.3); shape, hatch and word stand beside each in any
  // case.
  constexpr double far = 20;
  for (const Matrix& eye : {kProtan, kDeutan, kTritan}) {
    const std::array four{p.shut, p.open, p.crank, p.position};
    for (size_t i = 0; i < four.size(); ++i)
      for (size_t k = 0; k < i; ++k) EXPECT_GE(apart(four[i], four[k], eye), far) << i << " and " << k;
  }
}

INSTANTIATE_TEST_SUITE_P(Themes, Both, testing::Values(Theme::light, Theme::dark),
                         [](const auto& which) { return which.param == Theme::light ? "light" : "dark"; });

TEST(Palette, BlackOnWhiteIsTwentyOne) {
  EXPECT_NEAR(contrast({0, 0, 0}, {255, 255, 255}), 21, 1e-9);
}  // WCAG's own example

}  // namespace
}  // namespace shutlane
