#pragma once
// Filled simple polygons, concave ones too, as Dear ImGui 1.86 draws convex ones only.
#include <imgui.h>

#include <vector>

namespace shutlane {

/// Triangles of a simple polygon without holes, by ear clipping, as indices into the points; any winding.
/// A polygon that crosses itself gives the triangles found before the clipping gets stuck.
std::vector<int> ear_clipped(const std::vector<ImVec2>& polygon);

void fill_polygon(ImDrawList& list, std::vector<ImVec2> polygon, ImU32 colour);

}  // namespace shutlane
