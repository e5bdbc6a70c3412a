#include "ui/drawings/bump_words.hpp"

#include <fmt/format.h>

#include <cmath>

#include "ui/drawings/words.hpp"

namespace shutlane {
namespace {

constexpr double kMostLikely = 0.8, kPerhaps = 0.4;

static_assert(kMostBumpCylinders <= 8 * sizeof(PortSet), "a bit a port");

double hundredths(double s) { return std::round(s * 100) / 100; }

}  // namespace

std::string seconds_in_words(double s) { return fmt::format("{}", hundredths(s)); }

std::string nearly_as_good_in_words(const BumpPlan& plan) {
  // The presses reckoned stand on hundredths; were they not, the range would be told narrower than it is.
  const double low_s = std::ceil(plan.press_min_s * 100 - 1e-6) / 100;
  const double high_s = std::floor(plan.press_max_s * 100 + 1e-6) / 100;
  if (high_s <= low_s) return "no other press that was reckoned is nearly as good";
  return fmt::format("anything from {} to {} s is nearly as good", seconds_in_words(low_s),
                     seconds_in_words(high_s));
}

std::string first_bump_in_words(const BumpPlan& plan) {
  if (plan.finish_first >= kMostLikely) return "one bump will most likely do";
  if (plan.finish_first >= kPerhaps) return "one bump may do, reckon with a second one";
  return "it will most likely take more than one bump";
}

std::string no_bump_plan_in_words(const BumpPlan& plan, double margin_deg) {
  if (plan.may_never_end)
    return "bumps alone are not certain to bring every port that is left to where it is surely shut";
  return fmt::format(
      "with a margin of {} degrees the stretch where the valves are surely shut is too short for {}",
      hundredths(margin_deg), ports_in_words(plan.no_plan));
}

std::string too_many_for_bumps_in_words() {
  return fmt::format("bumps are planned for up to {} cylinders", kMostBumpCylinders);
}

}  // namespace shutlane
