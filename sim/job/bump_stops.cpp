#include "sim/job/bump_stops.hpp"

#include "sim/job/evidence.hpp"

namespace shutlane {
namespace {

struct Row {
  std::vector<BumpStop> stops;
  bool gained = false;

  void bumped(const ArcSet& where, double press_s, bool timed) {
    stops.push_back({where, press_s, timed, gained});
    gained = false;
  }
  void anew() {
    stops.clear();
    gained = false;
  }
};

}  // namespace

std::vector<BumpStop> bump_stops(const JobModel& model, std::span<const JobEvent> events) {
  Row row;
  JobState state = start_job(model);
  for (const JobEvent& event : events) {
    if (!may(model, state, event)) continue;
    if (const auto* bump = std::get_if<Bumped>(&event)) {
      row.bumped(whereabouts(model, state).where, bump->press_s, bump->timed);
    } else if (const auto* press = std::get_if<PressStarted>(&event)) {
      row.bumped(whereabouts(model, state).where, press->press_s, true);
    } else if (std::holds_alternative<Turned>(event) || std::holds_alternative<TurnedTooFar>(event) ||
               std::holds_alternative<CrankMoved>(event)) {
      row.anew();
    } else if (const auto* cause = std::get_if<CauseChosen>(&event)) {
      if (cause->what == Suspicion::moved) row.anew();
    } else if (std::holds_alternative<PortDone>(event)) {
      row.gained = true;
    }
    state = after(model, std::move(state), event);
  }
  row.bumped(whereabouts(model, state).where, 0, false);
  return std::move(row.stops);
}

}  // namespace shutlane
