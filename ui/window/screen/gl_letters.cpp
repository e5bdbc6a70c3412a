#include "ui/window/screen/gl_letters.hpp"

#include <SDL_opengl.h>
#include <imgui_impl_opengl3.h>

#include <cstdint>
#include <cstdio>

namespace shutlane {

GlLetters::~GlLetters() {
  if (texture_) glDeleteTextures(1, &texture_);
}

bool GlLetters::can() {
  const GLubyte* version = glGetString(GL_VERSION);
  int major = 0, minor = 0;
  return version && std::sscanf(reinterpret_cast<const char*>(version), "%d.%d", &major, &minor) == 2 &&
         10 * major + minor >= 33;
}

void GlLetters::start_backend() {
  ImFontAtlas one_pixel;
  one_pixel.TexWidth = one_pixel.TexHeight = 1;
  one_pixel.TexPixelsRGBA32 =
      static_cast<unsigned*>(ImGui::MemAlloc(sizeof(unsigned)));  // freed by the atlas
  *one_pixel.TexPixelsRGBA32 = 0xffffffffu;
  ImGuiIO& io = ImGui::GetIO();
  ImFontAtlas* letters = io.Fonts;
  io.Fonts = &one_pixel;
  ImGui_ImplOpenGL3_NewFrame();  // makes all it needs on its first call
  io.Fonts = letters;
}

void GlLetters::take(ImFontAtlas& atlas) {
  unsigned char* bytes = nullptr;
  int width = 0, height = 0;
  atlas.GetTexDataAsAlpha8(&bytes, &width, &height);
  if (!texture_) glGenTextures(1, &texture_);
  glBindTexture(GL_TEXTURE_2D, texture_);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
  glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
  const GLint white_and_alpha[] = {GL_ONE, GL_ONE, GL_ONE, GL_RED};
  glTexParameteriv(GL_TEXTURE_2D, GL_TEXTURE_SWIZZLE_RGBA, white_and_alpha);
  glPixelStorei(GL_UNPACK_ROW_LENGTH, 0);
  glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
  glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, width, height, 0, GL_RED, GL_UNSIGNED_BYTE, bytes);
  atlas.SetTexID(reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(texture_)));
}

}  // namespace shutlane
