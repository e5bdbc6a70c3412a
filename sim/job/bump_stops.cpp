#include "sim/job/bump_stops.hpp"

#include "sim/job/may.hpp"

namespace shutlane {
namespace {

bool is_moved(const JobEvent& event) {
  const auto* chalk = std::get_if<ChalkSeen>(&event);
  return chalk && !chalk->in_line;
}

struct Rows {
  std::vector<std::vector<BumpStop>> done;
  std::vector<BumpStop> now;
  bool gained = false;

  void stopped(const ArcSet& where, double press_s, bool timed) {
    now.push_back({where, press_s, timed, gained});
    gained = false;
  }
  void moved_otherwise(const ArcSet& where) {
    if (!now.empty()) {
      stopped(where, 0, false);
      done.push_back(std::move(now));
    }
    now.clear();
    gained = false;
  }
};

}  // namespace

std::vector<std::vector<BumpStop>> bump_rows(const JobModel& model, std::span<const JobEvent> events) {
  Rows rows;
  JobState state = start_job(model);
  for (const JobEvent& event : events) {
    if (!may(model, state, event)) continue;
    if (const auto* bump = std::get_if<Bumped>(&event)) {
      rows.stopped(state.here.where(model), bump->press_s, bump->timed);
    } else if (const auto* press = std::get_if<PressStarted>(&event)) {
      rows.stopped(state.here.where(model), press->press_s, true);
    } else if (std::holds_alternative<Turned>(event) || std::holds_alternative<CrankMoved>(event) ||
               is_moved(event)) {
      rows.moved_otherwise(state.here.where(model));
    } else if (const auto* cause = std::get_if<CauseChosen>(&event)) {
      if (cause->what == Suspicion::moved) rows.moved_otherwise(state.here.where(model));
    } else if (std::holds_alternative<PortDone>(event)) {
      rows.gained = true;
    }
    state = replayed(model, std::move(state), event);
  }
  rows.stopped(state.here.where(model), 0, false);
  rows.done.push_back(std::move(rows.now));
  return std::move(rows.done);
}

std::vector<BumpStop> bump_stops(const JobModel& model, std::span<const JobEvent> events) {
  return std::move(bump_rows(model, events).back());
}

}  // namespace shutlane
