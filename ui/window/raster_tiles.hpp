#pragma once
// Which parts of a frame differ from the frame before. The picture is cut into tiles; each keeps a hash of
// all that touches it, in drawing order: the corners with their colours and places in the texture, and the
// clip. Tiles whose hash stays the same would come out the same and need not be filled again. (Two different
// tiles share a hash by chance once in 2^64 comparisons.)
#include <imgui.h>

#include <cstdint>
#include <vector>

#include "ui/window/raster_fill.hpp"

namespace shutlane {

class RasterTiles {
 public:
  static constexpr int kWidth = 32, kHeight = 32;  ///< of a tile, in pixels

  /// All tiles differ from whatever comes next.
  void forget() { hashes_.clear(); }
  /// Sorts the frame into the tiles. `seed`: of all that changes every tile (background, texture).
  void sort(const ImDrawData& data, int width, int height, std::uint64_t seed);
  /// The parts that differ from the frame sorted before, each one tile high, left to right and downwards.
  const std::vector<PixelBox>& changed() const { return changed_; }
  /// Fills one of them, background and all.
  void fill(Filler& filler, const PixelBox& part, std::uint32_t background) const;

 private:
  struct Command {
    const ImDrawVert* vertices;
    PixelBox clip;
  };
  /// A triangle or rectangle and the columns of tiles that it touches in one row of tiles, both included.
  struct Entry {
    const ImDrawIdx* indices;
    std::uint32_t command;
    std::uint16_t rectangle : 1, first : 15, last;
  };
  void sort_command(const ImDrawCmd& command, const ImDrawList& list);
  void add_rectangle(const ImDrawVert* v, const ImDrawIdx* i, std::uint64_t hash);
  void add_triangle(const ImDrawVert* v, const ImDrawIdx* i, std::uint64_t hash);
  void touch(int tile_row, int x0, int x1, const ImDrawIdx* indices, bool rectangle, std::uint64_t hash);
  void compare();

  int width_ = 0, height_ = 0, columns_ = 0, rows_ = 0;
  std::vector<std::uint64_t> hashes_, before_, vertex_hashes_;
  std::vector<Command> commands_;
  std::vector<std::vector<Entry>> entries_;  ///< by row of tiles, in drawing order
  std::vector<PixelBox> changed_;
};

}  // namespace shutlane
