#pragma once
// Turns and lists of ports in the words of the hand. Pure text, no markup; degrees stand in brackets beside
// them.
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

/// A turn as the hand feels it: "one full turn", "half a turn". A multiple of a quarter turn is named when it
/// is the turn itself, or when it may be off by `accuracy_deg` either way without leaving [min_deg, max_deg];
/// otherwise the turn is given in degrees.
std::string turn_in_words(double turn_deg, double min_deg, double max_deg, double accuracy_deg);

/// "anything from a good half to one and a half will do". The words never reach outside [min_deg, max_deg]:
/// "a good half" is at most 30 degrees (an hour on a clock face) past a half, "a scant" as much short. Empty
/// when the range is too narrow for words.
std::string range_in_words(double min_deg, double max_deg);

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
