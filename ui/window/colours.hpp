#pragma once
// The window's own colours beside the palette of the drawings: buttons, cards, their frames.
#include "ui/drawings/palette.hpp"

namespace shutlane {

struct WindowColours {
  Colour button;       ///< a plain button
  Colour button_over;  ///< under the pointer
  Colour button_text;
  Colour button_off;  ///< text of a button that does nothing now
  Colour chosen;      ///< a chosen tab or answer
  Colour chosen_text;
  Colour card_frame;  ///< of a port that asks for nothing
  Colour card_done;   ///< a port that is done, drawn back
  Colour done_text;
  Colour focus;  ///< the keyboard's ring
};

const WindowColours& window_colours(Theme theme);
Colour mixed(Colour a, Colour b, double share_of_b);  ///< share 0..1
Colour with_alpha(Colour c, double alpha);            ///< alpha 0..1

}  // namespace shutlane
