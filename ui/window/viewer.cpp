#include "ui/window/viewer.hpp"

#include <algorithm>

namespace shutlane {

Viewer::Viewer(bool draft) : context_(ImGui::CreateContext()), ui_(fonts_) {
  ImGui::SetCurrentContext(context_);  // making one does not make it the current one
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  ImGui::GetStyle().AntiAliasedLinesUseTex = false;  // bends of lines taken from the atlas come out torn
  io.ConfigInputTextCursorBlink = false;             // a blinking cursor would cost frames
  io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
  InputQueue::prepare(io);
  fonts_.rebuild(*io.Fonts);
  fonts_.draft = draft;
}

Viewer::~Viewer() { ImGui::DestroyContext(context_); }

void Viewer::frame(Session& session, Size size, double elapsed_s) {
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  if (fonts_.wants_rebuild()) fonts_.rebuild(*io.Fonts);
  io.DisplaySize = {static_cast<float>(size.width_px), static_cast<float>(size.height_px)};
  io.DeltaTime = static_cast<float>(std::clamp(elapsed_s, 1e-4, 60.0));
  input.feed(io);

  const Preferences& chosen = session.snapshot().document.preferences;
  Ui::Frame frame;
  frame.width_px = size.width_px;
  frame.height_px = size.height_px;
  frame.dpi = chosen.dpi > 0 ? chosen.dpi
              : size.dpi > 0 ? size.dpi
                             : assumed_dpi(size.width_px, size.height_px);
  frame.scale = chosen.scale;
  frame.theme = chosen.theme;
  ImGui::NewFrame();
  ui_.begin(frame, input);
  draw_frame(ui_, session);
  ui_.end();
  ImGui::Render();
  if (unsettled_ > 0) --unsettled_;
  if (session.apply() || ui_.out_of_date()) wake();
}

ImU32 Viewer::background(const Session& session) const {
  return packed(palette(session.snapshot().document.preferences.theme).background);
}

Raster settled_picture(Viewer& viewer, Session& session, Viewer::Size size) {
  constexpr int kMost = 200;
  viewer.wake(3);
  for (int n = 0; n < kMost && viewer.unsettled(); ++n) viewer.frame(session, size, 1.0 / 60);
  Raster raster;
  raster.resize(size.width_px, size.height_px);
  raster.use_fonts(viewer.atlas());
  raster.draw(viewer.drawn(), viewer.background(session));
  return raster;
}

}  // namespace shutlane
