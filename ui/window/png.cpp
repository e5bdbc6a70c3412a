#include <cairo.h>

#include <string>

#include "ui/disk/write_file.hpp"
#include "ui/window/viewer.hpp"

namespace shutlane {
namespace {

std::string png_bytes(const Raster& raster) {
  cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_RGB24, raster.width(), raster.height());
  cairo_surface_flush(surface);
  unsigned char* to = cairo_image_surface_get_data(surface);
  const int stride = cairo_image_surface_get_stride(surface);
  for (int y = 0; to && y < raster.height(); ++y) {
    auto* row = reinterpret_cast<std::uint32_t*>(to + static_cast<ptrdiff_t>(y) * stride);
    const std::uint32_t* from = raster.pixels() + static_cast<ptrdiff_t>(y) * raster.width();
    for (int x = 0; x < raster.width(); ++x)  // cairo keeps red in the high byte, we keep it in the low one
      row[x] = ((from[x] & 255) << 16) | (from[x] & 0xff00) | ((from[x] >> 16) & 255);
  }
  cairo_surface_mark_dirty(surface);
  std::string bytes;
  auto take = [](void* into, const unsigned char* data, unsigned size) {
    static_cast<std::string*>(into)->append(reinterpret_cast<const char*>(data), size);
    return CAIRO_STATUS_SUCCESS;
  };
  const cairo_status_t status = cairo_surface_write_to_png_stream(surface, take, &bytes);
  cairo_surface_destroy(surface);
  if (status != CAIRO_STATUS_SUCCESS) bytes.clear();
  return bytes;
}

}  // namespace

std::optional<std::string> write_png(const Raster& raster, const std::string& path) {
  const std::string bytes = png_bytes(raster);
  if (bytes.empty()) return path + ": cannot be drawn";
  return write_whole_file(path, bytes);
}

}  // namespace shutlane
