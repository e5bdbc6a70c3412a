#pragma once
// The smallest number of rows whose masks together hold every column: exact, by iterative deepening.
#include <algorithm>
#include <bitset>
#include <optional>
#include <vector>

namespace shutlane {

template <size_t N>
class CoverSearch {
 public:
  using Mask = std::bitset<N>;

  CoverSearch(const std::vector<Mask>& masks, const Mask& wanted) : masks_(masks) {
    // A mask inside another one is never needed (of equal masks the first stays).
    for (size_t i = 0; i < masks.size(); ++i) {
      const Mask mine = masks[i] & wanted;
      bool needed = mine.any();
      for (size_t j = 0; needed && j < masks.size(); ++j) {
        const Mask other = masks[j] & wanted;
        if (j != i && (mine & ~other).none() && (mine != other || j < i)) needed = false;
      }
      if (needed) useful_.push_back(i);
    }
  }

  bool find(const Mask& left, size_t rows) {
    if (left.none()) return true;
    if (rows == 0) return false;
    size_t widest = 0;
    for (const size_t i : useful_) widest = std::max(widest, (masks_[i] & left).count());
    if (widest * rows < left.count()) return false;
    const size_t column = rarest(left);
    for (const size_t i : useful_) {
      if (!masks_[i][column]) continue;
      chosen.push_back(i);
      if (find(left & ~masks_[i], rows - 1)) return true;
      chosen.pop_back();
    }
    return false;
  }

  std::vector<size_t> chosen;

 private:
  /// The column that the fewest rows hold leaves the fewest branches.
  size_t rarest(const Mask& left) const {
    size_t found = N, rows_of_found = useful_.size() + 1;
    for (size_t column = 0; column < N; ++column) {
      if (!left[column]) continue;
      size_t rows = 0;
      for (const size_t i : useful_) rows += masks_[i][column];
      if (rows < rows_of_found) {
        found = column;
        rows_of_found = rows;
      }
    }
    return found;
  }

  const std::vector<Mask>& masks_;
  std::vector<size_t> useful_;
};

/// Indices of at most `at_most` masks that together hold `wanted`, a smallest such set; nullopt when there is
/// none.
template <size_t N>
std::optional<std::vector<size_t>> smallest_cover(const std::vector<std::bitset<N>>& masks,
                                                  const std::bitset<N>& wanted, size_t at_most) {
  std::bitset<N> together;
  for (const auto& mask : masks) together |= mask;
  if ((wanted & ~together).any()) return std::nullopt;
  CoverSearch<N> search(masks, wanted);
  for (size_t rows = 0; rows <= at_most; ++rows)
    if (search.find(wanted, rows)) return search.chosen;
  return std::nullopt;
}

}  // namespace shutlane
