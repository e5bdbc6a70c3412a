#include "engines/catalog.hpp"

#include <fmt/format.h>
#include <algorithm>

#include <fcntl.h>
#include <sys/stat.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <system_error>

#include "engines/guard.hpp"
#include "engines/spelling.hpp"
#include "engines/words.hpp"

namespace shutlane {
namespace {

std::optional<std::string> nearest_name(std::string_view word) {
  std::vector<std::string> names;
  for (const BundledFile& file : bundled_files()) names.emplace_back(file.name);
  // "v8" means one of the V8s, however many letters their names add.
  for (const std::string& name : names)
    if (!word.empty() && name.starts_with(word)) return name;
  return nearest(word, names);
}

std::variant<Engine, std::string> read_named(const std::string& name, std::string_view text) {
  auto read = read_engine(text);
  if (auto* engine = std::get_if<Engine>(&read)) return std::move(*engine);
  return describe(name, std::get<std::vector<FileMistake>>(read));
}

}  // namespace

std::variant<std::string, ReadFailure> read_file(const std::string& path) {
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (std::filesystem::is_directory(status)) return ReadFailure{"is a folder"};
  if (!std::filesystem::exists(status)) return ReadFailure{"there is no such file"};
  // A pipe would be waited for and a device read for ever. What is opened is asked again, without waiting: it
  // may have become another one meanwhile.
  const ReadFailure no_file{"is a device, a pipe or a socket, not a regular file"};
  if (!std::filesystem::is_regular_file(status)) return no_file;
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(
      descriptor < 0 ? nullptr : ::fdopen(descriptor, "rb"), &std::fclose);
  if (!file) return ReadFailure{"can't be opened: " + std::generic_category().message(errno)};
  struct stat opened {};
  if (::fstat(descriptor, &opened) != 0 || !S_ISREG(opened.st_mode)) return no_file;
  // It may grow while it is read, so the limit is kept while reading.
  std::string bytes(kFileBytes + 1, '\0');
  bytes.resize(std::fread(bytes.data(), 1, bytes.size(), file.get()));
  if (std::ferror(file.get())) return ReadFailure{"can't be read: " + std::generic_category().message(errno)};
  if (bytes.size() > kFileBytes) return ReadFailure{fmt::format("is longer than {} bytes", kFileBytes)};
  return bytes;
}

std::variant<std::string, ReadFailure> engine_text(const std::string& name_or_path) {
  for (const BundledFile& file : bundled_files())
    if (file.name == name_or_path) return std::string(file.text);
  return read_file(name_or_path);
}

bool is_bundled(std::string_view name) {
  const std::vector<BundledFile>& files = bundled_files();
  return std::any_of(files.begin(), files.end(), [&](const BundledFile& file) { return file.name == name; });
}

std::variant<Engine, std::string> find_engine(const std::string& name_or_path) {
  const auto read = engine_text(name_or_path);
  if (const auto* bytes = std::get_if<std::string>(&read)) return read_named(name_or_path, *bytes);
  const std::string shown = one_line(name_or_path, 4096);
  std::error_code error;
  if (name_or_path.find('/') == std::string::npos && !std::filesystem::exists(name_or_path, error)) {
    const auto near = nearest_name(name_or_path);
    return fmt::format("{}: is neither a bundled engine nor a file; {}\n", shown,
                       near ? "the nearest name is " + *near : "shutlane engines lists the bundled ones");
  }
  const auto near = nearest_name(std::filesystem::path(name_or_path).stem().string());
  return fmt::format("{}: {}; an engine file, or the name of a bundled engine{}\n", shown,
                     std::get<ReadFailure>(read).why,
                     near ? " such as " + *near : " (shutlane engines lists them)");
}

}  // namespace shutlane
