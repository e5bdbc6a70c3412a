#pragma once
// Where can the crank stand, given what was seen? Exact sets of arcs, with every tolerance and the eye's
// limit.
#include <optional>

#include "sim/witness/port_sets.hpp"

namespace shutlane {

inline constexpr double kDefaultMark_deg = 5.0;

struct Looks {
  std::vector<int> shut, open;  ///< cylinder numbers; a port that can't be seen is in neither
  double eye_mm = kDefaultEye_mm;
  std::optional<MarkRead> mark;
};

/// A smallest set of looks that cannot all be true.
struct Contradiction {
  std::vector<int> shut, open;
  bool mark = false;
};

struct Location {
  ArcSet consistent;
  std::vector<int> surely_shut, witnessed, surely_open, undecided;
  std::optional<int> next_look;
  std::optional<Contradiction> contradiction;  ///< when set, nothing else is
};

Location locate(const Engine& engine, const Looks& looks);

}  // namespace shutlane
