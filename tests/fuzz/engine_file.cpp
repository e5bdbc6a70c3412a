// Any bytes as an engine file: the reader ends, and its answer keeps its promises.
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <cstdlib>

#include "engines/guard.hpp"
#include "engines/reader.hpp"
#include "engines/words.hpp"

namespace {

void require(bool holds, const char* what) {
  if (holds) return;
  std::fprintf(stderr, "broken promise: %s\n", what);
  std::abort();
}

void look_at(const std::vector<shutlane::FileMistake>& mistakes, std::string_view text) {
  require(!mistakes.empty(), "no engine means at least one mistake");
  const int last_line = 1 + static_cast<int>(std::count(text.begin(), text.end(), '\n'));
  int line_before = 1;
  for (const shutlane::FileMistake& mistake : mistakes) {
    require(mistake.line >= line_before && mistake.line <= last_line, "lines rise and are lines of the file");
    require(!mistake.mistake.key.empty(), "a mistake has a key");
    require(!mistake.mistake.wrong.empty() && !mistake.mistake.expected.empty(),
            "and says what and what else");
    line_before = mistake.line;
  }
  const std::string told = describe("file", mistakes);
  const size_t lines = static_cast<size_t>(std::count(told.begin(), told.end(), '\n'));
  require(lines == std::min(mistakes.size(), shutlane::kMistakesShown + 1),
          "a line each, at most fifty and one");
  std::string words = told;
  std::erase(words, '\n');
  require(!shutlane::has_control(words), "no control characters");
  require(shutlane::first_not_utf8(words) == std::string::npos, "UTF-8");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto read = shutlane::read_engine(text);
  if (const auto* mistakes = std::get_if<std::vector<shutlane::FileMistake>>(&read)) {
    look_at(*mistakes, text);
    return 0;
  }
  const auto& engine = std::get<shutlane::Engine>(read);
  const auto again = shutlane::read_engine(write_engine(engine.spec));
  require(std::holds_alternative<shutlane::Engine>(again), "what is written can be read");
  require(std::get<shutlane::Engine>(again).spec == engine.spec, "and is the same engine");
  for (const auto& doubt : at_lines(text, doubts_about(engine)))
    require(doubt.line >= 1, "doubts have lines");
  return 0;
}
