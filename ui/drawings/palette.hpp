#pragma once
// The colours of everything drawn, light and dark. Chosen to stay apart for colour-blind eyes (blue-green
// against orange, blue against pink, each pair also apart in lightness), and never used alone: each thing has
// a shape, a hatch or a word of its own as well.
#include "ui/drawings/canvas.hpp"

namespace shutlane {

enum class Theme { light, dark };

struct Palette {
  Colour background;  ///< behind the panels
  Colour panel;       ///< what drawings lie on; a page's paper
  Colour text, dim_text;
  Colour grid;       ///< hairlines
  Colour shut;       ///< surely shut: solid
  Colour shut_soft;  ///< under the hatch of what is shut but not surely
  Colour open;       ///< intake off its seat: outlined and hatched
  Colour open_soft;
  Colour exhaust;  ///< exhaust lift: dashed
  Colour crank;    ///< where the crank stands: a solid needle
  Colour crank_soft;
  Colour position;  ///< where the crank goes: a dashed needle and a bracket
  Colour position_soft;
  Colour what_if;  ///< a hollow needle
  Colour on_fill;  ///< text on shut, open, crank, position and what_if
};

const Palette& palette(Theme theme);

}  // namespace shutlane
