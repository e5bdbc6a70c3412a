#include "ui/window/workbench/board.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace shutlane {
namespace {

constexpr size_t kMostRows = 2;  // more would leave no height for state words

/// Bank indices from the top row down, as seen from above with the pulley end on the left.
std::vector<size_t> banks_by_lean(const LayoutSpec& layout) {
  std::vector<size_t> order(layout.banks.size());
  std::iota(order.begin(), order.end(), size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](size_t a, size_t b) {
    const double ta = layout.banks[a].tilt_deg, tb = layout.banks[b].tilt_deg;
    return ta != tb ? ta < tb : a > b;
  });
  return order;
}

struct Placed {
  size_t cylinder;  ///< index into the engine's
  double along;     ///< from the pulley end
  size_t bank_rank;
};

/// The cylinders of several banks in one row, in the order in which they stand along the crank.
std::vector<Placed> interleaved(const Engine& engine, const std::vector<size_t>& banks) {
  std::vector<Placed> row;
  for (size_t i = 0; i < engine.cylinders.size(); ++i) {
    const Cylinder& c = engine.cylinders[i];
    const auto at = std::find(banks.begin(), banks.end(), c.bank);
    if (at == banks.end()) continue;
    const size_t length = engine.spec.layout.banks[c.bank].cylinders.size();
    row.push_back({i, (static_cast<double>(c.from_pulley) + 0.5) / static_cast<double>(length),
                   static_cast<size_t>(at - banks.begin())});
  }
  std::stable_sort(row.begin(), row.end(), [](const Placed& a, const Placed& b) {
    return std::abs(a.along - b.along) > 1e-9 ? a.along < b.along : a.bank_rank < b.bank_rank;
  });
  return row;
}

std::string names_of(const LayoutSpec& layout, const std::vector<size_t>& banks) {
  std::string names;
  for (const size_t b : banks) names += (names.empty() ? "" : " + ") + layout.banks[b].name;
  return names;
}

/// A radial: one cylinder a bank, round the crank; shown in number order, in two rows when there are many.
Board star_board(const Engine& engine) {
  Board board;
  const size_t n = engine.cylinders.size();
  board.rows = n > 5 ? 2 : 1;
  board.columns = (n + board.rows - 1) / board.rows;
  board.ends_marked = false;
  board.row_names.assign(board.rows, "");
  board.row_banks.assign(board.rows, {});
  for (size_t i = 0; i < n; ++i)
    board.cells.push_back({engine.cylinders[i].number, i % board.columns, i / board.columns});
  return board;
}

}  // namespace

Board lay_out_board(const Engine& engine, bool turned_round) {
  const LayoutSpec& layout = engine.spec.layout;
  const bool star = layout.banks.size() > 4;
  if (star) return star_board(engine);

  std::vector<std::vector<size_t>> rows;
  const std::vector<size_t> order = banks_by_lean(layout);
  if (order.size() <= kMostRows) {
    for (const size_t bank : order) rows.push_back({bank});
  } else {
    rows.resize(kMostRows);
    for (size_t i = 0; i < order.size(); ++i) rows[i * kMostRows / order.size()].push_back(order[i]);
  }
  if (rows.size() == 1 && engine.cylinders.size() > 8) rows.push_back({});  // a long row is folded below

  Board board;
  std::vector<BoardCell> cells;
  for (size_t r = 0; r < rows.size(); ++r) {
    std::vector<Placed> row = interleaved(engine, rows[r]);
    for (size_t k = 0; k < row.size(); ++k) {
      cells.push_back({engine.cylinders[row[k].cylinder].number, k, r});
      board.columns = std::max(board.columns, k + 1);
    }
  }
  board.rows = rows.size();
  if (rows.size() == 2 && rows[1].empty()) {
    const size_t half = (cells.size() + 1) / 2;
    for (BoardCell& cell : cells) {
      cell.row = cell.column / half;
      cell.column %= half;
    }
    board.columns = half;
    rows[1] = rows[0];
  }
  if (turned_round)
    for (BoardCell& cell : cells) {
      cell.column = board.columns - 1 - cell.column;
      cell.row = board.rows - 1 - cell.row;
    }
  std::sort(cells.begin(), cells.end(),
            [](const BoardCell& a, const BoardCell& b) { return a.cylinder < b.cylinder; });
  board.cells = std::move(cells);
  if (turned_round) std::reverse(rows.begin(), rows.end());
  for (const std::vector<size_t>& row : rows) {
    board.row_banks.push_back(row);
    board.row_names.push_back(layout.banks.size() > 1 ? names_of(layout, row) : "");
  }
  return board;
}

}  // namespace shutlane
