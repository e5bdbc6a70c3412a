#include "ui/window/raster.hpp"

#include <algorithm>

#include "ui/window/raster_blend.hpp"

namespace shutlane {

void Raster::resize(int width, int height) {
  width_ = std::max(1, width);
  height_ = std::max(1, height);
  pixels_.assign(static_cast<size_t>(width_) * static_cast<size_t>(height_), kOpaque);
  tiles_.forget();
}

void Raster::use_fonts(ImFontAtlas& atlas) {
  unsigned char* bytes = nullptr;
  atlas.GetTexDataAsAlpha8(&bytes, &texture_width_, &texture_height_);
  texture_ = bytes;
  ++textures_;
}

Filler Raster::filler() {
  Filler filler;
  filler.pixels = pixels_.data();
  filler.stride = width_;
  filler.texture = texture_;
  filler.texture_width = texture_width_;
  filler.texture_height = texture_height_;
  return filler;
}

void Raster::draw(const ImDrawData& data, ImU32 background) {
  tiles_.forget();
  std::fill(pixels_.begin(), pixels_.end(), background | kOpaque);
  Filler fill = filler();
  for (int n = 0; n < data.CmdListsCount; ++n) {
    const ImDrawList& list = *data.CmdLists[n];
    for (const ImDrawCmd& command : list.CmdBuffer) {
      if (command.UserCallback) continue;
      fill.clip = clip_of(command, width_, height_);
      if (fill.clip.empty()) continue;
      const ImDrawVert* v = list.VtxBuffer.Data + command.VtxOffset;
      each_shape(v, list.IdxBuffer.Data + command.IdxOffset, command.ElemCount,
                 [&](const ImDrawIdx* i, bool rectangle) {
                   if (rectangle)
                     fill.rectangle(v, i);
                   else
                     fill.triangle(v[i[0]], v[i[1]], v[i[2]]);
                 });
    }
  }
}

const std::vector<PixelBox>& Raster::update(const ImDrawData& data, ImU32 background) {
  background |= kOpaque;
  tiles_.sort(data, width_, height_, (textures_ << 32) | background);
  Filler fill = filler();
  for (const PixelBox& part : tiles_.changed()) tiles_.fill(fill, part, background);
  return tiles_.changed();
}

}  // namespace shutlane
