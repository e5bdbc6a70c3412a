#include "ui/window/concave_fill.hpp"

#include <algorithm>

namespace shutlane {
namespace {

float side(ImVec2 a, ImVec2 b, ImVec2 c) { return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x); }

float signed_area(const std::vector<ImVec2>& p) {
  float sum = 0;
  for (size_t i = 0; i < p.size(); ++i) {
    const ImVec2 a = p[i], b = p[(i + 1) % p.size()];
    sum += a.x * b.y - b.x * a.y;
  }
  return sum;
}

bool convex(const std::vector<ImVec2>& p) {
  for (size_t i = 0; i < p.size(); ++i)
    if (side(p[i], p[(i + 1) % p.size()], p[(i + 2) % p.size()]) < 0) return false;
  return true;
}

}  // namespace

std::vector<int> ear_clipped(const std::vector<ImVec2>& polygon) {
  std::vector<int> left(polygon.size()), triangles;
  for (size_t i = 0; i < left.size(); ++i) left[i] = static_cast<int>(i);
  if (signed_area(polygon) < 0) std::reverse(left.begin(), left.end());
  auto at = [&](int k) { return polygon[static_cast<size_t>(k)]; };
  bool cut = true;
  while (left.size() > 2 && cut) {
    cut = false;
    for (size_t i = 0; i < left.size() && !cut; ++i) {
      const int a = left[(i + left.size() - 1) % left.size()], b = left[i], c = left[(i + 1) % left.size()];
      if (side(at(a), at(b), at(c)) <= 0) continue;
      const bool empty = std::none_of(left.begin(), left.end(), [&](int k) {
        return k != a && k != b && k != c && side(at(a), at(b), at(k)) >= 0 &&
               side(at(b), at(c), at(k)) >= 0 && side(at(c), at(a), at(k)) >= 0;
      });
      if (!empty) continue;
      triangles.insert(triangles.end(), {a, b, c});
      left.erase(left.begin() + static_cast<ptrdiff_t>(i));
      cut = true;
    }
  }
  return triangles;
}

void fill_polygon(ImDrawList& list, std::vector<ImVec2> polygon, ImU32 colour) {
  if (polygon.size() < 3) return;
  // The soft edge comes out only on polygons that run clockwise on the screen.
  if (signed_area(polygon) < 0) std::reverse(polygon.begin(), polygon.end());
  if (convex(polygon)) {
    list.AddConvexPolyFilled(polygon.data(), static_cast<int>(polygon.size()), colour);
    return;
  }
  const std::vector<int> triangles = ear_clipped(polygon);
  list.PrimReserve(static_cast<int>(triangles.size()), static_cast<int>(polygon.size()));
  const unsigned base = list._VtxCurrentIdx;
  for (const int k : triangles) list.PrimWriteIdx(static_cast<ImDrawIdx>(base + static_cast<unsigned>(k)));
  const ImVec2 white = ImGui::GetFontTexUvWhitePixel();
  for (const ImVec2& p : polygon) list.PrimWriteVtx(p, white, colour);
  list.AddPolyline(polygon.data(), static_cast<int>(polygon.size()), colour, ImDrawFlags_Closed, 1.0f);
}

}  // namespace shutlane
