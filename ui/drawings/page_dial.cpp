#include "ui/drawings/page_parts.hpp"
namespace shutlane {
void draw_dial_page(Canvas&, Box, const Engine&, const PageRequest&) {}
void draw_lift_page(Canvas&, Box, const Engine&, const PageRequest&) {}
}  // namespace shutlane
