#include "sim/job/model.hpp"

#include <algorithm>

namespace shutlane {

size_t JobModel::index_of(int cylinder) const {
  size_t i = 0;
  while (i < ports.size() && ports[i].windows.cylinder != cylinder) ++i;
  return i;
}

JobRules possible_rules(const Engine& engine, JobRules rules) {
  if (rules.turn_by != TurnBy::starter || engine.spec.cranking.starter != StarterKind::none) return rules;
  rules.turn_by = TurnBy::wrench;
  rules.accuracy_deg =
      std::min(rules.accuracy_deg, usual_accuracy_deg(TurnBy::wrench, engine.cylinders.size()));
  return rules;
}

JobModel make_job_model(const Engine& engine, const JobRules& asked) {
  const JobRules rules = possible_rules(engine, asked);
  Eye eye;
  eye.limit_mm = rules.eye_mm;
  JobModel model{engine,
                 rules,
                 {},
                 shut_windows(engine, rules.margin_deg),
                 std::make_shared<const LookModel>(engine, eye),
                 false};
  model.ports.reserve(engine.cylinders.size());
  for (size_t i = 0; i < engine.cylinders.size(); ++i) {
    const ArcSet seen_shut = surely_above(engine, engine.cylinders[i], rules.eye_mm).complement();
    const ArcSet seen_open = model.windows[i].within_tolerance.complement();
    model.ports.push_back({model.windows[i], seen_shut, seen_open, seen_shut.intersected(seen_open)});
  }
  // Nearer to an event a look tells too little for the limit of doubt (tests/job/whole_jobs_test).
  constexpr double kRoom_deg = 15;
  const Arc at_mark{-kMarkReads_deg - kRoom_deg, 2 * (kMarkReads_deg + kRoom_deg)};
  model.mark_suffices = std::all_of(model.windows.begin(), model.windows.end(), [&](const Windows& w) {
    return w.sure.covers(ArcSet({at_mark})) || w.sure.covers(ArcSet({at_mark}).shifted(kTurn_deg));
  });
  return model;
}

}  // namespace shutlane
