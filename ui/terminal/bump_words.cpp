#include "ui/terminal/bump_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/job/cautions.hpp"
#include "ui/terminal/json_text.hpp"
#include "ui/terminal/sentences.hpp"

namespace shutlane::terminal {
namespace {

constexpr size_t kColumnBins = 10;
constexpr int kRows = 6;
constexpr size_t kLeft = 5;  // as the lanes

}  // namespace

Answer no_bump(const std::string& word, const std::string& why, bool json) {
  return {.status = kNoAnswer,
          .out = json ? json_text({{"engine", word}, {"no_bump", why}})
                      : paragraph("", fmt::format(say::kNoBump, why))};
}

std::string bump_cautions_in_words() {
  std::string out = fmt::format("{}\n", say::kBeforeBump);
  for (const std::string_view caution : kBumpCautions) out += paragraph("  - ", caution);
  return out;
}

std::string rest_chart(const std::array<int, 720>& rests, const Style& style) {
  std::array<int, 720 / kColumnBins> columns{};
  for (size_t i = 0; i < rests.size(); ++i) columns[i / kColumnBins] += rests[i];
  const int most = std::max(1, *std::max_element(columns.begin(), columns.end()));
  std::string out;
  for (int row = kRows; row > 0; --row) {
    std::string line(kLeft, ' ');
    for (const int count : columns) {
      const int height = static_cast<int>(std::lround(static_cast<double>(count) * kRows / most));
      line += height >= row ? (style.unicode ? "█" : "#") : row == 1 && count > 0 ? "." : " ";
    }
    line.erase(line.find_last_not_of(' ') + 1);
    if (!line.empty()) out += line + "\n";
  }
  std::string scale(kLeft, ' ');
  for (const int at : {0, 180, 360, 540}) scale += fmt::format("{:<18}", at);
  return out + scale + "720\n";
}

std::string bumps_counted(size_t count) { return count == 1 ? "one bump" : fmt::format("{} bumps", count); }

}  // namespace shutlane::terminal
