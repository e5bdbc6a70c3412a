#include "engines/reader.hpp"

#include <fmt/format.h>

#include "engines/reading.hpp"
#include "engines/words.hpp"

namespace shutlane {
namespace {

constexpr size_t kPartShown =
    300;  // of a message: a bank's name may stand in it, a whole list of cylinders too

}  // namespace

std::variant<Engine, std::vector<FileMistake>> read_engine(std::string_view text) {
  Reading reading = read_spec(text);
  auto& findings = reading.findings;
  if (findings.touched_any({"file", "syntax"})) return findings.take();
  if (findings.empty()) {
    auto built = build_engine(std::move(reading.spec));
    if (auto* engine = std::get_if<Engine>(&built)) return std::move(*engine);
    for (Mistake& mistake : std::get<std::vector<Mistake>>(built)) {
      const int line = findings.line_of(mistake.key);
      findings.remark(mistake.key, line, std::move(mistake.wrong), std::move(mistake.expected));
    }
    return findings.take();
  }
  fill_gaps(reading);
  for (const Mistake& mistake : mistakes_in(reading.spec))
    if (is_own(mistake, findings))
      findings.remark(mistake.key, findings.line_of(mistake.key), mistake.wrong, mistake.expected);
  return findings.take();
}

std::vector<FileMistake> at_lines(std::string_view text, const std::vector<Mistake>& mistakes) {
  const Reading reading = read_spec(text);
  std::vector<FileMistake> placed;
  for (const Mistake& mistake : mistakes) placed.push_back({reading.findings.line_of(mistake.key), mistake});
  return placed;
}

std::string message_of(const Mistake& mistake) {
  return fmt::format("{}; {}", one_line(mistake.wrong, kPartShown), one_line(mistake.expected, kPartShown));
}

std::string shown_key_of(const Mistake& mistake) { return one_line(mistake.key, kPartShown); }

std::string describe(const std::string& file, const std::vector<FileMistake>& mistakes) {
  const std::string name = one_line(file, 4096);
  std::string text;
  for (size_t i = 0; i < mistakes.size() && i < kMistakesShown; ++i) {
    const auto& [line, mistake] = mistakes[i];
    text += fmt::format("{}:{}: {}: {}\n", name, line, shown_key_of(mistake), message_of(mistake));
  }
  if (mistakes.size() > kMistakesShown)
    text += fmt::format("{}: and {} more\n", name, mistakes.size() - kMistakesShown);
  return text;
}

}  // namespace shutlane
