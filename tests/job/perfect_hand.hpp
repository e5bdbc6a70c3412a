#pragma once
// A hand that follows the advice and presses what is true: an eye that sees the least lift, turns that end
// within five degrees of their aim, chalk that nobody breaks. The truth is the hidden crank's.
#include <cmath>
#include <optional>
#include <random>
#include <string>

#include "sim/job/advice.hpp"
#include "tests/job/hidden_crank.hpp"

namespace shutlane {

class PerfectHand {
 public:
  PerfectHand(const JobModel& job_model, std::mt19937_64& random, bool has_mark)
      : model(job_model),
        state(start_job(job_model)),
        crank(job_model.engine, 0, random),
        has_mark_(has_mark) {}

  /// What happened before, on record.
  void begin(const std::vector<JobEvent>& events) { state = fold(model, events); }

  const JobModel& model;
  JobState state;
  HiddenCrank crank;

  Saw eye(int port) const { return crank.lift_mm(port) == 0 ? Saw::shut : Saw::open; }

  /// The press that says what really is; nullopt: none of those offered does.
  std::optional<Press> press(const Advice& advice) {
    for (const Press& offered : advice.told())
      if (is_true(advice, offered)) return offered;
    return {};
  }

  /// Does it at the engine, then tells it. False: one of its events is refused.
  bool tell(const Press& press) {
    for (const JobEvent& event : press.tells) {
      if (!may(model, state, event)) return false;
      if (const auto* turned = std::get_if<Turned>(&event); turned && !turns_to_mark(press)) {
        const double aim_deg = (turned->min_deg + turned->max_deg) / 2;
        const double off_deg = std::min(5.0, (turned->max_deg - turned->min_deg) / 2);
        crank.turn(aim_deg - off_deg, aim_deg + off_deg);
      }
      if (std::holds_alternative<MarkRead>(event)) {
        const bool on_by_a_turn = std::get_if<Turned>(&press.tells.front()) &&
                                  std::get<Turned>(press.tells.front()).max_deg < kCycle_deg;
        crank.set(std::fmod(
            360 * std::floor(crank.at_deg() / 360 + (on_by_a_turn ? 1.5 : 1)) + crank.uniform(-2, 2), 720.0));
      }
      state = after(model, std::move(state), event);
    }
    return true;
  }

 private:
  static bool turns_to_mark(const Press& press) {
    return std::any_of(press.tells.begin(), press.tells.end(),
                       [](const JobEvent& event) { return std::holds_alternative<MarkRead>(event); });
  }

  Lobe lobe(int cylinder) const {
    const double nose_deg = crank.nose_deg(cylinder);
    return nose_deg > 135 ? Lobe::away : nose_deg < 45 ? Lobe::at_valve : Lobe::unclear;
  }

  bool is_true(const Advice& advice, const Press& offered) const {
    const JobEvent& first = offered.tells.front();
    if (const auto* look = std::get_if<LookedInto>(&first)) return look->saw == eye(look->cylinder);
    if (const auto* seen = std::get_if<LobeSeen>(&first)) return seen->points == lobe(seen->cylinder);
    if (const auto* chalk = std::get_if<ChalkSeen>(&first)) return chalk->in_line;
    if (advice.stage == Stage::mark)
      return has_mark_ ? turns_to_mark(offered) : std::holds_alternative<NoMark>(offered.tells.back());
    return true;  // the first button is what is advised
  }

  bool has_mark_;
};

}  // namespace shutlane
