#include "sim/job/advice.hpp"

#include "sim/job/situation.hpp"
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

Plug plug_at(Stage stage, bool plugged) {
  if (stage == Stage::empty) return Plug::comes_out;
  if (plugged) return Plug::in;
  const bool moves_next = stage == Stage::count || stage == Stage::turn || stage == Stage::finished;
  return moves_next ? Plug::out : Plug::goes_in;
}

}  // namespace

Advice advise(const JobModel& model, const JobState& state, std::optional<int> picked) {
  const Weighed evidence = weigh(model, state);
  const Situation s = situation(model, state, evidence, picked);
  Advice advice;
  advice.stage = s.stage;
  for (size_t i = 0; i < state.ports.size(); ++i) {
    const JobPort& port = state.ports[i];
    PortView view;
    view.cylinder = port.cylinder;
    view.face = face_of(state, port, evidence.ports[i]);
    view.seen = port.seen && *port.seen != Saw::hidden;
    view.reckoned_shut = evidence.ports[i] == Reckoned::shut;
    view.certain = may_blast(model, state, port.cylinder);
    view.doubted = !view.certain && witnesses_agree(model, state, port.cylinder);
    view.look_again = view.doubted && port.look_old;
    view.plug = plug_at(s.stage, state.plugged);
    view.open = port.seen ? port.seen == Saw::open : evidence.ports[i] == Reckoned::open;
    view.next = port.cylinder == s.port;
    view.word = texts::word(view);
    view.note = texts::note(view);
    advice.ports.push_back(std::move(view));
    advice.done += port.done ? 1 : 0;
  }
  advice.of = static_cast<int>(state.ports.size());
  advice.where = evidence.where;
  advice.ahead = s.ahead;
  advice.position = state.position;
  const bool last = state.nothing_left() || (!s.move && !evidence.contradiction());
  if (last || !s.ahead.empty()) advice.positions = state.position + static_cast<int>(s.ahead.size());
  texts::speak(s, advice);
  return advice;
}

}  // namespace shutlane
