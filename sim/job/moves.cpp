#include "sim/job/moves.hpp"

#include <algorithm>

namespace shutlane {
namespace {

NextMove turn_of(const JobModel& model, double turn_deg) {
  NextMove move;
  move.turn.aim_deg = move.turn.min_deg = move.turn.max_deg = turn_deg;
  move.turn.logged_min_deg = std::max(0.0, turn_deg - model.rules.accuracy_deg);
  move.turn.logged_max_deg = turn_deg + model.rules.accuracy_deg;
  return move;
}

/// Where all that is left is a hair open and surely shut a little further on: that little.
std::optional<NextMove> a_little_further(const JobModel& model, const JobState& state,
                                         const Reckoning& reckoned, const std::vector<int>& left) {
  constexpr double kALittle_deg = 45;
  const double off_deg = std::min(model.rules.accuracy_deg, kALittle_deg);
  const ArcSet after = reckoned.where.shifted(kALittle_deg).grown(off_deg);
  for (const int cylinder : left) {
    const size_t i = model.index_of(cylinder);
    if (state.ports[i].seen != Saw::touching || !model.ports[i].sure.covers(after)) return {};
  }
  NextMove move;
  move.a_little = true;
  move.turn = {kALittle_deg, kALittle_deg, kALittle_deg, kALittle_deg - off_deg, kALittle_deg + off_deg};
  move.then = left;
  return move;
}

/// The fewest turns from where the crank stands; nullopt: no turn can be aimed from there.
std::optional<PlannedMoves> fewest_turns(const JobModel& model, const Reckoning& reckoned,
                                         WrenchQuestion question) {
  const Arc stands = reckoned.where.hull();
  if (stands.length_deg >= kTurn_deg) return {};
  question.accuracy_deg = model.rules.accuracy_deg;
  question.from_deg = wrap_deg(stands.from_deg + stands.length_deg / 2);
  question.plus_minus_deg = stands.length_deg / 2;
  const WrenchPlan plan = plan_wrench(model.windows, question);
  if (!plan.possible() || plan.turns() == 0) return {};
  PlannedMoves planned;
  planned.move.emplace();
  planned.move->turn = tell_turn(plan.positions[1], model.rules.accuracy_deg);
  planned.move->then = plan.positions[1].blast;
  double from_deg = question.from_deg;
  for (size_t i = 1; i < plan.positions.size(); ++i) {
    const Position& p = plan.positions[i];
    planned.ahead.push_back(
        {p.at_deg, {wrap_deg(from_deg + p.turn_min_deg), p.turn_max_deg - p.turn_min_deg}, p.blast});
    from_deg = p.at_deg;
  }
  return planned;
}

/// Of the turns that the hand feels, in eighths, the one after which looks are expected to free the most of
/// what is left; the full turn where it is hardly worse. Nullopt where nothing says where the crank is likely
/// to be.
std::optional<double> likeliest_turn_deg(const JobModel& model, const JobState& state,
                                         const std::vector<int>& left) {
  constexpr double kEighth_deg = 45, kFullTurnIsWorth = 0.15;  // of a port
  constexpr size_t kCell = 10;                                 // bins: five degrees
  const Belief* belief = state.here.belief();
  if (belief == nullptr) return {};
  const std::vector<double> angles = belief->angles();
  std::optional<double> best_turn_deg;
  double best = 0;
  for (double turn_deg = 2 * kEighth_deg; turn_deg < kCycle_deg; turn_deg += kEighth_deg) {
    double freed = turn_deg == kTurn_deg ? kFullTurnIsWorth : 0;
    for (const int cylinder : left) {
      const ArcSet before = model.workable[model.index_of(cylinder)].shifted(-turn_deg);
      for (size_t from = 0; from < kBeliefBins; from += kCell) {
        if (!before.contains(static_cast<double>(from + kCell / 2) * kBeliefStep_deg)) continue;
        for (size_t bin = from; bin < from + kCell; ++bin) freed += angles[bin];
      }
    }
    if (freed <= best + 1e-9) continue;
    best = freed;
    best_turn_deg = turn_deg;
  }
  return best_turn_deg;
}

/// A full turn on, to the mark again: it witnesses every port, and looks decide nothing but the rest.
PlannedMoves full_turn_by_mark(const JobModel& model, const Reckoning& reckoned,
                               const std::vector<int>& left) {
  PlannedMoves planned;
  planned.by_mark = true;
  NextMove move = turn_of(model, kTurn_deg);
  move.then = left;
  planned.move = move;
  if (const Arc stands = reckoned.where.hull(); stands.length_deg < kTurn_deg) {
    const double at_deg = wrap_deg(stands.from_deg + stands.length_deg / 2 + kTurn_deg);
    planned.ahead.push_back(
        {at_deg, {wrap_deg(at_deg - kMarkReads_deg), 2 * kMarkReads_deg}, std::move(move.then)});
  }
  return planned;
}

}  // namespace

NextMove blind_turn(const JobModel& model, const JobState& state) {
  const bool half = few_ports(model) && lobes_seen(model, state) && state.here.lobe_unclear();
  NextMove move = turn_of(model, half ? kTurn_deg / 2 : kTurn_deg);
  move.blind = true;
  return move;
}

NextMove to_the_mark() {
  NextMove move;
  move.anywhere = true;
  return move;
}

PlannedMoves planned_moves(const JobModel& model, const JobState& state, const Reckoning& reckoned,
                           const std::vector<int>& stay, bool ahead_of_time) {
  WrenchQuestion question;
  for (const JobPort& port : state.ports) {
    if (port.done) question.done.push_back(port.cylinder);
    const bool here = std::find(stay.begin(), stay.end(), port.cylinder) != stay.end();
    if (port.left() && !here) question.left.push_back(port.cylinder);
  }
  if (question.left.empty()) return {};
  PlannedMoves planned;
  planned.move = blind_turn(model, state);
  planned.move->then = question.left;
  if (model.rules.turn_by == TurnBy::starter || reckoned.contradiction()) return planned;
  if (const auto little = a_little_further(model, state, reckoned, question.left)) {
    planned.move = little;
    return planned;
  }
  // One port or two have no witness but lobes, and a full turn brings a lobe that pointed to neither side
  // there again: whole jobs never ended.
  if (model.ports.size() <= 2 && lobes_seen(model, state) && state.here.lobe_unclear()) return planned;
  if (model.mark_suffices && state.mark_here) return full_turn_by_mark(model, reckoned, question.left);
  constexpr double kWellKnown_deg = 60;
  if (reckoned.where.hull().length_deg <= kWellKnown_deg)
    if (auto fewest = fewest_turns(model, reckoned, question)) return *fewest;
  if (ahead_of_time) return planned;
  if (const auto turn_deg = likeliest_turn_deg(model, state, question.left)) {
    planned.move = turn_of(model, *turn_deg);
    planned.move->blind = true;
    planned.move->then = question.left;
  }
  return planned;
}

}  // namespace shutlane
