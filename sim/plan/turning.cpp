#include "sim/plan/turning.hpp"

#include <algorithm>

#include "sim/cycle/angle.hpp"

namespace shutlane {

double usual_accuracy_deg(TurnBy turn_by, size_t cylinders) {
  const double roll_back_deg = cylinders == 0 ? kTurn_deg : kTurn_deg / static_cast<double>(cylinders);
  switch (turn_by) {
    case TurnBy::wrench:
    case TurnBy::bar:
      return std::max(kDefaultAccuracy_deg, std::min(roll_back_deg, 180.0));
    case TurnBy::road_wheel:  // the driveline's play comes on top; common practice, no source
      return std::max(30.0, std::min(roll_back_deg, 180.0));
    case TurnBy::starter:
      break;
  }
  return kTurn_deg;
}

}  // namespace shutlane
