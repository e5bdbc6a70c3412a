#pragma once
// The register of what a frame shows: every button with its label, place and state, and every piece of text
// with the room it had. Tests click by label and check sizes from it; the keyboard walks along it.
#include <string>
#include <string_view>
#include <vector>

#include "ui/drawings/canvas.hpp"

namespace shutlane {

struct Item {
  std::string id;     ///< unique within a frame: "port 3", "wide"
  std::string label;  ///< what is written on it
  Box box;            ///< pixels
  bool enabled = true, selected = false;
};

struct TextItem {
  std::string text;
  Box box;   ///< where its line lies
  Box room;  ///< where it may lie
  double line_px = 0;
};

struct Items {
  std::vector<Item> items;
  std::vector<TextItem> texts;
  void clear();
  const Item* by_label(std::string_view label) const;  ///< the first; nullptr when there is none
  const Item* by_id(std::string_view id) const;
};

}  // namespace shutlane
