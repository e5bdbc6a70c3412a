#pragma once
// The letters as a texture of one byte a pixel. Dear ImGui's own backend takes four, which costs four times
// the memory, and most of the time until the first frame where OpenGL is done by software.
#include <imgui.h>

namespace shutlane {

class GlLetters {
 public:
  ~GlLetters();
  /// Makes what Dear ImGui's backend needs besides, with a texture of one pixel in place of the letters.
  static void start_backend();
  /// False where OpenGL is too old (3.3 is needed): the backend's own way is left.
  static bool can();
  /// After every rebuild of the atlas.
  void take(ImFontAtlas& atlas);

 private:
  unsigned texture_ = 0;
};

}  // namespace shutlane
