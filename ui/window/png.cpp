#include <cstdio>
#include <filesystem>
#include <fstream>
#include <vector>

#include "ui/window/viewer.hpp"

// stb's own code does not compile without warnings as ours must.
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wconversion"
#pragma GCC diagnostic ignored "-Wshadow"
#pragma GCC diagnostic ignored "-Wmissing-field-initializers"
#pragma GCC diagnostic ignored "-Wunused-function"
#define STB_IMAGE_WRITE_IMPLEMENTATION
#define STB_IMAGE_WRITE_STATIC
#include <stb_image_write.h>
#pragma GCC diagnostic pop

namespace shutlane {

std::optional<std::string> write_png(const Raster& raster, const std::string& path) {
  std::vector<char> bytes;
  auto take = [](void* into, void* data, int size) {
    const char* from = static_cast<const char*>(data);
    static_cast<std::vector<char>*>(into)->insert(static_cast<std::vector<char>*>(into)->end(), from,
                                                  from + size);
  };
  stbi_write_png_to_func(take, &bytes, raster.width(), raster.height(), 4, raster.pixels(),
                         raster.width() * 4);
  const std::string beside = path + ".part";
  {
    std::ofstream out(beside, std::ios::binary);
    out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    out.flush();
    if (!out) {
      std::remove(beside.c_str());
      return "cannot write " + path;
    }
  }
  std::error_code failed;
  std::filesystem::rename(beside, path, failed);
  if (!failed) return {};
  std::remove(beside.c_str());
  return "cannot write " + path;
}

}  // namespace shutlane
