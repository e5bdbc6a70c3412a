#pragma once
// The engine's ports as seen from above: where each card lies, for any layout up to sixteen cylinders.
#include <string>
#include <vector>

#include "sim/mechanism/engine.hpp"
#include "ui/drawings/canvas.hpp"

namespace shutlane {

struct BoardCell {
  int cylinder = 0;
  size_t column = 0, row = 0;
};

struct Board {
  size_t columns = 0, rows = 0;
  std::vector<BoardCell> cells;        ///< in number order
  std::vector<std::string> row_names;  ///< of the banks in each row; empty names for a single row
  std::vector<std::vector<size_t>> row_banks;
  bool ends_marked = true;  ///< false for a radial: its rows do not run along the crank
};

/// Banks become rows: seen from above with the pulley end on the left, the bank that leans furthest right
/// (seen from the pulley end) lies at the bottom. Narrow or fourfold banks that would make rows too low share
/// one, interleaved along the crank as they stand. `turned_round`: seen from the other side, pulley end on
/// the right.
Board lay_out_board(const Engine& engine, bool turned_round);

}  // namespace shutlane
