#include "ui/drawings/layout_icon.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <glm/mat2x2.hpp>
#include <glm/vec2.hpp>

#include "ui/drawings/crank_train.hpp"

namespace shutlane {

namespace {

size_t cylinders_of(const LayoutSpec& layout) {
  size_t n = 0;
  for (const BankSpec& bank : layout.banks) n += bank.cylinders.size();
  return n;
}

/// The angle between the outermost of all banks, the smallest that holds them all; 0 with one bank.
double spread_deg(const LayoutSpec& layout) {
  std::vector<double> tilts_deg;
  for (const BankSpec& bank : layout.banks) {
    const double t = std::fmod(bank.tilt_deg, 360.0);
    tilts_deg.push_back(t < 0 ? t + 360 : t);
  }
  std::sort(tilts_deg.begin(), tilts_deg.end());
  double widest_gap_deg = 0;
  for (size_t i = 0; i < tilts_deg.size(); ++i) {
    const double next_deg = i + 1 < tilts_deg.size() ? tilts_deg[i + 1] : tilts_deg[0] + 360;
    widest_gap_deg = std::max(widest_gap_deg, next_deg - tilts_deg[i]);
  }
  return 360 - widest_gap_deg;
}

std::string number_word(size_t n) {
  constexpr std::array words{"none", "one", "twin", "three", "four", "five", "six", "seven", "eight", "nine"};
  return n < words.size() ? words[n] : std::to_string(n);
}

}  // namespace

LayoutKind layout_kind(const LayoutSpec& layout) {
  const size_t banks = layout.banks.size();
  if (banks <= 1) return cylinders_of(layout) <= 1 ? LayoutKind::single : LayoutKind::in_line;
  const double spread = spread_deg(layout);
  if (banks == 2)
    return spread <= 25 ? LayoutKind::narrow_v : spread <= 170 ? LayoutKind::v : LayoutKind::flat;
  return banks <= 4 && spread <= 180 ? LayoutKind::w : LayoutKind::radial;
}

std::string layout_name(const LayoutSpec& layout) {
  const size_t n = cylinders_of(layout);
  switch (layout_kind(layout)) {
    case LayoutKind::single:
      return "single";
    case LayoutKind::in_line:
      return "inline " + number_word(n);
    case LayoutKind::narrow_v:
      return fmt::format("narrow-angle V{}, {:.4g}°", n, spread_deg(layout));
    case LayoutKind::v:
      return fmt::format("{}, {:.4g}°", n == 2 ? "V-twin" : fmt::format("V{}", n), spread_deg(layout));
    case LayoutKind::flat:
      return "flat " + number_word(n);
    case LayoutKind::w:
      return fmt::format("W{}", n);
    case LayoutKind::radial:
      break;
  }
  return "radial " + number_word(n);
}

void draw_layout_icon(Canvas& canvas, Box box, const LayoutSpec& layout, Colour ink, Colour ground) {
  const double size = std::min(box.w, box.h);
  const Point middle{box.x + box.w / 2, box.y + box.h / 2};
  const LayoutKind kind = layout_kind(layout);
  if (kind == LayoutKind::in_line || kind == LayoutKind::single) {
    const size_t n = std::max<size_t>(1, cylinders_of(layout));
    const double pitch = std::min(0.28 * size, 0.92 * box.w / static_cast<double>(n)), width = 0.66 * pitch;
    double x = middle.x - pitch * (static_cast<double>(n) - 1) / 2;
    const double top = middle.y - 0.36 * size, foot = middle.y + 0.30 * size;
    for (size_t i = 0; i < n; ++i, x += pitch)
      canvas.fill_box({x - width / 2, top, width, 0.52 * size}, ink, 0.2 * width);
    const double half = pitch * (static_cast<double>(n) - 1) / 2 + width / 2;
    canvas.fill_box({middle.x - half, foot, 2 * half, 0.10 * size}, ink, 0.04 * size);
    return;
  }
  const bool star = kind == LayoutKind::radial;
  // The crank lies low under a V, in the middle of anything that reaches all round.
  const bool low = kind == LayoutKind::v || kind == LayoutKind::narrow_v || kind == LayoutKind::w;
  const Point crank{middle.x, middle.y + (low ? 0.30 * size : 0)};
  const double half = (star                                                    ? 0.075
                       : kind == LayoutKind::w || kind == LayoutKind::narrow_v ? 0.055
                                                                               : 0.10) *
                      size;
  double widest = 0;  // how far a bank of length 1 reaches to the side
  for (const BankSpec& bank : layout.banks)
    widest = std::max(widest, std::fabs(clock_direction(bank.tilt_deg).x));
  const double inner = 0.15 * size;
  const double outer =
      std::min((low ? 0.78 : 0.48) * size, (0.5 * box.w - 0.7 * half) / std::max(widest, 0.01));
  for (const BankSpec& bank : layout.banks) {
    const glm::dmat2 frame = bore_frame(bank.tilt_deg);
    const auto n = static_cast<double>(bank.cylinders.size());
    const double gap = n > 1 ? std::min(0.035 * size, 0.25 * (outer - inner) / n) : 0;
    const double length = (outer - inner - gap * (n - 1)) / n;
    for (double i = 0; i < n; ++i) {
      const double from = inner + i * (length + gap), to = from + length;
      std::vector<Point> bar;
      for (const glm::dvec2 at :
           {glm::dvec2(-half, from), glm::dvec2(-half, to), glm::dvec2(half, to), glm::dvec2(half, from)}) {
        const glm::dvec2 front = frame * at;
        bar.push_back({crank.x + front.x, crank.y - front.y});
      }
      canvas.fill(bar, ink);
    }
  }
  canvas.fill_circle(crank, 0.12 * size, ink);
  canvas.fill_circle(crank, 0.055 * size, ground);
}

}  // namespace shutlane
