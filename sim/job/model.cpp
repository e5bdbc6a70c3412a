#include "sim/job/model.hpp"

#include <algorithm>

namespace shutlane {

JobRules possible_rules(const Engine& engine, JobRules rules) {
  if (rules.turn_by != TurnBy::starter || engine.spec.cranking.starter != StarterKind::none) return rules;
  rules.turn_by = TurnBy::wrench;
  rules.accuracy_deg =
      std::min(rules.accuracy_deg, usual_accuracy_deg(TurnBy::wrench, engine.cylinders.size()));
  return rules;
}

namespace {

/// The answers of all ports change only where one of them opens or shuts.
std::vector<ArcSet> workable_arcs(const std::vector<PortSets>& ports) {
  std::vector<double> ends{0, kCycle_deg};
  for (const PortSets& port : ports)
    for (const Arc& arc : port.nominal.arcs())
      for (const double end_deg : {arc.from_deg, arc.to_deg()}) ends.push_back(wrap_deg(end_deg));
  std::sort(ends.begin(), ends.end());
  std::vector<std::vector<Arc>> found(ports.size());
  for (size_t k = 0; k + 1 < ends.size(); ++k) {
    const Arc piece{ends[k], ends[k + 1] - ends[k]};
    if (piece.length_deg < kSame_deg) continue;
    const double middle_deg = piece.from_deg + piece.length_deg / 2;
    for (size_t i = 0; i < ports.size(); ++i) {
      if (!ports[i].sure.contains(middle_deg)) continue;
      ArcSet where = ArcSet::all();
      for (size_t other = 0; other < ports.size(); ++other)
        if (other != i)
          where = where.intersected(ports[other].nominal.contains(middle_deg) ? ports[other].if_shut
                                                                              : ports[other].if_open);
      if (ports[i].sure.covers(where)) found[i].push_back(piece);
    }
  }
  std::vector<ArcSet> workable;
  for (std::vector<Arc>& arcs : found) workable.emplace_back(std::move(arcs));
  return workable;
}

}  // namespace

JobModel make_job_model(const Engine& engine, const JobRules& asked) {
  const JobRules rules = possible_rules(engine, asked);
  Eye eye;
  eye.limit_mm = rules.eye_mm;
  JobModel model{{engine, port_sets(engine, rules.eye_mm, rules.margin_deg),
                  std::make_shared<const LookModel>(engine, eye)},
                 rules,
                 shut_windows(engine, rules.margin_deg),
                 {},
                 {},
                 false,
                 {}};
  model.workable = workable_arcs(model.ports);
  for (const BankSpec& bank : engine.spec.layout.banks)
    model.walk.insert(model.walk.end(), bank.cylinders.begin(), bank.cylinders.end());
  // Nearer to an event a look tells too little for the limit of doubt (tests/job/whole_jobs_test).
  constexpr double kRoom_deg = 15;
  const auto suffices_within = [&](double off_deg) {
    const ArcSet at_mark({{-off_deg, 2 * off_deg}});
    return std::all_of(model.ports.begin(), model.ports.end(), [&](const PortSets& port) {
      return port.sure.covers(at_mark) || port.sure.covers(at_mark.shifted(kTurn_deg));
    });
  };
  model.mark_suffices = suffices_within(kMarkReads_deg + kRoom_deg);
  const double rolled_deg = kTurn_deg / static_cast<double>(std::max<size_t>(1, engine.cylinders.size()));
  if (rolled_deg <= 90 && suffices_within(rolled_deg + kRoom_deg)) model.mark_rolled_deg = rolled_deg;
  return model;
}

}  // namespace shutlane
