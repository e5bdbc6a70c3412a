// The board against layouts written out by hand.
#include "ui/window/workbench/board.hpp"

#include <gtest/gtest.h>

#include <set>

#include "engines/catalog.hpp"

namespace shutlane {
namespace {

/// Rows of numbers, 0 where a place is free.
std::vector<std::vector<int>> rows_of(const std::string& name, bool turned_round = false) {
  const Board board = lay_out_board(std::get<Engine>(find_engine(name)), turned_round);
  std::vector<std::vector<int>> rows(board.rows, std::vector<int>(board.columns, 0));
  for (const BoardCell& cell : board.cells) rows.at(cell.row).at(cell.column) = cell.cylinder;
  return rows;
}

using Rows = std::vector<std::vector<int>>;

TEST(Board, OneRow) {
  EXPECT_EQ(rows_of("inline-six"), (Rows{{1, 2, 3, 4, 5, 6}}));
  EXPECT_EQ(rows_of("inline-six", true), (Rows{{6, 5, 4, 3, 2, 1}}));
  EXPECT_EQ(rows_of("straight-eight"), (Rows{{1, 2, 3, 4, 5, 6, 7, 8}}));
}

/// Seen from above with the pulley end on the left, what leans right (seen from the pulley end) lies below.
TEST(Board, TwoBanks) {
  const Engine v8 = std::get<Engine>(find_engine("v8-cross-plane"));
  Rows expected(2);
  for (const BankSpec& bank : v8.spec.layout.banks) expected[bank.tilt_deg > 0 ? 1 : 0] = bank.cylinders;
  EXPECT_EQ(rows_of("v8-cross-plane"), expected);
  Rows turned{{expected[1].rbegin(), expected[1].rend()}, {expected[0].rbegin(), expected[0].rend()}};
  EXPECT_EQ(rows_of("v8-cross-plane", true), turned);
}

TEST(Board, EveryBundledEngineHasAPlaceOfItsOwnForEachPort) {
  for (const BundledFile& file : bundled_files()) {
    const std::string name(file.name);
    const Engine engine = std::get<Engine>(find_engine(name));
    const Board board = lay_out_board(engine, false);
    std::set<std::pair<size_t, size_t>> places;
    std::set<int> numbers;
    for (const BoardCell& cell : board.cells) {
      places.insert({cell.row, cell.column});
      numbers.insert(cell.cylinder);
      EXPECT_LT(cell.row, board.rows) << name;
      EXPECT_LT(cell.column, board.columns) << name;
    }
    EXPECT_EQ(places.size(), engine.cylinders.size()) << name;
    EXPECT_EQ(numbers.size(), engine.cylinders.size()) << name;
    EXPECT_LE(board.rows, 2u) << name;
  }
}

}  // namespace
}  // namespace shutlane
