#include "sim/job/texts.hpp"

#include <algorithm>
#include <cmath>

namespace shutlane::texts {
namespace {

std::string port_says(int port, const char* what) { return "Port " + std::to_string(port) + ": " + what; }

const Press kUndo{"undo", UndoLast{}};
const Press kCrankMoved{"crank moved", CrankMoved{}};
const Press kBack{"back", PickPort{}};
Press cannot_see(int port) { return {"can\u2019t see", LookedInto{port, Saw::hidden}}; }
Press seen_shut(int port) { return {port_says(port, "seen shut"), LookedInto{port, Saw::shut}}; }
Press seen_open(int port) { return {port_says(port, "seen open"), LookedInto{port, Saw::open}}; }
std::vector<Press> touching_or_open(int port) {
  return {{port_says(port, "just touching"), LookedInto{port, Saw::touching}}, seen_open(port)};
}
Press out_of_reach(int port) { return {"not today", Reachable{port, false}}; }

/// "three eighths of a turn, 135°": an eighth is easier to feel when its degrees stand beside it.
std::string turn_with_degrees(double turn_deg) {
  const std::string words = turn_in_words(turn_deg);
  const bool says_degrees = words.find("\u00b0") != std::string::npos;
  const double quarters = turn_deg / 90;
  if (says_degrees || std::abs(quarters - std::round(quarters)) < kSame_deg) return words;
  return words + ", " + std::to_string(std::lround(turn_deg)) + "\u00b0";
}

std::string turn_told(const NextMove& move) {
  return move.bump ? "one bump of the starter" : turn_in_words(move.turn.aim_deg) + " of the crank";
}

/// "one full turn of the crank, then 3 and 6"
std::string move_told(const NextMove& move) {
  std::string said = turn_told(move);
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

/// What comes after the port in hand: "Then look into 4 and 5. After those: one full turn, then 3 and 6."
std::string what_follows(const Situation& s) {
  std::string said;
  if (!s.doubtful.empty()) said += "Then " + listed(s.doubtful) + ", after a fresh look. ";
  if (!s.looks_ahead.empty()) said += "Then look into " + listed(s.looks_ahead) + ". ";
  if (s.move)
    said +=
        (said.empty() ? "After it perhaps more looks, then: " : "After those: ") + move_told(*s.move) + ".";
  else if (said.empty())
    said = s.not_in_job.empty() ? "It is the last one." : "It is the last one for today.";
  if (said.ends_with(' ')) said.pop_back();
  return said;
}

/// As the hand at its place sees it: from the gearbox end the crank turns the other way.
std::optional<bool> clockwise(const Situation& s) {
  const bool from_pulley = s.turns == Turns::clockwise;
  if (s.turn_by == TurnBy::wrench) return from_pulley;
  if (s.turn_by == TurnBy::bar) return !from_pulley;
  return {};
}

std::string way_told(const Situation& s) {
  const std::optional<bool> way = clockwise(s);
  if (!way) return "As when the car drives forward; never back.";
  return std::string(*way ? "Clockwise" : "Anticlockwise") + ", seen from the " +
         (s.turn_by == TurnBy::bar ? "gearbox" : "pulley") + " end; never back.";
}

void with_abrasive_inside(const Situation& s, Advice& a) {
  const bool one = s.maybe_inside.size() == 1;
  a.sentence = std::string("Stop. Abrasive may be in ") + (one ? "cylinder " : "cylinders ") +
               listed(s.maybe_inside) + ".";
  a.second =
      "The crank must not turn. Suck out " + the_ports(s.maybe_inside) +
      ", look inside with a borescope, suck out what is there. No borescope? Leave it until there is one.";
  a.wide = {"Cylinder " + std::to_string(s.port) + ": looked inside, clean", InsideClean{s.port}};
  a.beside = {Press{}, kCrankMoved, kUndo};
}

void while_blasting(const Situation& s, Advice& a) {
  a.sentence = "Blasting port " + std::to_string(s.port) + ".";
  a.second = "If the crank moves, stop at once. When it is clean: suck it out, plug it, then press.";
  a.wide = {port_says(s.port, "done, sucked out, plugged"), PortDone{s.port}};
  a.beside = {Press{"stop, not done", BlastStopped{}}, kCrankMoved, kUndo};
}

void to_blast(const Situation& s, Advice& a) {
  a.sentence = "Blast port " + std::to_string(s.port) + ".";
  const bool stopped = std::find(s.stopped.begin(), s.stopped.end(), s.port) != s.stopped.end();
  a.second = stopped       ? "It was stopped, not done. If you leave it: suck it out, plug it."
             : s.ports > 1 ? "See that every other port is plugged. " + what_follows(s)
                           : what_follows(s);
  a.wide = {port_says(s.port, "start"), BlastStarted{s.port}};
  a.beside = {cannot_see(s.port), kCrankMoved, kUndo};
}

/// What lies in a port that was stopped, or round the plug of an open one, must not fall in.
std::string look_at(const Situation& s, const char* end) {
  const std::string look = "ook into port " + std::to_string(s.port) + end;
  if (!s.stopped.empty() && s.stopped.front() != s.port)
    return "Suck out and plug " + the_ports(s.stopped) + ". Then l" + look;
  if (!s.stopped.empty()) return "Suck out port " + std::to_string(s.port) + ". Then look into it" + end;
  if (s.port_open && !s.loose.empty()) return "Suck round plug " + std::to_string(s.port) + ". Then l" + look;
  return "L" + look;
}

void to_look(const Situation& s, Advice& a) {
  const std::string stay = s.plugged ? "Every port stays plugged but the one you look into."
                                     : "A plug goes into every port but the one you look into.";
  const std::string plugs =
      s.stopped.empty() ? stay : "First suck out and plug " + the_ports(s.stopped) + ".";
  if (s.one_more) {
    const bool itself = *s.one_more == s.port;
    a.sentence = look_at(s, itself ? " once more." : ".");
    a.second =
        (itself ? "Just before it is blasted, a fresh look. "
                : "The looks agree; this one makes surer of port " + std::to_string(*s.one_more) + ". ") +
        stay;
  } else if (s.port_reckoned_shut) {
    a.sentence =
        (s.plugged ? "Look into " : "Plug all ports. Then look into ") + the_ports(s.looks_ahead) + ".";
    a.second = (s.looks_ahead.size() > 1 ? "They are reckoned shut. " : "It is reckoned shut. ") + plugs;
  } else {
    a.sentence =
        s.plugged ? look_at(s, ".") : "Plug all ports. Then look into port " + std::to_string(s.port) + ".";
    a.second =
        (s.lost ? "It tells most about where the crank stands. " : "It tells where the crank stands. ") +
        (s.plugged ? stay : plugs);
  }
  if (s.port_left_out)
    a.second = "Its bank is not worked today, but its look helps " +
               (s.one_more ? "port " + std::to_string(*s.one_more) : std::string("the others")) +
               ". Covered? Press can\u2019t see.";
  a.wide = seen_shut(s.port);
  a.others = touching_or_open(s.port);
  a.beside = {cannot_see(s.port), kCrankMoved, kUndo};
}

void to_look_at_lobe(const Situation& s, Advice& a) {
  const std::string number = std::to_string(s.port);
  a.sentence = "Oil filler: which way points the intake lobe of cylinder " + number + "?";
  a.second = "Port " + std::to_string(s.lobe_for) +
             " was seen shut, but the looks alone are not enough. A crank mark in line helps too: menu.";
  // Where "seen shut" stood before stands what tells nothing.
  a.wide = {"Lobe " + number + ": neither", LobeSeen{s.port, Lobe::unclear}};
  a.others = {{"Lobe " + number + ": at the valve", LobeSeen{s.port, Lobe::at_valve}},
              {"Lobe " + number + ": away from it", LobeSeen{s.port, Lobe::away}}};
  a.beside = {Press{"can\u2019t see", LobeSeen{s.port, Lobe::hidden}}, kCrankMoved, kUndo};
}

void to_suck_out(const Situation& s, Advice& a) {
  a.sentence = "Suck out " + (s.ports > 1 ? "all " + std::to_string(s.ports) + " ports" : "port 1") + ".";
  a.second = (s.loose.empty() ? "" : "First " + listed(s.loose) + ", down to the valves. ") +
             "Then the rim of every plug, before any is pulled.";
  a.wide = {"Sucked out", SuckedOut{}};
  a.beside = {Press{}, kCrankMoved, kUndo};
}

void to_empty(const Situation& s, Advice& a) {
  a.sentence = "Take everything out of every port.";
  a.second = "Pull every plug. Wand, hose and lamp out. Then " +
             (s.move ? turn_told(*s.move) + "." : "the plugs are counted.");
  a.wide = {"All ports empty", PortsEmptied{}};
  a.beside = {Press{}, kCrankMoved, kUndo};
}

void to_count(const Situation& s, Advice& a) {
  const std::string all = std::to_string(s.ports);
  a.sentence = "Count the plugs: " + all + ".";
  a.second = s.move ? "One for every port. None may be left inside when the crank turns."
                    : "One for every port. None may be left inside.";
  a.wide = {"All " + all + " plugs are here", PlugsCounted{}};
  a.beside = {Press{}, kCrankMoved, kUndo};
}

void to_turn(const Situation& s, Advice& a) {
  if (s.move->bump) {
    a.sentence = "Bump the starter once.";
    a.second = "Hands clear. Nobody knows where it rests: then look again.";
    a.wide = {"Bumped", Bumped{}};
  } else {
    a.sentence = "Turn the crank: " + turn_with_degrees(s.move->turn.aim_deg) + ".";
    a.clockwise = clockwise(s);
    a.second = (s.move->a_little ? "Just touching here, surely shut a little further on. " : "") +
               way_told(s) + range_told(*s.move);
    a.second += s.move->blind || s.move->then.empty() ? " Then look again."
                                                      : " Then look into " + listed(s.move->then) + ".";
    a.wide = {"Turned: " + turn_in_words(s.move->turn.aim_deg),
              Turned{s.move->turn.logged_min_deg, s.move->turn.logged_max_deg}};
  }
  if (s.move->by_mark) {
    a.sentence = std::string(s.turn_by == TurnBy::starter ? "By wrench: turn" : "Turn") +
                 " the crank until its mark stands at the pointer.";
    a.second =
        way_told(s) + (s.move->mark_alone ? " No mark? Make one, at top dead centre of cylinder 1."
                                          : " Let go: does it stay there? Looks alone say too little.");
    const Press planned = a.wide;
    a.wide = {"Turned: mark in line", Turned{0, kCycle_deg}, MarkRead{0, kMarkReads_deg}};
    if (!s.move->mark_alone)
      a.others = {{"No mark: " + turn_in_words(s.move->turn.aim_deg), planned.does, NoMark{}}};
  }
  if (s.move->mark_first) {
    a.second = "Nothing in any port yet. " + way_told(s) + " Let go: does it stay there?";
    a.others = {{"No mark: look instead", NoMark{}}};
    a.beside = {Press{}, kCrankMoved, kUndo};
    return;
  }
  const double off_mark_deg = std::remainder(s.move->turn.aim_deg, kTurn_deg);
  if (!s.move->bump && s.mark_here && std::abs(off_mark_deg) < kSame_deg) {
    const double turn_deg = s.move->turn.aim_deg;
    a.second = way_told(s) + " Stop at the mark again, let go: does it stay there?";
    a.others = {{"Turned: mark in line again",
                 Turned{turn_deg - 2 * kMarkReads_deg, turn_deg + 2 * kMarkReads_deg},
                 MarkRead{0, kMarkReads_deg}}};
  }
  a.beside = {s.move->bump ? Press{} : Press{"too far or too little", TurnedTooFar{}}, kCrankMoved, kUndo};
}

void with_unseen_left(const Situation& s, Advice& a) {
  a.sentence = capital(the_ports(s.unseen_left)) + " can\u2019t be seen.";
  a.second = "Clean the lamp, try a mirror or a borescope. Without a look nothing is blasted.";
  a.wide = seen_shut(s.port);
  a.others = touching_or_open(s.port);
  a.beside = {out_of_reach(s.port), kCrankMoved, kUndo};
}

void with_contradiction(const Situation& s, Advice& a) {
  a.sentence = "That cannot all be true. Stop.";
  a.second = std::string("What is at fault? ") +
             (s.mark_here ? "The mark, then the likeliest" : "Likeliest") +
             " first. Check, then press it: until then nothing is blasted.";
  a.wide = {"Make every look again", LooksForgotten{}};
  a.beside = {Press{}, kCrankMoved, kUndo};
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
      break;
  }
  return "";
}

void to_look_again(const Situation& s, Advice& a) {
  a.sentence = "Look into " + the_ports(s.looks_due) + " again.";
  a.second = (s.cause ? mend_told(*s.cause, s.bank) : "") + "Until then nothing is blasted.";
  a.wide = seen_shut(s.port);
  a.others = touching_or_open(s.port);
  a.beside = {cannot_see(s.port), kCrankMoved, kUndo};
}

void when_finished(const Situation& s, Advice& a) {
  a.sentence = s.not_in_job.empty() ? "All ports are done." : "Done for today.";
  a.second = s.not_in_job.empty() ? "Refit, and note the mileage when it is due again."
                                  : "Left for another day: " + listed(s.not_in_job) +
                                        ". This job keeps it in mind: press its tile to go on.";
  a.wide = {s.not_in_job.empty() ? "Finished" : "Finished for today", {}};
  a.beside = {Press{}, Press{"new job", NewJob{}}, kUndo};
}

void on_picked(const Situation& s, Advice& a) {
  const int port = s.port;
  const std::string number = std::to_string(port);
  if (s.port_done) {
    a.sentence = "Port " + number + " is done.";
    a.second = "Not clean after all? Then it is worked once more.";
    a.wide = {port_says(port, "do it again"), PortAgain{port}};
    a.beside = {kBack, kCrankMoved, kUndo};
  } else if (s.port_out_of_reach) {
    a.sentence = "Port " + number + " is left for another day.";
    a.second = "It can be taken in again.";
    a.wide = {port_says(port, "take it in again"), Reachable{port, true}};
    a.beside = {kBack, kCrankMoved, kUndo};
  } else if (s.may_blast) {
    to_blast(s, a);
    a.others = {{port_says(port, "not today"), Reachable{port, false}}};
    a.beside = {Press{"seen open", LookedInto{port, Saw::open}}, kCrankMoved, kBack};
  } else {
    a.sentence = "Look into port " + number + ".";
    a.second = s.port_doubted         ? "The looks agree, but one more look is needed: not to be blasted yet."
               : s.port_seen_shut     ? "It was seen shut, but nothing else says so yet: not to be blasted."
               : s.port_reckoned_shut ? "It is reckoned shut. Every other port stays plugged."
                                      : "It is not reckoned shut. Every other port stays plugged.";
    a.wide = seen_shut(port);
    a.others = touching_or_open(port);
    a.beside = {out_of_reach(port), kCrankMoved, kBack};
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

std::string mark_misread() { return "The crank\u2019s mark was not in line."; }
std::string mark_check() {
  return "Look at the mark and its pointer: is it the right mark, and does it stand there?";
}
std::string look_again() { return "look again"; }

std::string choose(const CauseChosen& cause) {
  if (cause.what == Suspicion::moved) return "crank moved";
  const bool look = cause.what == Suspicion::missed_look || cause.what == Suspicion::wrong_port;
  return look && cause.cylinder ? "look into " + std::to_string(cause.cylinder) + " again" : look_again();
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
      return port.certain ? "SEEN SHUT" : port.look_again ? "LOOK" : "NOT YET";
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

std::string note(const PortView& port) {
  const char* const plug = port.plug == Plug::in          ? "plugged"
                           : port.plug == Plug::comes_out ? "plug: take out"
                           : port.plug == Plug::goes_in   ? "plug it"
                                                          : "not plugged";
  // Nothing else counts there.
  if (port.plug == Plug::comes_out || port.plug == Plug::out) return plug;
  switch (port.face) {
    case Face::waits:
      return plug;
    case Face::suspect:
      return "abrasive inside?";
    case Face::look:
      return port.reckoned_shut ? "reckoned shut" : "not known yet";
    case Face::seen_shut:
      return port.certain      ? (port.next ? "blast next" : "may be blasted")
             : port.look_again ? "seen before"
                               : "seen shut, unsure";
    case Face::touching:
      return "just touching";
    case Face::open:
      return std::string(port.seen ? "seen, " : "reckoned, ") + plug;
    case Face::hidden:
      return port.reckoned_shut ? "reckoned shut" : plug;
    case Face::blasting:
      return "being blasted";
    case Face::done:
      return std::string(port.open ? "open, " : "") + plug;
    case Face::out_of_reach:
      return std::string("not today, ") + plug;
    case Face::left_out:
      return std::string("other bank, ") + plug;
  }
  return "";
}

void speak(const Situation& situation, Advice& advice) {
  switch (situation.stage) {
    case Stage::inside:
      return with_abrasive_inside(situation, advice);
    case Stage::contradiction:
      return with_contradiction(situation, advice);
    case Stage::look_again:
      return to_look_again(situation, advice);
    case Stage::blasting:
      return while_blasting(situation, advice);
    case Stage::blast:
      return to_blast(situation, advice);
    case Stage::look:
      return to_look(situation, advice);
    case Stage::lobe:
      return to_look_at_lobe(situation, advice);
    case Stage::unseen_left:
      return with_unseen_left(situation, advice);
    case Stage::suck_out:
      return to_suck_out(situation, advice);
    case Stage::empty:
      return to_empty(situation, advice);
    case Stage::count:
      return to_count(situation, advice);
    case Stage::turn:
      return to_turn(situation, advice);
    case Stage::finished:
      return when_finished(situation, advice);
    case Stage::picked:
      return on_picked(situation, advice);
  }
}

}  // namespace shutlane::texts
