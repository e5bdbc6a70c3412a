#pragma once
#include "ui/drawings/events.hpp"
#include "ui/drawings/palette.hpp"

namespace shutlane {

/// The valve events of a cylinder as a table: as stated, at the seat, at the seat under every tolerance.
/// Gives the y below it.
double draw_event_table(Canvas& canvas, Point top_left, double width, const Engine& engine,
                        const Cylinder& cylinder, const Palette& colours, double size);

/// "Intake open for 240° from seat to seat, exhaust for 240°; both open (overlap) for 22°. ..."
std::string durations_in_words(const Engine& engine, const Cylinder& cylinder);

}  // namespace shutlane
