#include "engines/syntax_words.hpp"

#include <array>

#include "engines/words.hpp"

namespace shutlane {
namespace {

struct Rule {
  std::string_view within;  ///< what is being read: the parser's "Error while parsing WITHIN: SAID"; "" any
  std::string_view said;    ///< part of what it says of it; "" any
  std::string_view wrong, expected;
};

constexpr std::string_view kToml = "TOML 1.0";
constexpr std::string_view kAValue = "a number, a text in quotes, true, false or a list in brackets";
constexpr std::string_view kANumber = "a number such as 12.0 or -3";

/// The first that fits counts.
constexpr std::array kRules{
    Rule{"", "nested value depth", "brackets nested too deep", kToml},
    Rule{"string", "escape sequence",
         "a backslash in a text stands before a letter that it means nothing with",
         "\\\\ for a backslash, or the text in single quotes"},
    Rule{"unicode scalar", "", "\\u or \\U is not followed by the number of a character",
         "\\u and four hex digits"},
    Rule{"string", "surrogate", "a text holds what is no character", "plain UTF-8 text"},
    Rule{"string", "", "a text is not closed on its line", "a closing quote"},
    Rule{"comment", "", "a comment holds a character that no text may hold", "plain UTF-8 text"},
    Rule{"table header", "array-of-table", "the two brackets of a section's name stand apart",
         "[[name]] without spaces between the brackets"},
    Rule{"table header", "blank", "a section has no name", "a name, such as [cylinder]"},
    Rule{"table header", "expected a comment", "something follows a section's name on its line",
         "nothing but a # comment"},
    Rule{"table header", "", "a section's name is not closed", "brackets around a name, such as [cylinder]"},
    Rule{"", "closing ']', saw comma", "a list holds two commas in a row", "a value between commas"},
    Rule{"", "multi-line strings", "a key is written as a text of several lines", "a key on one line"},
    Rule{"date", "", "a number is followed by what belongs to a date", kANumber},
    Rule{"time", "", "a number is followed by what belongs to a time of day", kANumber},
    Rule{"", "leading zero", "a number begins with 0", kANumber},
    Rule{"", "underscores", "a number holds a _ that does not stand between digits", kANumber},
    Rule{"", "64 bits", "a number has too many digits", kANumber},
    Rule{"", "length limit", "a number has too many digits", kANumber},
    Rule{"", "too long to identify", "a number has too many digits", kANumber},
    Rule{"floating-point", "", "a number is not written as one", kANumber},
    Rule{"integer", "", "a number is not written as one", kANumber},
    Rule{"boolean", "", "a value is neither true nor false, and has no quotes", kAValue},
    Rule{"", "expected '='", "a key is not followed by =", "KEY = VALUE on one line"},
    Rule{"", "expected a comment or whitespace", "something follows the value on its line",
         "one KEY = VALUE a line, and a decimal point, no comma, in numbers"},
    Rule{"array", "", "a list is not written as one", "values between [ and ], with commas between them"},
    Rule{"inline table", "", "what stands in { } is not written as it must be",
         "KEY = VALUE with commas between them, on one line"},
    Rule{"key-value pair", "end-of-file", "the file ends where a value should stand", kAValue},
    Rule{"", "could not", "a value is not written as one", kAValue},
    Rule{"", "expected value", "a value is not written as one", kAValue},
    Rule{"value", "", "a value is not written as one", kAValue},
    Rule{"", "bare key", "a key begins with a character that none may begin with",
         "letters, digits, - and _ in keys"},
    Rule{"", "expected keys", "a line is neither a key with its value nor a section",
         "KEY = VALUE or [section]"},
    Rule{"", "", "this line is not written as it must be", kToml},
};

/// The last thing between single quotes; empty where there is none.
std::string_view last_quoted(std::string_view text) {
  const size_t to = text.rfind('\'');
  const size_t from = to == std::string_view::npos || to == 0 ? to : text.rfind('\'', to - 1);
  return from == std::string_view::npos || from == to ? "" : text.substr(from + 1, to - from - 1);
}

}  // namespace

SyntaxWords syntax_words(std::string_view description) {
  constexpr std::string_view kOpening = "Error while parsing ";
  std::string_view within, said = description;
  if (description.starts_with(kOpening)) {
    const size_t colon = description.find(": ");
    within = description.substr(kOpening.size(), colon - kOpening.size());
    said = colon == std::string_view::npos ? "" : description.substr(colon + 2);
  }
  constexpr size_t kNameShown = 60;
  if (said.starts_with("cannot redefine") || said.starts_with("cannot insert")) {
    const std::string name = one_line(last_quoted(said), kNameShown);
    return {name.empty() ? "stands in the file a second time" : name + " stands in the file a second time",
            "each key and each section once, lists of sections in [[ ]]"};
  }
  for (const Rule& rule : kRules)
    if (within.find(rule.within) != std::string_view::npos && said.find(rule.said) != std::string_view::npos)
      return {std::string(rule.wrong), std::string(rule.expected)};
  return {};  // the last rule fits everything
}

}  // namespace shutlane
