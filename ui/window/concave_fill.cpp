#include "ui/window/concave_fill.hpp"

#include <algorithm>
#include <functional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>

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

// Ears are cut in the order of the plain search, which begins anew after every cut. A corner that was no ear
// stays none until a neighbour is cut off, or the corner that lay in its triangle; so most are passed by.
std::vector<int> ear_clipped(const std::vector<ImVec2>& polygon) {
  constexpr int kNotTried = -1, kInward = -2;  // else: the corner that lies in its triangle
  std::vector<int> left(polygon.size()), triangles, state(polygon.size(), kNotTried);
  std::vector<bool> gone(polygon.size());
  for (size_t i = 0; i < left.size(); ++i) left[i] = static_cast<int>(i);
  if (signed_area(polygon) < 0) std::reverse(left.begin(), left.end());
  auto at = [&](int k) { return polygon[static_cast<size_t>(k)]; };
  auto state_of = [&](int k) -> int& { return state[static_cast<size_t>(k)]; };
  auto no_ear_still = [&](int k) {
    const int why = state_of(k);
    return why == kInward || (why >= 0 && !gone[static_cast<size_t>(why)]);
  };
  bool cut = true;
  while (left.size() > 2 && cut) {
    cut = false;
    for (size_t i = 0; i < left.size() && !cut; ++i) {
      const int b = left[i];
      if (no_ear_still(b)) continue;
      const int a = left[i > 0 ? i - 1 : left.size() - 1], c = left[i + 1 < left.size() ? i + 1 : 0];
      if (side(at(a), at(b), at(c)) <= 0) {
        state_of(b) = kInward;
        continue;
      }
      const auto inside = std::find_if(left.begin(), left.end(), [&](int k) {
        return k != a && k != b && k != c && side(at(a), at(b), at(k)) >= 0 &&
               side(at(b), at(c), at(k)) >= 0 && side(at(c), at(a), at(k)) >= 0;
      });
      if (inside != left.end()) {
        state_of(b) = *inside;
        continue;
      }
      triangles.insert(triangles.end(), {a, b, c});
      left.erase(left.begin() + static_cast<ptrdiff_t>(i));
      gone[static_cast<size_t>(b)] = true;
      state_of(a) = state_of(c) = kNotTried;
      cut = true;
    }
  }
  return triangles;
}

namespace {

/// Most polygons of a frame were in the frame before: their triangles are kept, the least used forgotten.
class KnownTriangles {
 public:
  const std::vector<int>& of(const std::vector<ImVec2>& polygon) {
    const std::string_view bytes(reinterpret_cast<const char*>(polygon.data()),
                                 polygon.size() * sizeof(ImVec2));
    if (const auto found = recent_.find(bytes); found != recent_.end()) return found->second;
    if (recent_.size() >= kMost) {
      older_ = std::move(recent_);
      recent_.clear();
    }
    if (auto found = older_.find(bytes); found != older_.end())
      return recent_.insert(older_.extract(found)).position->second;
    return recent_.emplace(bytes, ear_clipped(polygon)).first->second;
  }

 private:
  static constexpr size_t kMost = 128;
  struct Hash : std::hash<std::string_view> {
    using is_transparent = void;
  };
  using Map = std::unordered_map<std::string, std::vector<int>, Hash, std::equal_to<>>;
  Map recent_, older_;
};

}  // namespace

void fill_polygon(ImDrawList& list, std::vector<ImVec2> polygon, ImU32 colour) {
  if (polygon.size() < 3) return;
  // The soft edge comes out only on polygons that run clockwise on the screen.
  if (signed_area(polygon) < 0) std::reverse(polygon.begin(), polygon.end());
  if (convex(polygon)) {
    list.AddConvexPolyFilled(polygon.data(), static_cast<int>(polygon.size()), colour);
    return;
  }
  static thread_local KnownTriangles known;
  const std::vector<int>& triangles = known.of(polygon);
  list.PrimReserve(static_cast<int>(triangles.size()), static_cast<int>(polygon.size()));
  const unsigned base = list._VtxCurrentIdx;
  for (const int k : triangles) list.PrimWriteIdx(static_cast<ImDrawIdx>(base + static_cast<unsigned>(k)));
  const ImVec2 white = ImGui::GetFontTexUvWhitePixel();
  for (const ImVec2& p : polygon) list.PrimWriteVtx(p, white, colour);
  list.AddPolyline(polygon.data(), static_cast<int>(polygon.size()), colour, ImDrawFlags_Closed, 1.0f);
}

}  // namespace shutlane
