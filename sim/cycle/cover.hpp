#pragma once
// The smallest number of rows whose masks together hold every column: exact, by iterative deepening, as long
// as the budget of work lasts.
#include <algorithm>
#include <bitset>
#include <optional>
#include <vector>

namespace shutlane {

/// What searches may do, together where they share it. Counted, not timed: an answer is the same on every
/// machine.
struct CoverBudget {
  long branches = 100'000;  ///< still to be had; a branch of a hundred rows takes about a microsecond
  bool proven = true;       ///< false: it ran out, and a cover may be larger than need be
};

template <size_t N>
class CoverSearch {
 public:
  using Mask = std::bitset<N>;

  CoverSearch(const std::vector<Mask>& masks, const Mask& wanted, CoverBudget& budget)
      : masks_(masks), budget_(budget) {
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
    for (size_t column = 0; column < N; ++column) {
      if (!wanted[column]) continue;
      Column c{column, 0, {}};
      for (const size_t i : useful_)
        if (masks[i][column]) {
          ++c.rows;
          c.beside |= masks[i];
        }
      columns_.push_back(c);
    }
    // The column that the fewest rows hold leaves the fewest branches.
    std::stable_sort(columns_.begin(), columns_.end(),
                     [](const Column& a, const Column& b) { return a.rows < b.rows; });
  }

  bool find(const Mask& left, size_t rows) {
    if (left.none()) return true;
    if (rows == 0 || budget_.branches <= 0) return false;
    --budget_.branches;
    size_t widest = 0;
    for (const size_t i : useful_) widest = std::max(widest, (masks_[i] & left).count());
    if (widest * rows < left.count() || at_least(left, rows) > rows) return false;
    const size_t column =
        std::find_if(columns_.begin(), columns_.end(), [&](const Column& c) { return left[c.at]; })->at;
    for (const size_t i : useful_) {
      if (!masks_[i][column]) continue;
      chosen.push_back(i);
      if (find(left & ~masks_[i], rows - 1)) return true;
      chosen.pop_back();
    }
    return false;
  }

  /// A cover, each row the one that holds most of what is left.
  std::vector<size_t> greedy(Mask left) const {
    std::vector<size_t> rows;
    while (left.any()) {
      const auto better = [&](size_t a, size_t b) {
        return (masks_[a] & left).count() < (masks_[b] & left).count();
      };
      rows.push_back(*std::max_element(useful_.begin(), useful_.end(), better));
      left &= ~masks_[rows.back()];
    }
    return rows;
  }

  std::vector<size_t> chosen;

 private:
  struct Column {
    size_t at, rows;
    Mask beside;  ///< every column that shares a row with it
  };

  /// Columns of which no two share a row want a row each. Counted until they are more than `enough`.
  size_t at_least(Mask left, size_t enough) const {
    size_t apart = 0;
    for (const Column& c : columns_) {
      if (!left[c.at]) continue;
      if (++apart > enough) break;
      left &= ~c.beside;
    }
    return apart;
  }

  const std::vector<Mask>& masks_;
  CoverBudget& budget_;
  std::vector<size_t> useful_;
  std::vector<Column> columns_;  // the one that the fewest rows hold first
};

/// Indices of at most `at_most` masks that together hold `wanted`, a smallest such set while the budget
/// lasts; nullopt when there is none, or none was found with what the budget allowed.
template <size_t N>
std::optional<std::vector<size_t>> smallest_cover(const std::vector<std::bitset<N>>& masks,
                                                  const std::bitset<N>& wanted, size_t at_most,
                                                  CoverBudget& budget) {
  std::bitset<N> together;
  for (const auto& mask : masks) together |= mask;
  if ((wanted & ~together).any()) return std::nullopt;
  CoverSearch<N> search(masks, wanted, budget);
  for (size_t rows = 0; rows <= at_most && budget.branches > 0; ++rows) {
    if (search.find(wanted, rows)) return search.chosen;
    search.chosen.clear();
  }
  if (budget.branches > 0) return std::nullopt;
  budget.proven = false;
  std::vector<size_t> large = search.greedy(wanted);
  if (large.size() > at_most) return std::nullopt;
  return large;
}

}  // namespace shutlane
