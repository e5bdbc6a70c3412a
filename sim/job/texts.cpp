#include "sim/job/texts.hpp"

#include <algorithm>
#include <cmath>

#include "sim/job/causes.hpp"

namespace shutlane::texts {
namespace {

const Press kNone{"", {}, Press::Does::nothing};
const Press kUndo{"undo", {}, Press::Does::undo};
const Press kBack{"back", {}, Press::Does::back};
const Press kCrankMoved{"crank moved", {CrankMoved{}}};

/// What every page is made from.
struct Page {
  const JobModel& model;
  const JobState& state;
  const Situation& s;
  Advice& a;
  std::string number() const { return std::to_string(s.port); }
  size_t ports() const { return state.ports.size(); }
  TurnBy turn_by() const { return model.rules.turn_by; }
};

// ---- presses ----

Press cannot_see(int port) { return {"can\u2019t see", {LookedInto{port, Saw::hidden}}}; }

/// The answers to a look. `frees`: shut goes straight on to the blast.
std::vector<Press> what_was_seen(int port, bool frees) {
  Press shut{"shut", {LookedInto{port, Saw::shut}}};
  if (frees) shut = {"shut: blasting", {LookedInto{port, Saw::shut}, BlastStarted{port}}};
  return {shut,
          {"a hair open, not sure", {LookedInto{port, Saw::touching}}},
          {"open", {LookedInto{port, Saw::open}}}};
}

// ---- turns ----

/// "three eighths of a turn, 135°": an eighth is easier to feel when its degrees stand beside it.
std::string turn_with_degrees(double turn_deg) {
  const std::string words = turn_in_words(turn_deg);
  const bool says_degrees = words.find("\u00b0") != std::string::npos;
  const double quarters = turn_deg / 90;
  if (says_degrees || std::abs(quarters - std::round(quarters)) < kSame_deg) return words;
  return words + ", " + std::to_string(std::lround(turn_deg)) + "\u00b0";
}

std::string turn_told(const Page& p, const NextMove& move) {
  if (move.anywhere) return "on to the crank\u2019s mark";
  return p.turn_by() == TurnBy::starter ? "one bump of the starter"
                                        : turn_in_words(move.turn.aim_deg) + " of the crank";
}

/// "one full turn of the crank, then 3 and 6"
std::string move_told(const Page& p, const NextMove& move) {
  std::string said = turn_told(p, move);
  if (!move.blind && !move.then.empty()) said += ", then " + listed(move.then);
  return said;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

std::string range_told(const NextMove& move) {
  const std::string range = range_in_words(move.turn);
  return range.empty() ? "" : " " + capital(range) + ".";
}

/// As the hand at its place sees it: from the gearbox end the crank turns the other way.
std::optional<bool> clockwise(const Page& p) {
  const bool from_pulley = p.model.engine.spec.layout.rotation == Rotation::clockwise;
  if (p.turn_by() == TurnBy::wrench || p.turn_by() == TurnBy::starter) return from_pulley;
  if (p.turn_by() == TurnBy::bar) return !from_pulley;
  return {};
}

std::string way_told(const Page& p) {
  const std::optional<bool> way = clockwise(p);
  if (!way) return "As when the car drives forward; never back.";
  return std::string(*way ? "Clockwise" : "Anticlockwise") + ", seen from the " +
         (p.turn_by() == TurnBy::bar ? "gearbox" : "pulley") + " end; never back.";
}

// ---- pages ----

void with_abrasive_inside(const Page& p) {
  const bool one = p.s.maybe_inside.size() == 1;
  const std::string where = std::string(one ? "cylinder " : "cylinders ") + listed(p.s.maybe_inside);
  p.a.sentence = p.state.parked ? "Parked: abrasive may be in " + where + "."
                                : "Stop. Abrasive may be in " + where + ".";
  p.a.second = "The crank must not turn. Suck out " + the_ports(p.s.maybe_inside) +
               ", look inside with a borescope, suck out what is there.";
  const std::string cylinder = "Cylinder " + p.number();
  p.a.answers = {{cylinder + ": clean", {InsideLooked{p.s.port, Inside::clean}}},
                 {"found some: sucked out", {InsideLooked{p.s.port, Inside::sucked_out}}}};
  if (!p.state.parked)
    p.a.answers.push_back({"parked until tomorrow", {InsideLooked{p.s.port, Inside::parked}}});
  p.a.beside = {kNone, kCrankMoved, kUndo};
}

void with_a_bung_missing(const Page& p) {
  const std::string all = std::to_string(p.ports());
  p.a.sentence = "A bung is missing. The crank must not turn.";
  p.a.second = "Look into every port, down to the valves; then round the engine and on the bench.";
  p.a.wide = {"Found: all " + all + " are here", {BungsCounted{}}};
  p.a.beside = {kNone, kCrankMoved, kUndo};
}

void while_blasting(const Page& p) {
  p.a.sentence = "Blasting port " + p.number() + ".";
  p.a.second =
      "If the crank moves, stop at once. When it is clean: suck it out, put its bung in, then press.";
  p.a.wide = {"Done, sucked out, bung in", {PortDone{p.s.port}}};
  p.a.beside = {Press{"stop, not done", {BlastStopped{p.s.port}}}, kCrankMoved, kUndo};
}

void to_blast(const Page& p) {
  p.a.sentence = "Blast port " + p.number() + ".";
  const bool stopped = std::find(p.s.stopped.begin(), p.s.stopped.end(), p.s.port) != p.s.stopped.end();
  p.a.second = stopped         ? "It was stopped, not done. If you leave it: suck it out, put its bung in."
               : p.ports() > 1 ? "It was seen shut just now. Every other port has its bung in."
                               : "It was seen shut just now.";
  p.a.wide = {"Port " + p.number() + ": start", {BlastStarted{p.s.port}}};
  p.a.beside = {cannot_see(p.s.port), kCrankMoved, kUndo};
}

/// What lies in a port that was stopped must not fall in anywhere.
std::string stopped_first(const Page& p) {
  std::vector<int> others = p.s.stopped;
  std::erase(others, p.s.port);
  if (!others.empty()) return "First suck out " + the_ports(others) + ", and put the bung in. ";
  return p.s.stopped.empty() ? "" : "It was stopped, not done: suck it out first. ";
}

std::string of_the_pass(const Page& p) {
  const size_t left = p.s.looks_left.size();
  const std::string rest = left == 1 ? "the last one" : std::to_string(left) + " to go";
  return (p.state.position == 1 ? "One pass over all ports, pulley end to gearbox end: "
                                : "One pass over the ports left: ") +
         rest + ". Do not blast during this pass.";
}

std::string why_this_look(const Page& p) {
  switch (p.s.look_for) {
    case LookFor::blast: {
      std::vector<int> others = p.s.looks_left;
      std::erase(others, p.s.port);
      // Reckoned shut too, but one look does not free them yet: no turn is named while any is left.
      std::vector<int> perhaps;
      for (const PortView& view : p.a.ports)
        if (view.cylinder != p.s.port && view.reckoned_shut &&
            (view.face == Face::look || view.face == Face::seen_shut))
          perhaps.push_back(view.cylinder);
      const std::string then = !others.empty()          ? " Then " + listed(others) + ", in the same way."
                               : !perhaps.empty()       ? " Then perhaps " + listed(perhaps) + "."
                               : p.s.move               ? " After it: " + move_told(p, *p.s.move) + "."
                               : p.s.not_in_job.empty() ? " It is the last one."
                                                        : " It is the last one for today.";
      return "It is reckoned shut. Shut all round the seat? Then blast it at once." + then;
    }
    case LookFor::turn:
      return "The mark stands in line twice a cycle: here this port is shut one time and wide open the "
             "other.";
    case LookFor::pass:
      return of_the_pass(p);
    case LookFor::surer:
      return "It makes surer of port " + std::to_string(p.s.surer_of) + ".";
    case LookFor::where:
      break;
  }
  return p.s.lost ? "It tells most about where the crank stands." : "It tells where the crank stands.";
}

void to_look(const Page& p) {
  const JobPort* port = p.state.find(p.s.port);
  p.a.sentence = p.state.bunged || p.ports() == 1
                     ? "Look into port " + p.number() + "."
                     : "Bungs in all ports. Then look into port " + p.number() + ".";
  p.a.second = stopped_first(p) + why_this_look(p);
  if (port && !port->in_job)
    p.a.second = "Its bank is not worked today, but its look helps " +
                 (p.s.surer_of ? "port " + std::to_string(p.s.surer_of) : std::string("the others")) +
                 ". Covered? Press can\u2019t see.";
  p.a.answers = what_was_seen(p.s.port, p.s.frees);
  p.a.beside = {cannot_see(p.s.port), kCrankMoved, kUndo};
}

void to_look_at_lobe(const Page& p) {
  p.a.sentence = "Oil filler: which way points the intake lobe of cylinder " + p.number() + "?";
  p.a.second = "Port " + std::to_string(p.s.surer_of) + " was seen shut, but the looks alone are not enough.";
  // Where "shut" stood before stands what tells nothing.
  p.a.answers = {{"neither", {LobeSeen{p.s.port, Lobe::unclear}}},
                 {"at the valve", {LobeSeen{p.s.port, Lobe::at_valve}}},
                 {"away from it", {LobeSeen{p.s.port, Lobe::away}}}};
  p.a.beside = {Press{"can\u2019t see", {LobeSeen{p.s.port, Lobe::hidden}}}, kCrankMoved, kUndo};
}

void with_chalk(const Page& p) {
  if (p.s.chalk_drawn) {
    p.a.sentence = "Chalk line: still in line?";
    p.a.second = "A glance, no port is opened. Broken: somebody moved the crank.";
    p.a.answers = {{"in line", {ChalkSeen{true}}}, {"moved", {ChalkSeen{false}}}};
    p.a.beside = {kNone, kNone, kUndo};
    return;
  }
  p.a.sentence = "Draw a chalk line across pulley and cover.";
  p.a.second = "Wipe off an older one. From now on a glance shows whether anybody moved the crank.";
  p.a.wide = {"Chalk line drawn", {ChalkSeen{true}}};
  p.a.beside = {Press{"no chalk", {NoChalk{}}}, kCrankMoved, kUndo};
}

void to_clear(const Page& p) {
  const std::string all = std::to_string(p.ports());
  const bool sucked = p.state.sucked_out || !p.state.abrasive;
  Press suck{p.ports() > 1 ? "All " + all + " ports sucked out" : "Sucked out", {SuckedOut{}}};
  Press empty{"Everything out of every port", {PortsEmptied{}}};
  Press count{p.ports() > 1 ? "Counted: " + all + " bungs" : "Counted: the bung", {BungsCounted{}}};
  suck.ticked = sucked;
  empty.ticked = sucked && p.state.emptied;
  count.ticked = empty.ticked && p.state.counted;
  if (!suck.ticked) {
    p.a.sentence = "Suck out " + (p.ports() > 1 ? "all " + all + " ports" : std::string("port 1")) + ".";
    p.a.second =
        "The rim of every bung first, then pull it" +
        (p.s.loose.empty() ? std::string(".") : "; then down to the valves: " + listed(p.s.loose) + ".");
    empty.does = count.does = Press::Does::nothing;
  } else if (!empty.ticked) {
    p.a.sentence = "Take everything out of every port.";
    p.a.second = "Pull every bung. Wand, hose and lamp out. Then " +
                 (p.s.move ? turn_told(p, *p.s.move) + "." : "the bungs are counted.");
    count.does = Press::Does::nothing;
  } else {
    p.a.sentence = "Count the bungs: " + all + ".";
    p.a.second = "One for every port. None may be left inside when the crank turns.";
    p.a.answers = {{"one is missing", {BungMissing{}}}};
  }
  p.a.ticks = {suck, empty, count};
  p.a.beside = {kNone, kCrankMoved, kUndo};
}

std::string then_look(const NextMove& move) {
  return move.blind || move.then.empty() ? " Then look again." : " Then look into " + listed(move.then) + ".";
}

void to_bump(const Page& p) {
  p.a.sentence = "Bump the starter once.";
  p.a.second = "Hands clear. Nobody knows where it rests: then look again.";
  p.a.wide = {"Bumped", {Bumped{}}};
  p.a.beside = {kNone, kCrankMoved, kUndo};
}

void to_turn(const Page& p) {
  const NextMove& move = *p.s.move;
  p.a.sentence = "Turn the crank: " + turn_with_degrees(move.turn.aim_deg) + ".";
  p.a.clockwise = clockwise(p);
  p.a.second = (move.a_little ? "A hair open here, surely shut a little further on. " : "") + way_told(p) +
               range_told(move) + then_look(move);
  p.a.wide = {"Turned: " + turn_in_words(move.turn.aim_deg),
              {Turned{move.turn.logged_min_deg, move.turn.logged_max_deg}}};
  p.a.beside = {Press{"too far or too little", {CrankMoved{}}}, kCrankMoved, kUndo};
}

std::vector<JobEvent> with_mark(std::optional<Turned> turned, double plus_minus_deg) {
  std::vector<JobEvent> tells;
  if (turned) tells.push_back(*turned);
  tells.push_back(MarkRead{0, plus_minus_deg});
  return tells;
}

/// On to the mark by a turn that is known: the mark is in line again.
void to_the_mark_again(const Page& p) {
  const NextMove& move = *p.s.move;
  const double aim_deg = move.turn.aim_deg;
  // From within so much of the mark to within so much of it again.
  double from_deg = 0;
  for (const Told& told : p.state.here.told())
    if (const auto* mark = std::get_if<MarkRead>(&told)) from_deg = std::max(from_deg, mark->plus_minus_deg);
  const auto within = [&](double to_deg) {
    return Turned{aim_deg - from_deg - to_deg, aim_deg + from_deg + to_deg};
  };
  p.a.sentence = "Turn the crank " + turn_in_words(aim_deg) + ", to the mark again.";
  p.a.second = way_told(p) + " Let go: does it stay?" + then_look(move);
  p.a.wide = {"Turned: mark in line", with_mark(within(kMarkReads_deg), kMarkReads_deg)};
  if (const auto rolled_deg = p.model.mark_rolled_deg)
    p.a.answers.push_back({"it rolled off", with_mark(within(*rolled_deg), *rolled_deg)});
  p.a.answers.push_back(
      {"turned, mark not seen", {Turned{move.turn.logged_min_deg, move.turn.logged_max_deg}}});
  p.a.beside = {Press{"too far or too little", {CrankMoved{}}}, kCrankMoved, kUndo};
}

/// To the mark from wherever the crank stands.
void to_the_mark(const Page& p) {
  const bool wrench_instead = p.turn_by() == TurnBy::starter;
  p.a.clockwise = clockwise(p);
  const std::optional<Turned> turned =
      p.s.untouched && p.state.position == 1 ? std::nullopt : std::optional(Turned{0, kCycle_deg});
  p.a.sentence = std::string(wrench_instead ? "By wrench: turn" : "Turn") +
                 " to the TDC mark of cylinder 1 and let go: does it stay?";
  p.a.second =
      way_told(p) + (p.s.move->mark_alone
                         ? " No mark? Make one, at top dead centre of cylinder 1: looks alone say too "
                           "little here."
                         : " A pulley may bear several marks: take that of top dead centre.");
  p.a.wide = {"Mark in line, it stays", with_mark(turned, kMarkReads_deg)};
  if (const auto rolled_deg = p.model.mark_rolled_deg)
    p.a.answers.push_back({"it rolled off", with_mark(turned, *rolled_deg)});
  std::vector<JobEvent> none;
  if (turned) none.push_back(*turned);
  none.push_back(NoMark{});
  if (!p.s.move->mark_alone) p.a.answers.push_back({"no mark", {NoMark{}}});
  p.a.beside = {kNone, kCrankMoved, kUndo};
}

void with_unseen_left(const Page& p) {
  p.a.sentence = capital(the_ports(p.s.unseen_left)) + " can\u2019t be seen.";
  p.a.second = "Clean the lamp, try a mirror or a borescope. Without a look nothing is blasted.";
  p.a.answers = what_was_seen(p.s.port, p.s.frees);
  p.a.beside = {Press{"not today", {Reachable{p.s.port, false}}}, kCrankMoved, kUndo};
}

void with_disagreement(const Page& p) {
  p.a.sentence = "That cannot all be true. Stop.";
  p.a.second = "What is at fault? Likeliest first. Check, then press it: until then nothing is blasted.";
  p.a.causes = offered_causes(p.model, p.state);
  for (const OfferedCause& cause : p.a.causes) {
    Press press = cause.choose;  // in a list without rows the cause has to be in the words
    press.label = cause.name + " " + cause.choose.label;
    p.a.answers.push_back(std::move(press));
    for (Press instead : cause.instead) {
      instead.label = cause.name + " " + instead.label;
      p.a.answers.push_back(std::move(instead));
    }
  }
  p.a.wide = {"Make every look again", {LooksForgotten{}}};
  p.a.beside = {kNone, kCrankMoved, kUndo};
}

/// What to do about the cause that was chosen, before the looks are made again.
std::string mend_told(const CauseChosen& cause, const std::string& bank) {
  const std::string of_bank = bank.empty() ? "" : " of bank " + bank;
  switch (cause.what) {
    case Suspicion::wrong_port:
      return "Count the ports from the pulley end. ";
    case Suspicion::missed_look:
      return "Lamp close to the valve, all round the seat. ";
    case Suspicion::phaser:
      return "First have the intake phaser" + of_bank + " parked, as its service data say. ";
    case Suspicion::chain:
      return "First have the chain" + of_bank + " set right. ";
    case Suspicion::crumb:
      return (cause.cylinder ? "First suck out port " + std::to_string(cause.cylinder)
                             : "First suck out the port") +
             ". ";
    case Suspicion::engine_data:
      return "First set the engine\u2019s data right, by the service data. ";
    case Suspicion::moved:
    case Suspicion::mark:
    case Suspicion::lobe:
    case Suspicion::turn:
      break;
  }
  return "";
}

void to_look_again(const Page& p) {
  p.a.sentence = "Look into " + the_ports(p.s.looks_due) + " again.";
  p.a.second = (p.state.cause ? mend_told(*p.state.cause, p.s.bank) : "") + "Until then nothing is blasted.";
  p.a.answers = what_was_seen(p.s.port, false);
  p.a.beside = {cannot_see(p.s.port), kCrankMoved, kUndo};
}

void when_finished(const Page& p) {
  const bool all = p.s.not_in_job.empty();
  p.a.sentence = all ? "All ports are done." : "Done for today.";
  p.a.second = all ? "A last look into the cylinders, two turns by hand; then refit, and note the mileage."
                   : "Left for another day: " + listed(p.s.not_in_job) +
                         ". This job keeps it in mind: press its tile to go on.";
  p.a.wide = {all ? "Finished" : "Finished for today", {}, Press::Does::nothing};
  p.a.beside = {kNone, Press{"new job", {}, Press::Does::new_job}, kUndo};
}

std::string why_not_yet(const Page& p) {
  const JobPort& port = *p.state.find(p.s.port);
  const auto& views = p.a.ports;
  const auto view =
      std::find_if(views.begin(), views.end(), [&](const PortView& v) { return v.cylinder == p.s.port; });
  if (view->waits_for) {
    if (view->waits_for->what == WaitsFor::What::chalk) return "It waits for the chalk line. ";
    if (view->waits_for->what == WaitsFor::What::mark) return "It waits for the crank\u2019s mark. ";
    if (view->waits_for->cylinder != p.s.port)
      return "It waits for a look into port " + std::to_string(view->waits_for->cylinder) + ". ";
  }
  if (p.s.frees) return "It is reckoned shut: seen shut too, it is blasted at once. ";
  if (port.seen == Saw::shut) return "It was seen shut, but nothing else says so yet: not to be blasted. ";
  return view->reckoned_shut ? "It is reckoned shut. " : "It is not reckoned shut. ";
}

void on_picked(const Page& p) {
  const int port = p.s.port;
  const JobPort& now = *p.state.find(port);
  p.a.beside = {kBack, kCrankMoved, kUndo};
  if (now.done) {
    p.a.sentence = "Port " + p.number() + " is done.";
    p.a.second = "Not clean after all? Then it is worked once more.";
    p.a.wide = {"Port " + p.number() + ": do it again", {PortAgain{port}}};
  } else if (!now.reachable) {
    p.a.sentence = "Port " + p.number() + " is left for another day.";
    p.a.second = "It can be taken in again.";
    p.a.wide = {"Port " + p.number() + ": take it in again", {Reachable{port, true}}};
  } else if (may_blast(p.model, p.state, port)) {
    to_blast(p);
    p.a.answers = {{"not today", {Reachable{port, false}}}, {"open", {LookedInto{port, Saw::open}}}};
    p.a.beside[2] = kBack;
  } else {
    p.a.sentence = "Look into port " + p.number() + ".";
    p.a.second = why_not_yet(p) + "Every other port keeps its bung.";
    p.a.answers = what_was_seen(port, p.s.frees);
    p.a.beside = {Press{"not today", {Reachable{port, false}}}, kCrankMoved, kBack};
  }
}

}  // namespace

std::string listed(const std::vector<int>& numbers) {
  std::string said;
  for (size_t i = 0; i < numbers.size(); ++i) {
    if (i > 0) said += i + 1 == numbers.size() ? " and " : ", ";
    said += std::to_string(numbers[i]);
  }
  return said;
}

std::string the_ports(const std::vector<int>& numbers) {
  return (numbers.size() == 1 ? "port " : "ports ") + listed(numbers);
}

std::string look_again() { return "look again"; }

std::string choose(const CauseChosen& cause) {
  const bool look = cause.what == Suspicion::missed_look || cause.what == Suspicion::wrong_port;
  switch (cause.what) {
    case Suspicion::moved:
      return "crank moved";
    case Suspicion::mark:
      return "the mark";
    case Suspicion::lobe:
      return "lobe " + std::to_string(cause.cylinder);
    case Suspicion::turn:
      return "the turn";
    default:
      return look && cause.cylinder ? "look into " + std::to_string(cause.cylinder) + " again" : look_again();
  }
}

std::string choose_instead(int cylinder) { return "or port " + std::to_string(cylinder); }

std::string cause_name(const CauseChosen& cause, const std::string& in_full) {
  if (cause.what == Suspicion::missed_look)
    return cause.cylinder ? "The look into port " + std::to_string(cause.cylinder) + " misled."
                          : "Looks misled.";
  if (cause.what == Suspicion::wrong_port && cause.cylinder == 0) return "A look was into another port.";
  return in_full;
}

std::string word(const PortView& port) {
  switch (port.face) {
    case Face::suspect:
      return "STOP";
    case Face::look:
      return "LOOK";
    case Face::seen_shut:
      return "SEEN SHUT";
    case Face::touching:
      return "NOT YET";
    case Face::open:
      return "OPEN";
    case Face::hidden:
      return "CAN\u2019T SEE";
    case Face::blasting:
      return "BLAST";
    case Face::done:
      return "DONE";
    case Face::out_of_reach:
      return "LATER";
    case Face::left_out:
      return "LATER";
    case Face::waits:
      return "WAIT";
  }
  return "";
}

namespace {

std::string what_it_waits_for(const PortView& port) {
  if (port.certain) return port.next ? "blast next" : "may be blasted";
  if (!port.waits_for) return port.reckoned_shut ? "not here" : "not reckoned yet";
  if (port.waits_for->what == WaitsFor::What::chalk) return "waits: chalk";
  if (port.waits_for->what == WaitsFor::What::mark) return "waits: the mark";
  return port.waits_for->cylinder == port.cylinder
             ? "a look, then blast"
             : "waits: look " + std::to_string(port.waits_for->cylinder);
}

}  // namespace

std::string note(const PortView& port) {
  const char* const bung = port.bung == Bung::in          ? "bung in"
                           : port.bung == Bung::comes_out ? "bung: take out"
                           : port.bung == Bung::goes_in   ? "bung: put in"
                                                          : "no bung";
  // Nothing else counts there.
  if (port.bung == Bung::comes_out || port.bung == Bung::out) return bung;
  switch (port.face) {
    case Face::waits:
      return bung;
    case Face::suspect:
      return "abrasive inside?";
    case Face::look:
      return port.reckoned_shut ? "reckoned shut" : "not known yet";
    case Face::seen_shut:
      return what_it_waits_for(port);
    case Face::touching:
      return "a hair open";
    case Face::open:
      return std::string(port.seen ? "seen, " : "reckoned, ") + bung;
    case Face::hidden:
      return port.reckoned_shut ? "reckoned shut" : bung;
    case Face::blasting:
      return "being blasted";
    case Face::done:
      return std::string(port.open ? "open, " : "") + bung;
    case Face::out_of_reach:
      return std::string("not today, ") + bung;
    case Face::left_out:
      return std::string("other bank, ") + bung;
  }
  return "";
}

void speak(const JobModel& model, const JobState& state, const Situation& situation, Advice& advice) {
  const Page page{model, state, situation, advice};
  switch (situation.stage) {
    case Stage::inside:
      return with_abrasive_inside(page);
    case Stage::missing:
      return with_a_bung_missing(page);
    case Stage::disagreement:
      return with_disagreement(page);
    case Stage::look_again:
      return to_look_again(page);
    case Stage::blasting:
      return while_blasting(page);
    case Stage::blast:
      return to_blast(page);
    case Stage::look:
      return to_look(page);
    case Stage::lobe:
      return to_look_at_lobe(page);
    case Stage::chalk:
      return with_chalk(page);
    case Stage::mark:
      return situation.move->anywhere ? to_the_mark(page) : to_the_mark_again(page);
    case Stage::clear:
      return to_clear(page);
    case Stage::turn:
      return to_turn(page);
    case Stage::bump:
      return to_bump(page);
    case Stage::unseen:
      return with_unseen_left(page);
    case Stage::finished:
      return when_finished(page);
    case Stage::picked:
      return on_picked(page);
  }
}

}  // namespace shutlane::texts
