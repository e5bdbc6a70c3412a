#include "sim/job/advice.hpp"

#include "sim/job/causes.hpp"
#include "sim/job/texts.hpp"

namespace shutlane {
namespace {

Face face_of(const JobState& state, const JobPort& port, Reckoned reckoned) {
  if (port.maybe_inside) return Face::suspect;
  if (state.blasting == port.cylinder) return Face::blasting;
  if (port.done) return Face::done;
  if (!port.in_job) return Face::left_out;
  if (!port.reachable) return Face::out_of_reach;
  if (port.seen == Saw::open) return Face::open;
  if (port.seen == Saw::touching) return Face::touching;
  if (port.seen == Saw::shut) return Face::seen_shut;
  if (reckoned == Reckoned::open) return Face::open;
  return port.seen == Saw::hidden ? Face::hidden : Face::look;
}

Bung bung_at(const Situation& s, const JobState& state) {
  const bool moves_next = s.stage == Stage::mark || s.stage == Stage::turn || s.stage == Stage::bump;
  if (s.stage == Stage::clear && !state.emptied && (state.sucked_out || !state.abrasive))
    return Bung::comes_out;
  if (state.bunged) return Bung::in;
  return moves_next || s.stage == Stage::clear || s.stage == Stage::missing || s.stage == Stage::finished
             ? Bung::out
             : Bung::goes_in;
}

}  // namespace

std::vector<Press> Advice::told() const {
  std::vector<Press> all;
  const auto add = [&](const Press& press) {
    if (press.does == Press::Does::tell && press.enabled() && !press.tells.empty()) all.push_back(press);
  };
  add(wide);
  for (const Press& press : ticks) add(press);
  for (const Press& press : answers) add(press);
  for (const Press& press : beside) add(press);
  return all;
}

Advice advise(const JobModel& model, const JobState& state, std::optional<int> picked) {
  const Reckoning reckoned = reckoning(model, state);
  const Situation s = situation(model, state, reckoned, picked);
  Advice advice;
  advice.stage = s.stage;
  advice.rule = s.rule;
  advice.port = s.port;
  for (size_t i = 0; i < state.ports.size(); ++i) {
    const JobPort& port = state.ports[i];
    PortView view;
    view.cylinder = port.cylinder;
    view.face = face_of(state, port, reckoned.ports[i]);
    view.seen = port.seen && *port.seen != Saw::hidden;
    view.reckoned_shut = reckoned.ports[i] == Reckoned::shut;
    view.certain = may_blast(model, state, port.cylinder);
    view.waits_for = waits_for(model, state, reckoned, port.cylinder);
    view.bung = bung_at(s, state);
    view.open = port.seen ? port.seen == Saw::open : reckoned.ports[i] == Reckoned::open;
    view.next = port.cylinder == s.port;
    view.word = texts::word(view);
    view.note = texts::note(view);
    advice.ports.push_back(std::move(view));
    advice.done += port.done ? 1 : 0;
  }
  advice.of = static_cast<int>(state.ports.size());
  advice.where = reckoned.where;
  advice.ahead = s.ahead;
  advice.move = s.move;
  advice.position = state.position;
  const bool last = state.nothing_left() || (!s.move && !reckoned.contradiction());
  if (last || !s.ahead.empty()) advice.positions = state.position + static_cast<int>(s.ahead.size());
  texts::speak(model, state, s, advice);
  return advice;
}

}  // namespace shutlane
