#pragma once
// Engine files (TOML 1.0, format = 1): text -> engine, with every mistake in one run.
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "sim/mechanism/engine.hpp"

namespace shutlane {

struct FileMistake {
  int line = 0;  ///< 1-based; a missing key stands at its table's line
  Mistake mistake;
};

inline constexpr size_t kMistakesShown = 50;
inline constexpr size_t kValueShown = 60;  ///< characters of a wrong value that are repeated

/// Reads the text of an engine file. All mistakes come back together, in the order of their lines.
std::variant<Engine, std::vector<FileMistake>> read_engine(std::string_view text);

/// Mistakes or doubts about the engine of `text`, each at its line.
std::vector<FileMistake> at_lines(std::string_view text, const std::vector<Mistake>& mistakes);

/// "what is wrong; what is expected" on one line, cut to length; and the key so.
std::string message_of(const Mistake& mistake);
std::string shown_key_of(const Mistake& mistake);

/// `FILE:LINE: KEY: what is wrong; what is expected`, a line each, at most kMistakesShown, then how many
/// more.
std::string describe(const std::string& file, const std::vector<FileMistake>& mistakes);

/// The spec as an engine file that reads back equal.
std::string write_engine(const EngineSpec& spec);

}  // namespace shutlane
