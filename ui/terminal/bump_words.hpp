#pragma once
// What every verb about bumps of the starter says alike.
#include <array>
#include <string>

#include "ui/terminal/answer.hpp"
#include "ui/terminal/page.hpp"

namespace shutlane::terminal {

/// No bump, and why.
Answer no_bump(const std::string& word, const std::string& why, bool json);
std::string bump_cautions_in_words();

/// Where bumps come to rest over the cycle, 10 degrees a column, with a scale above. A column with any rest
/// at all shows it.
std::string rest_chart(const std::array<int, 720>& rests, const Style& style);

/// "one bump", "3 bumps".
std::string bumps_counted(size_t count);

}  // namespace shutlane::terminal
