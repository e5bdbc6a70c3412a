#include "sim/job/causes.hpp"

#include <algorithm>
#include <utility>

#include "sim/job/texts.hpp"

namespace shutlane {
namespace {

/// What was seen at this position, in order, and where the crank could stand before.
struct Told {
  JobState state;
  ArcSet before = ArcSet::all();
  std::vector<Observed> observed;
  bool paused = false;  ///< since the last of them
  void add(Observed o) {
    o.after_pause = std::exchange(paused, false);
    observed.push_back(o);
  }
  /// A pause stays one, whether or not the look after it does.
  template <class Which>
  void drop(Which which) {
    bool carried = false;
    std::vector<Observed> kept;
    for (Observed o : observed) {
      o.after_pause = o.after_pause || carried;
      carried = which(o) && o.after_pause;
      if (!which(o)) kept.push_back(o);
    }
    paused = paused || carried;
    observed = std::move(kept);
  }
};

Told told_by(const JobModel& model, std::span<const JobEvent> events) {
  Told told;
  told.state = start_job(model);
  for (const JobEvent& event : events) {
    told.state = replayed(model, std::move(told.state), event);
    const JobState& state = told.state;
    if (const auto* mark = std::get_if<MarkRead>(&event))
      told.add({0, false, mark->at_deg, mark->plus_minus_deg});
    if (std::holds_alternative<PortDone>(event) || std::holds_alternative<BlastStopped>(event))
      told.paused = true;
    if (const auto* look = std::get_if<LookedInto>(&event)) {
      told.drop([&](const Observed& o) { return o.cylinder == look->cylinder; });
      if (look->saw == Saw::shut || look->saw == Saw::open)
        told.add({look->cylinder, look->saw == Saw::shut});
    }
    // A move, or a cause that left nothing to go by: what was known before is all in the set now.
    if (state.just_moved || state.reckoned.full()) told.before = state.reckoned;
    if (state.just_moved) told.paused = false;
    told.drop([&](const Observed& o) {
      const JobPort* port = state.find(o.cylinder);
      return port ? !port->seen : state.just_moved || state.reckoned.full();
    });
  }
  return told;
}

std::vector<double> spread_over(const ArcSet& where) {
  std::vector<double> chances(kBeliefBins, 0.0);
  for (size_t bin = 0; bin < kBeliefBins; ++bin)
    if (where.contains(static_cast<double>(bin) * kBeliefStep_deg)) chances[bin] = 1;
  return chances;
}

OfferedCause mark_not_in_line() {
  OfferedCause cause;
  cause.name = texts::mark_misread();
  cause.check = texts::mark_check();
  cause.choose = {texts::look_again(), LooksForgotten{}};
  return cause;
}

bool of_a_look(Suspicion what) { return what == Suspicion::missed_look || what == Suspicion::wrong_port; }

OfferedCause offer(const JobModel& model, const Suspect& suspect, const std::vector<int>& mending) {
  CauseChosen chosen{suspect.what, suspect.cylinder, suspect.bank};
  OfferedCause cause;
  cause.what = suspect.what;
  if (of_a_look(suspect.what)) {
    if (std::find(mending.begin(), mending.end(), chosen.cylinder) == mending.end())
      chosen.cylinder = mending.empty() ? 0 : mending.front();
    for (const int other : mending)
      if (other != chosen.cylinder)
        cause.instead.push_back({texts::choose_instead(other), CauseChosen{suspect.what, other, 0}});
  }
  Suspect named = suspect;
  named.cylinder = chosen.cylinder;
  SuspectText text = text_of(named, bank_name(model.engine, suspect.bank));
  cause.name = texts::cause_name(chosen, text.what);
  cause.check = std::move(text.check);
  cause.choose.label = texts::choose(chosen);
  if (suspect.what == Suspicion::moved)
    cause.choose.does = CrankMoved{};
  else
    cause.choose.does = chosen;
  return cause;
}

}  // namespace

std::vector<int> mending_looks(const JobModel& model, const JobState& state) {
  std::vector<int> found;
  for (const JobPort& port : state.ports) {
    if (port.seen != Saw::shut && port.seen != Saw::open) continue;
    JobState without = state;
    for (JobPort& p : without.ports)
      if (p.cylinder == port.cylinder) p.seen.reset();
    if (!whereabouts(model, without).where.empty()) found.push_back(port.cylinder);
  }
  return found;
}

std::vector<OfferedCause> offered_causes(const JobModel& model, std::span<const JobEvent> events) {
  const Told told = told_by(model, events);
  if (!whereabouts(model, told.state).where.empty()) return {};
  const std::vector<int> mending = mending_looks(model, told.state);
  std::vector<int> to_blame = mending;
  std::erase_if(to_blame, [&](int cylinder) { return told.state.find(cylinder)->confirmed; });
  const bool all_confirmed = to_blame.empty() && !mending.empty();
  std::vector<OfferedCause> causes, last;
  if (told.state.mark_here) causes.push_back(mark_not_in_line());
  for (const Suspect& suspect : suspects(*model.looks, told.observed, spread_over(told.before)))
    (all_confirmed && of_a_look(suspect.what) ? last : causes).push_back(offer(model, suspect, to_blame));
  causes.insert(causes.end(), last.begin(), last.end());
  return causes;
}

}  // namespace shutlane
