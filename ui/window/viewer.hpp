#pragma once
// A Dear ImGui context with our fonts, input and widgets: makes frames of a session without any display.
#include <imgui.h>

#include <string>
#include <vector>

#include "ui/window/frame.hpp"
#include "ui/window/raster.hpp"

namespace shutlane {

class Viewer {
 public:
  /// `draft`: letters are stretched from one size, nothing else differs; for tests of places.
  explicit Viewer(bool draft = false);
  ~Viewer();
  Viewer(const Viewer&) = delete;
  Viewer& operator=(const Viewer&) = delete;

  struct Size {
    int width_px = 1600, height_px = 1000;
    double dpi = 0;  ///< what the system says of the screen; 0: not known
  };
  /// Feeds the input, draws one frame and applies the commands. `elapsed_s`: since the frame before.
  void frame(Session& session, Size size, double elapsed_s);
  /// Frames are wanted still: input waits, a font size is missing, or a command was applied.
  bool unsettled() const { return unsettled_ > 0 || input.pending() || fonts_.wants_rebuild(); }
  void wake(int frames = 2) { unsettled_ = unsettled_ < frames ? frames : unsettled_; }

  const ImDrawData& drawn() const { return *ImGui::GetDrawData(); }
  ImU32 background(const Session& session) const;
  int font_generation() const { return fonts_.generation(); }
  ImFontAtlas& atlas() const { return *ImGui::GetIO().Fonts; }
  Ui& ui() { return ui_; }
  InputQueue input;

 private:
  ImGuiContext* context_;
  FontBook fonts_;
  Ui ui_;
  int unsettled_ = 3;
};

/// The frame as it settles, drawn into memory.
Raster settled_picture(Viewer& viewer, Session& session, Viewer::Size size);

/// Writes a PNG beside the path and renames it; nullopt when all went well, else one line that says what is
/// wrong.
std::optional<std::string> write_png(const Raster& raster, const std::string& path);

}  // namespace shutlane
