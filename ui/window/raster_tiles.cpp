#include "ui/window/raster_tiles.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>

namespace shutlane {
namespace {

constexpr float kFar_px =
    16384;  // beyond it, rounding of an edge may reach a pixel: such are taken to be everywhere

std::uint64_t mixed_in(std::uint64_t hash, std::uint64_t bits) {
  hash = (hash ^ bits) * 0x9e3779b97f4a7c15;
  return hash ^ (hash >> 29);
}

std::uint64_t hash_of(const ImDrawVert& v) {
  std::uint64_t place = 0, texture = 0;
  std::memcpy(&place, &v.pos, sizeof place);
  std::memcpy(&texture, &v.uv, sizeof texture);
  return mixed_in(mixed_in(mixed_in(0x243f6a8885a308d3, place), texture), v.col);
}

std::uint64_t hash_of(const PixelBox& b) {
  auto pair = [](int low, int high) {
    return static_cast<std::uint64_t>(static_cast<std::uint32_t>(low)) |
           (static_cast<std::uint64_t>(static_cast<std::uint32_t>(high)) << 32);
  };
  return mixed_in(mixed_in(0x13198a2e03707344, pair(b.x0, b.y0)), pair(b.x1, b.y1));
}

bool near(const ImDrawVert& v) { return std::fabs(v.pos.x) < kFar_px && std::fabs(v.pos.y) < kFar_px; }

/// How far a triangle reaches to the left and right.
struct Reach {
  float from = kFar_px, to = -kFar_px;
  void take(float x) {
    from = std::min(from, x);
    to = std::max(to, x);
  }
  /// Takes what lies of an edge between two heights.
  void take(ImVec2 a, ImVec2 b, float top, float bottom) {
    if (a.y > b.y) std::swap(a, b);
    if (b.y < top || a.y > bottom) return;
    const float per_y = a.y < b.y ? (b.x - a.x) / (b.y - a.y) : 0;
    take(a.y < top ? a.x + (top - a.y) * per_y : a.x);
    take(b.y > bottom ? a.x + (bottom - a.y) * per_y : b.x);
  }
};

}  // namespace

void RasterTiles::sort(const ImDrawData& data, int width, int height, std::uint64_t seed) {
  if (width != width_ || height != height_) forget();
  width_ = width, height_ = height;
  columns_ = (width + kWidth - 1) / kWidth;
  rows_ = (height + kHeight - 1) / kHeight;
  before_.swap(hashes_);
  hashes_.assign(static_cast<size_t>(columns_) * static_cast<size_t>(rows_), seed);
  entries_.resize(static_cast<size_t>(rows_));
  for (std::vector<Entry>& row : entries_) row.clear();
  commands_.clear();
  for (int n = 0; n < data.CmdListsCount; ++n) {
    const ImDrawList& list = *data.CmdLists[n];
    vertex_hashes_.resize(static_cast<size_t>(list.VtxBuffer.Size));
    for (int i = 0; i < list.VtxBuffer.Size; ++i)
      vertex_hashes_[static_cast<size_t>(i)] = hash_of(list.VtxBuffer.Data[i]);
    for (const ImDrawCmd& command : list.CmdBuffer) sort_command(command, list);
  }
  compare();
}

void RasterTiles::sort_command(const ImDrawCmd& command, const ImDrawList& list) {
  if (command.UserCallback) return;
  const PixelBox clip = clip_of(command, width_, height_);
  if (clip.empty()) return;
  const ImDrawVert* v = list.VtxBuffer.Data + command.VtxOffset;
  const std::uint64_t* hashes = vertex_hashes_.data() + command.VtxOffset;
  const std::uint64_t of_clip = hash_of(clip);
  commands_.push_back({v, clip});
  each_shape(v, list.IdxBuffer.Data + command.IdxOffset, command.ElemCount,
             [&](const ImDrawIdx* i, bool rectangle) {
               std::uint64_t hash = mixed_in(mixed_in(of_clip ^ hashes[i[0]], hashes[i[1]]), hashes[i[2]]);
               if (rectangle)
                 add_rectangle(v, i, mixed_in(hash, hashes[i[5]]));
               else
                 add_triangle(v, i, hash);
             });
}

void RasterTiles::add_rectangle(const ImDrawVert* v, const ImDrawIdx* i, std::uint64_t hash) {
  const PixelBox box = common(commands_.back().clip, box_of(v[i[0]].pos, v[i[2]].pos));
  if (box.empty()) return;
  for (int row = box.y0 / kHeight; row <= (box.y1 - 1) / kHeight; ++row)
    touch(row, box.x0, box.x1, i, true, hash);
}

void RasterTiles::add_triangle(const ImDrawVert* v, const ImDrawIdx* i, std::uint64_t hash) {
  const ImDrawVert &a = v[i[0]], &b = v[i[1]], &c = v[i[2]];
  if (is_flat(a, b, c)) return;
  const PixelBox& clip = commands_.back().clip;
  PixelBox box = clip;
  const bool exact = near(a) && near(b) && near(c);
  if (exact) {
    box = box_of(
        {std::min(a.pos.x, std::min(b.pos.x, c.pos.x)), std::min(a.pos.y, std::min(b.pos.y, c.pos.y))},
        {std::max(a.pos.x, std::max(b.pos.x, c.pos.x)), std::max(a.pos.y, std::max(b.pos.y, c.pos.y))});
    box = common(clip, {box.x0 - 1, box.y0, box.x1 + 1, box.y1});
  }
  if (box.empty()) return;
  const int first = box.y0 / kHeight, last = (box.y1 - 1) / kHeight;
  const bool narrow = first == last || box.x0 / kWidth == (box.x1 - 1) / kWidth;
  for (int row = first; row <= last; ++row) {
    int x0 = box.x0, x1 = box.x1;
    if (exact && !narrow) {
      Reach reach;
      const float top = static_cast<float>(row * kHeight), bottom = top + kHeight;
      reach.take(a.pos, b.pos, top, bottom);
      reach.take(b.pos, c.pos, top, bottom);
      reach.take(c.pos, a.pos, top, bottom);
      x0 = std::max(x0, static_cast<int>(std::max(reach.from, -1.0f)) - 2);
      x1 = std::min(x1, static_cast<int>(std::max(reach.to, -1.0f)) + 2);
    }
    if (x0 < x1) touch(row, x0, x1, i, false, hash);
  }
}

void RasterTiles::touch(int row, int x0, int x1, const ImDrawIdx* indices, bool rectangle,
                        std::uint64_t hash) {
  const int first = x0 / kWidth, last = (x1 - 1) / kWidth;
  entries_[static_cast<size_t>(row)].push_back({indices, static_cast<std::uint32_t>(commands_.size() - 1),
                                                rectangle, static_cast<std::uint16_t>(first & 0x7fff),
                                                static_cast<std::uint16_t>(last)});
  std::uint64_t* tiles = hashes_.data() + static_cast<ptrdiff_t>(row) * columns_;
  for (int column = first; column <= last; ++column) tiles[column] = mixed_in(tiles[column], hash);
}

void RasterTiles::compare() {
  changed_.clear();
  const bool all = before_.size() != hashes_.size();
  for (int row = 0; row < rows_; ++row) {
    const ptrdiff_t base = static_cast<ptrdiff_t>(row) * columns_;
    for (int column = 0; column < columns_;) {
      const int from = column;
      while (column < columns_ && (all || before_[static_cast<size_t>(base + column)] !=
                                              hashes_[static_cast<size_t>(base + column)]))
        ++column;
      if (column > from)
        changed_.push_back({from * kWidth, row * kHeight, std::min(width_, column * kWidth),
                            std::min(height_, (row + 1) * kHeight)});
      else
        ++column;
    }
  }
}

void RasterTiles::fill(Filler& filler, const PixelBox& part, std::uint32_t background) const {
  for (int y = part.y0; y < part.y1; ++y) {
    std::uint32_t* row = filler.pixels + static_cast<ptrdiff_t>(y) * filler.stride;
    std::fill(row + part.x0, row + part.x1, background);
  }
  const int first = part.x0 / kWidth, last = (part.x1 - 1) / kWidth;
  for (const Entry& entry : entries_[static_cast<size_t>(part.y0 / kHeight)]) {
    if (entry.last < first || entry.first > last) continue;
    const Command& command = commands_[entry.command];
    filler.clip = common(command.clip, part);
    if (filler.clip.empty()) continue;
    const ImDrawIdx* i = entry.indices;
    if (entry.rectangle)
      filler.rectangle(command.vertices, i);
    else
      filler.triangle(command.vertices[i[0]], command.vertices[i[1]], command.vertices[i[2]]);
  }
}

}  // namespace shutlane
