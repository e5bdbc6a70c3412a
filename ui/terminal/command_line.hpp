#pragma once
// The command line: words -> verbs. Anything wrong with the words is one line and exit status 2.
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "ui/terminal/answer.hpp"
#include "ui/terminal/page.hpp"

namespace shutlane::terminal {

/// Opens the window and returns the exit status, or nullopt when none can be opened (it has then said why on
/// standard error). Empty in a program built without a window.
using OpenWindow = std::function<std::optional<int>()>;

/// `words` without the program's name; none at all: the window, or a line that says there is none. Never
/// throws.
Answer run(const std::vector<std::string>& words, const Style& style, const OpenWindow& open_window);

/// Prints the answer to standard output and standard error and returns the exit status: kBadInput, with a
/// line on standard error, when standard output can't take it all.
int deliver(const Answer& answer);

}  // namespace shutlane::terminal
