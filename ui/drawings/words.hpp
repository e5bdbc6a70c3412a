#pragma once
// Lists of ports, angles and whole plans in words. Pure text, no markup. Turns are worded by
// sim/plan/turn_words.hpp.
#include <span>
#include <string>
#include <vector>

#include "sim/plan/wrench.hpp"

namespace shutlane {

/// "4", "3 and 6", "1, 2, 4 and 5"; empty for an empty list.
std::string list_in_words(std::span<const int> numbers);

/// "port 4", "ports 3 and 6".
std::string ports_in_words(std::span<const int> numbers);

/// An angle to the nearest half degree at most: "35°", "12.5°".
std::string degrees_in_words(double deg);

/// A small length: "1.27 mm", or to a ten-thousandth "0.05 in".
std::string small_length(double mm, bool inches);

/// One step of a plan in words.
struct PlanLine {
  enum class Kind {
    work,  ///< look and blast at a position
    turn,  ///< suck out and turn, on the way to a position
    end,   ///< after the last port
    none,  ///< there is no plan
  };
  Kind kind = Kind::work;
  size_t position = 0;  ///< index into the plan's positions, for work and turn
  std::string text;
};

/// The whole plan in the order of the work.
std::vector<PlanLine> plan_in_words(const WrenchPlan& plan, double accuracy_deg);

}  // namespace shutlane
