#pragma once
// A small drawing of an engine's layout, for lists, and its name in the trade's words.
#include <string>

#include "sim/mechanism/engine.hpp"
#include "ui/drawings/canvas.hpp"

namespace shutlane {

enum class LayoutKind { single, in_line, narrow_v, v, flat, w, radial };

/// From the banks' tilts alone. One bank of one cylinder is a single; two banks up to 25 degrees apart a
/// narrow V, up to 170 a V, beyond that flat; three or four banks within half a turn a W; anything else
/// radial.
LayoutKind layout_kind(const LayoutSpec& layout);

/// "inline six", "V8, 90°", "narrow-angle V6, 15°", "flat four", "V-twin, 45°", "W12", "radial nine",
/// "single".
std::string layout_name(const LayoutSpec& layout);

/// In line: one bar a cylinder, side by side. Otherwise one bar a bank at its tilt, cut into its cylinders.
void draw_layout_icon(Canvas& canvas, Box box, const LayoutSpec& layout, Colour ink, Colour ground);

}  // namespace shutlane
