#pragma once
// The embedded fonts at every size that is asked for, each rastered at its own pixel size and never
// stretched.
#include <imgui.h>

#include <string_view>
#include <vector>

#include "ui/drawings/canvas.hpp"

namespace shutlane {

enum class Typeface { regular, bold, mono };

class FontBook {
 public:
  /// The font at a line height of `px`, rounded to whole pixels, 6..400. A size not held yet is answered with
  /// the nearest one and is there after the next rebuild.
  ImFont* at(Typeface face, double px);
  /// How wide a line of text comes out at that line height; needs no font of that size.
  double width(Typeface face, std::string_view utf8, double px) const;
  bool wants_rebuild() const { return !wanted_.empty() && !draft; }
  /// Letters are stretched from the sizes held and no more are made: quick, for tests of places, which it
  /// leaves as they are.
  bool draft = false;
  /// Between frames only. True when the atlas changed: its texture must be taken anew.
  bool rebuild(ImFontAtlas& atlas);
  int generation() const { return generation_; }

 private:
  struct Sized {
    Typeface face;
    int px;
    ImFont* font;
  };
  std::vector<Sized> held_;
  std::vector<Sized> wanted_;
  int generation_ = 0;
};

}  // namespace shutlane
