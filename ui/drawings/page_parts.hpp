#pragma once
// What every page has: paper, heading, footer, legend. Millimetres.
#include <functional>
#include <string>
#include <vector>

#include "sim/mechanism/engine.hpp"
#include "ui/drawings/canvas.hpp"
#include "ui/drawings/pages.hpp"

namespace shutlane {

inline constexpr double kPageMargin_mm = 12;
inline constexpr double kSmall_mm = 3.4;  ///< line height of small print
inline constexpr double kBody_mm = 4.0;

/// "6 cylinders · fires 1-5-3-6-2-4 every 120° · turns clockwise seen from the pulley end".
std::string layout_in_words(const EngineSpec& spec);
/// "left: 1, 3, 5 · right: 2, 4, 6", from the pulley end; empty with one bank.
std::string banks_in_words(const EngineSpec& spec);

/// Name, layout and what the page shows on top; caution and source at the foot. Gives the box between them.
Box draw_frame(Canvas& canvas, Box paper, const Engine& engine, const Palette& colours,
               const std::string& title, const std::string& settings);

struct LegendEntry {
  std::function<void(Canvas&, Box)> swatch;
  std::string words;
};

/// A heading and entries below each other; gives the y below the last one.
double draw_legend(Canvas& canvas, Point top_left, double width, const std::vector<LegendEntry>& entries,
                   const Palette& colours);
double draw_heading(Canvas& canvas, Point top_left, const std::string& words, const Palette& colours);

/// A numbered disc, its centre given.
void draw_number(Canvas& canvas, Point centre, double radius, const std::string& number, Colour fill,
                 Colour text);

LegendEntry sure_entry(const Palette& colours, const std::string& words);
LegendEntry unsure_entry(const Palette& colours, const std::string& words);
LegendEntry open_entry(const Palette& colours, const std::string& words);
LegendEntry exhaust_entry(const Palette& colours, const std::string& words);

void draw_lanes_page(Canvas& canvas, Box paper, const Engine& engine, const PageRequest& request);
void draw_dial_page(Canvas& canvas, Box paper, const Engine& engine, const PageRequest& request);
void draw_bump_page(Canvas& canvas, Box paper, const Engine& engine, const PageRequest& request);
void draw_lift_page(Canvas& canvas, Box paper, const Engine& engine, const PageRequest& request);

}  // namespace shutlane
