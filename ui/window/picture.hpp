#pragma once
// The very frame of the window, without a display: for pages, pictures in documents and tests.
#include <optional>
#include <string>
#include <vector>

#include "ui/window/document.hpp"

namespace shutlane {

struct PictureRequest {
  std::string engine = "inline-six";
  Bench bench = Bench::work;
  Page page = Page::none;
  int width_px = 1600, height_px = 1000;
  double scale = 1;
  double dpi = 0;  ///< 0: as for a screen of 15.6 inches
  Theme theme = Theme::dark;
  TurnBy turn_by = TurnBy::wrench;  ///< by starter the picture waits until the press is worked out
  std::vector<JobEvent> events;     ///< the job so far
};

/// nullopt when all went well; else one line that says what is wrong.
std::optional<std::string> draw_picture(const PictureRequest& request, const std::string& path);

}  // namespace shutlane
