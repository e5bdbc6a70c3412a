#include "engines/spelling.hpp"

#include <algorithm>
#include <optional>

#include "engines/catalog.hpp"

namespace shutlane {
namespace {

constexpr size_t kLettersCompared = 100;  // a hostile key of a megabyte must not cost a minute

}  // namespace

size_t edit_distance(std::string_view a, std::string_view b) {
  a = a.substr(0, kLettersCompared);
  b = b.substr(0, kLettersCompared);
  std::vector<size_t> two_back(b.size() + 1), back(b.size() + 1), row(b.size() + 1);
  for (size_t j = 0; j <= b.size(); ++j) back[j] = j;
  for (size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (size_t j = 1; j <= b.size(); ++j) {
      const size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({back[j] + 1, row[j - 1] + 1, back[j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[j] = std::min(row[j], two_back[j - 2] + 1);
    }
    std::swap(two_back, back);
    std::swap(back, row);
  }
  return back[b.size()];
}

std::string_view closest(std::string_view word, const std::vector<std::string_view>& candidates) {
  std::string_view best;
  size_t least = std::string_view::npos;
  for (const std::string_view candidate : candidates) {
    const size_t distance = edit_distance(word, candidate);
    if (distance < least) {
      least = distance;
      best = candidate;
    }
  }
  return best;
}

std::optional<std::string> nearest(std::string_view word, const std::vector<std::string>& candidates) {
  const std::string_view best = closest(word, {candidates.begin(), candidates.end()});
  // A slip changes a letter in three, and one letter of a very short word.
  const size_t slip = std::max<size_t>(1, std::max(word.size(), best.size()) / 3);
  if (best.empty() || edit_distance(word, best) > slip) return std::nullopt;
  return std::string(best);
}

}  // namespace shutlane
