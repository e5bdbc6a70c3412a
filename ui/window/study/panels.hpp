#pragma once
// What Teach and Explore are put together from: panels with a heading, sliders, a field to type in.
#include <initializer_list>
#include <string>

#include "ui/window/study/tinker.hpp"
#include "ui/window/ui.hpp"

namespace shutlane {

/// Heights that follow the screen: the line of drawings and of small controls. Never so large that a panel
/// has no room.
struct StudySizes {
  double text = 0;    ///< line height of drawings, pixels
  double button = 0;  ///< height of a small button
  double gap = 0;     ///< between panels
  double margin = 0;  ///< round the window
  double pad = 0;     ///< inside a panel
};
StudySizes study_sizes(const Ui& ui);

/// Lines of text that the timeline takes above and below its lanes.
inline constexpr double kAboutLanes = 7;
/// True where one of the places would hold no heading and nothing below it: then a line says so in their
/// stead.
bool too_small_for(Ui& ui, const StudySizes& sizes, const std::string& bench,
                   std::initializer_list<Box> places);

/// A filled panel with its heading; gives the room inside, below the heading.
Box draw_panel(Ui& ui, const StudySizes& sizes, Box box, const std::string& heading);

/// A small button on a panel.
bool small_button(Ui& ui, const StudySizes& sizes, const std::string& id, const std::string& label, Box box,
                  bool selected = false, const std::string& tip = {}, bool enabled = true);
double small_button_width(Ui& ui, const StudySizes& sizes, const std::string& label);

struct Pulled {
  bool moved = false;
  bool same_pull = false;  ///< goes on with the pull of the frame before
  double value = 0;
};
/// A slider with its label, value and a tick at the file's value; arrow keys move it by its step while it has
/// the focus.
Pulled slider(Ui& ui, const StudySizes& sizes, const std::string& id, const Knob& knob,
              const std::string& shown, Box box, const std::string& tip = {});

/// A field to type in; `focus` puts the keyboard there. True when its text changed.
bool text_field(Ui& ui, const StudySizes& sizes, const std::string& id, const std::string& hint,
                std::string& text, Box box, bool focus = false);

}  // namespace shutlane
