#pragma once
// The card of one port: its number, its valves, its state word, drawn so that the state is told from two
// metres by shape and frame as well as by colour.
#include "sim/job/advice.hpp"
#include "ui/window/ui.hpp"

namespace shutlane {

struct CardLook {
  int valves = 2;       ///< intake valves of the cylinder
  bool greyed = false;  ///< the what-if needle is out
  bool focused = false, over = false;
};

/// A valve from above: shut, a disc within its ring; open, a crescent of the port beside the disc; touching,
/// a thin one.
void draw_seat(Ui& ui, Saw saw, Point at, double radius, Colour colour);

void draw_card(Ui& ui, const PortView& port, const CardLook& look, Box box);

}  // namespace shutlane
