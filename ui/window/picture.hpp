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
  std::optional<double> press_s;  ///< Teach with a bump of this press, halfway through its replay
  int width_px = 1600, height_px = 1000;
  double scale = 1;
  double dpi = 0;  ///< 0: as for a screen of 15.6 inches
  Theme theme = Theme::dark;
  TurnBy turn_by = TurnBy::wrench;  ///< by starter the picture waits until the press is worked out
  bool wrench_too = false;          ///< by starter, with a wrench at hand
  std::vector<JobEvent> events;     ///< the job so far; one that the job does not allow is a mistake
  std::vector<std::string> words;   ///< how each event was said, for that mistake's line; may be empty
};

/// nullopt when all went well; else one line that says what is wrong.
std::optional<std::string> draw_picture(const PictureRequest& request, const std::string& path);

}  // namespace shutlane
