#include "ui/window/texts.hpp"

#include <fmt/format.h>

namespace shutlane::texts {

std::string pulley_end() { return "pulley end"; }
std::string gearbox_end() { return "gearbox end"; }

std::string bench(Bench bench) {
  switch (bench) {
    case Bench::work: return "Work";
    case Bench::teach: return "Teach";
    case Bench::explore: return "Explore";
  }
  return "";
}

std::string turn_by(TurnBy how) {
  switch (how) {
    case TurnBy::wrench: return "Wrench on the crank bolt";
    case TurnBy::bar: return "Bar on the flywheel";
    case TurnBy::road_wheel: return "Road wheel in a high gear";
    case TurnBy::starter: return "Starter by remote switch";
  }
  return "";
}

std::string turn_by_caution(TurnBy how) {
  switch (how) {
    case TurnBy::wrench: return "Forward only. With spark plugs in, the crank rolls back when the wrench lets go.";
    case TurnBy::bar: return "Forward only. Take the bar out before anything else is done.";
    case TurnBy::road_wheel: return "One wheel off the ground, the car on stands. Forward only.";
    case TurnBy::starter: return "Ignition and injection off, hands clear. Nobody knows where it rests.";
  }
  return "";
}

std::string margin_needs_reason() { return "A smaller safety margin needs a reason."; }
std::string demo_mark() { return "demo job, invented"; }
std::string what_if_out() { return "The what-if needle is out."; }
std::string what_if_second() { return "No advice is given while it is. The job's crank stands where it stood."; }
std::string put_needle_back() { return "Put the needle back"; }
std::string position(int number) { return fmt::format("position {}", number); }

std::string status(int done, int of, int position, int positions, double hours) {
  std::string said = fmt::format("{} of {} done \u00b7 position {}", done, of, position);
  if (positions > 0) said += fmt::format(" of {}", positions);
  const int minutes = static_cast<int>(hours * 60);
  if (hours >= 0) said += fmt::format(" \u00b7 {}:{:02} h", minutes / 60, minutes % 60);
  return said;
}

std::string state_set_aside(const std::string& path) {
  return fmt::format("The saved state could not be read. It was set aside as {}.", path);
}

std::string no_display() { return "no display: the window cannot open here"; }

}  // namespace shutlane::texts
