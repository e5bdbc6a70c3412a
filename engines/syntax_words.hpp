#pragma once
// What is wrong with a line that is not TOML, in the words of this program.
#include <string>
#include <string_view>

namespace shutlane {

struct SyntaxWords {
  std::string wrong, expected;
};

/// From the parser's own description. A description that is not known becomes a plain general sentence: the
/// parser's words never reach the reader.
SyntaxWords syntax_words(std::string_view description);

}  // namespace shutlane
