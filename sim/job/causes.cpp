#include "sim/job/causes.hpp"

#include <algorithm>

#include "sim/job/texts.hpp"

namespace shutlane {
namespace {

std::vector<double> spread_over(const ArcSet& where) {
  std::vector<double> chances(kBeliefBins, 0.0);
  for (size_t bin = 0; bin < kBeliefBins; ++bin)
    if (where.contains(static_cast<double>(bin) * kBeliefStep_deg)) chances[bin] = 1;
  return chances;
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
        cause.instead.push_back({texts::choose_instead(other), {CauseChosen{suspect.what, other, 0}}});
  }
  Suspect named = suspect;
  named.cylinder = chosen.cylinder;
  SuspectText text = text_of(named, bank_name(model.engine, suspect.bank));
  cause.name = texts::cause_name(chosen, text.what);
  cause.check = std::move(text.check);
  cause.choose.label = texts::choose(chosen);
  cause.choose.tells = {chosen};
  return cause;
}

}  // namespace

std::vector<int> mending_looks(const JobModel& model, const JobState& state) {
  std::vector<int> found;
  for (const JobPort& port : state.ports) {
    if (port.seen != Saw::shut && port.seen != Saw::open) continue;
    Here without = state.here;
    without.forget_look(model, port.cylinder);
    if (!without.where(model).empty()) found.push_back(port.cylinder);
  }
  return found;
}

std::vector<OfferedCause> offered_causes(const JobModel& model, const JobState& state) {
  if (!state.here.where(model).empty()) return {};
  const std::vector<int> mending = mending_looks(model, state);
  std::vector<int> to_blame = mending;
  std::erase_if(to_blame, [&](int cylinder) { return state.find(cylinder)->confirmed; });
  const bool all_confirmed = to_blame.empty() && !mending.empty();
  std::vector<OfferedCause> causes, last;
  for (const Suspect& suspect :
       suspects(model, state.here.told(), spread_over(state.here.arrived()), state.by_turn))
    (all_confirmed && of_a_look(suspect.what) ? last : causes).push_back(offer(model, suspect, to_blame));
  causes.insert(causes.end(), last.begin(), last.end());
  return causes;
}

}  // namespace shutlane
