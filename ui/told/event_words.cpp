#include "ui/told/event_words.hpp"

#include <fmt/format.h>

#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <utility>

namespace shutlane {
namespace {

constexpr std::array kCauses{
    std::pair{Suspicion::missed_look, "look"}, std::pair{Suspicion::wrong_port, "port"},
    std::pair{Suspicion::moved, "moved"},      std::pair{Suspicion::mark, "mark"},
    std::pair{Suspicion::lobe, "lobe"},        std::pair{Suspicion::turn, "turn"},
    std::pair{Suspicion::phaser, "phaser"},    std::pair{Suspicion::crumb, "crumb"},
    std::pair{Suspicion::chain, "chain"},      std::pair{Suspicion::engine_data, "data"}};

constexpr std::array kSaws{std::pair{Saw::shut, "shut"}, std::pair{Saw::open, "open"},
                           std::pair{Saw::touching, "touching"}, std::pair{Saw::hidden, "hidden"}};

constexpr std::array kLobes{std::pair{Lobe::away, "away"}, std::pair{Lobe::at_valve, "at"},
                            std::pair{Lobe::unclear, "unclear"}, std::pair{Lobe::hidden, "hidden"}};

constexpr std::array kInsides{std::pair{Inside::clean, "clean"}, std::pair{Inside::sucked_out, "found"},
                              std::pair{Inside::parked, "parked"}};

template <class Table, class Kind>
std::string name_in(const Table& table, Kind kind) {
  for (const auto& [known, name] : table)
    if (known == kind) return name;
  return "";
}

template <class Table>
auto kind_in(const Table& table, std::string_view name) {
  using Kind = decltype(table[0].first);
  std::optional<std::remove_cv_t<Kind>> found;
  for (const auto& [known, word] : table)
    if (name == word) found = known;
  return found;
}

bool of_a_bank(Suspicion what) { return what == Suspicion::phaser || what == Suspicion::chain; }

struct Word {
  std::string operator()(const LookedInto& e) const {
    return fmt::format("{}:{}", name_in(kSaws, e.saw), e.cylinder);
  }
  std::string operator()(const LooksForgotten&) const { return "look-again"; }
  std::string operator()(const CauseChosen& e) const {
    const std::string word = "cause:" + name_in(kCauses, e.what);
    if (of_a_bank(e.what)) return fmt::format("{}:{}", word, e.bank + 1);
    return e.cylinder ? fmt::format("{}:{}", word, e.cylinder) : word;
  }
  std::string operator()(const BlastStarted& e) const { return fmt::format("start:{}", e.cylinder); }
  std::string operator()(const BlastStopped& e) const { return fmt::format("stop:{}", e.cylinder); }
  std::string operator()(const PortDone& e) const { return fmt::format("done:{}", e.cylinder); }
  std::string operator()(const PortAgain& e) const { return fmt::format("again:{}", e.cylinder); }
  std::string operator()(const Reachable& e) const {
    return fmt::format("{}:{}", e.reachable ? "take-in" : "skip", e.cylinder);
  }
  std::string operator()(const OnlyBank& e) const {
    return e.bank ? fmt::format("bank:{}", *e.bank + 1) : "bank:all";
  }
  std::string operator()(const MarkRead& e) const {
    return fmt::format("mark:{}:{}", e.at_deg, e.plus_minus_deg);
  }
  std::string operator()(const NoMark&) const { return "no-mark"; }
  std::string operator()(const LobeSeen& e) const {
    return fmt::format("lobe:{}:{}", e.cylinder, name_in(kLobes, e.points));
  }
  std::string operator()(const ChalkSeen& e) const { return e.in_line ? "chalk:in-line" : "chalk:moved"; }
  std::string operator()(const NoChalk&) const { return "no-chalk"; }
  std::string operator()(const SuckedOut&) const { return "sucked"; }
  std::string operator()(const InsideLooked& e) const {
    return fmt::format("inside:{}:{}", e.cylinder, name_in(kInsides, e.found));
  }
  std::string operator()(const PortsEmptied&) const { return "emptied"; }
  std::string operator()(const BungsCounted&) const { return "counted"; }
  std::string operator()(const BungMissing&) const { return "missing"; }
  std::string operator()(const Turned& e) const { return fmt::format("turned:{}:{}", e.min_deg, e.max_deg); }
  std::string operator()(const Bumped& e) const {
    if (e.press_s <= 0) return "bumped";
    return fmt::format("bumped:{}{}", e.press_s, e.timed ? "" : ":about");
  }
  std::string operator()(const PressStarted& e) const { return fmt::format("press:{}", e.press_s); }
  std::string operator()(const CrankMoved&) const { return "moved"; }
  std::string operator()(const AbrasiveLeft& e) const { return fmt::format("abrasive-left:{}", e.cylinder); }
};

std::vector<std::string_view> parts_of(std::string_view word) {
  std::vector<std::string_view> parts;
  for (size_t from = 0;;) {
    const size_t end = word.find(':', from);
    parts.push_back(word.substr(from, end - from));
    if (end == std::string_view::npos) return parts;
    from = end + 1;
  }
}

struct WordMistake {
  std::string why;
};

double number(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !std::isfinite(value))
    throw WordMistake{"a number is expected after the colon"};
  return value;
}

int cylinder(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || value < 1 || value > 99)
    throw WordMistake{"a number from 1 to 99 is expected after the colon"};
  return value;
}

/// The parts after the name; `least` and `most` of them.
using Parts = std::vector<std::string_view>;
void count(const Parts& parts, size_t least, size_t most) {
  const size_t given = parts.size() - 1;
  if (given < least) throw WordMistake{"something is missing after it"};
  if (given > most) throw WordMistake{"too much stands after it"};
}

template <class Kind>
Kind known(std::optional<Kind> kind, const char* expected) {
  if (!kind) throw WordMistake{std::string(expected) + " is expected"};
  return *kind;
}

JobEvent cause(const Parts& parts) {
  count(parts, 1, 2);
  CauseChosen chosen;
  chosen.what =
      known(kind_in(kCauses, parts[1]), "look, port, moved, mark, lobe, turn, phaser, chain, crumb or data");
  const bool names_one = parts.size() > 2;
  if (of_a_bank(chosen.what)) {
    if (names_one) chosen.bank = static_cast<size_t>(cylinder(parts[2])) - 1;
  } else if (names_one) {
    chosen.cylinder = cylinder(parts[2]);
  }
  return chosen;
}

JobEvent read(const Parts& parts) {
  const std::string_view name = parts[0];
  if (const auto saw = kind_in(kSaws, name)) return count(parts, 1, 1), LookedInto{cylinder(parts[1]), *saw};
  if (name == "look-again") return count(parts, 0, 0), LooksForgotten{};
  if (name == "cause") return cause(parts);
  if (name == "start") return count(parts, 1, 1), BlastStarted{cylinder(parts[1])};
  if (name == "stop") return count(parts, 1, 1), BlastStopped{cylinder(parts[1])};
  if (name == "done") return count(parts, 1, 1), PortDone{cylinder(parts[1])};
  if (name == "again") return count(parts, 1, 1), PortAgain{cylinder(parts[1])};
  if (name == "skip" || name == "take-in")
    return count(parts, 1, 1), Reachable{cylinder(parts[1]), name == "take-in"};
  if (name == "bank") {
    count(parts, 1, 1);
    if (parts[1] == "all") return OnlyBank{};
    return OnlyBank{static_cast<size_t>(cylinder(parts[1])) - 1};
  }
  if (name == "mark")
    return count(parts, 1, 2), MarkRead{number(parts[1]), parts.size() > 2 ? number(parts[2]) : 5};
  if (name == "no-mark") return count(parts, 0, 0), NoMark{};
  if (name == "lobe")
    return count(parts, 2, 2),
           LobeSeen{cylinder(parts[1]), known(kind_in(kLobes, parts[2]), "away, at, unclear or hidden")};
  if (name == "chalk") {
    count(parts, 1, 1);
    if (parts[1] != "in-line" && parts[1] != "moved") throw WordMistake{"in-line or moved is expected"};
    return ChalkSeen{parts[1] == "in-line"};
  }
  if (name == "no-chalk") return count(parts, 0, 0), NoChalk{};
  if (name == "sucked") return count(parts, 0, 0), SuckedOut{};
  if (name == "inside")
    return count(parts, 2, 2),
           InsideLooked{cylinder(parts[1]), known(kind_in(kInsides, parts[2]), "clean, found or parked")};
  if (name == "emptied") return count(parts, 0, 0), PortsEmptied{};
  if (name == "counted") return count(parts, 0, 0), BungsCounted{};
  if (name == "missing") return count(parts, 0, 0), BungMissing{};
  if (name == "turned") return count(parts, 2, 2), Turned{number(parts[1]), number(parts[2])};
  if (name == "bumped") {
    count(parts, 0, 2);
    if (parts.size() > 2 && parts[2] != "about") throw WordMistake{"nothing or about is expected at its end"};
    return Bumped{parts.size() > 1 ? number(parts[1]) : 0, parts.size() == 2};
  }
  if (name == "press") return count(parts, 1, 1), PressStarted{number(parts[1])};
  if (name == "moved") return count(parts, 0, 0), CrankMoved{};
  if (name == "abrasive-left") return count(parts, 1, 1), AbrasiveLeft{cylinder(parts[1])};
  throw WordMistake{"no event is called so"};
}

/// The cylinder that an event names; 0: none.
struct Named {
  template <class Event>
  int operator()(const Event& e) const {
    if constexpr (requires { e.cylinder; })
      return e.cylinder;
    else
      return 0;
  }
};

std::string why_no_blast(const JobModel& model, const JobState& state, int port) {
  const JobPort& now = *state.find(port);
  if (state.blasting) return fmt::format("port {} is being blasted", *state.blasting);
  if (now.done) return "it is done";
  if (!now.left()) return "it is left out";
  if (state.looks_due()) return "a look is due again first";
  if (state.here.where(model).empty()) return "what was told cannot all be true";
  if (now.seen != Saw::shut) return "it was not seen shut at this position";
  const Reckoning reckoned = reckoning(model, state);
  if (const auto waits = waits_for(model, state, reckoned, port))
    return "it waits for " + waits_for_word(*waits);
  return witnesses_agree(model, state, port) ? "the doubt is too great"
                                             : "nothing but its own look says that it is shut";
}

}  // namespace

std::string event_word(const JobEvent& event) { return std::visit(Word{}, event); }

std::variant<JobEvent, std::string> event_of_word(std::string_view word) {
  try {
    return read(parts_of(word));
  } catch (const WordMistake& mistake) {
    return mistake.why;
  }
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  constexpr std::string_view kBlank = " \t\r\n";
  for (size_t from = text.find_first_not_of(kBlank); from != std::string_view::npos;) {
    const size_t end = std::min(text.find_first_of(kBlank, from), text.size());
    words.emplace_back(text.substr(from, end - from));
    from = text.find_first_not_of(kBlank, end);
  }
  return words;
}

std::string waits_for_word(const WaitsFor& waits_for) {
  switch (waits_for.what) {
    case WaitsFor::What::look:
      return fmt::format("look:{}", waits_for.cylinder);
    case WaitsFor::What::chalk:
      return "chalk";
    case WaitsFor::What::mark:
      return "mark";
  }
  return "";
}

std::string why_refused(const JobModel& model, const JobState& state, const JobEvent& event) {
  const int port = std::visit(Named{}, event);
  if (port != 0 && !state.find(port)) return fmt::format("the engine has no cylinder {}", port);
  if (std::holds_alternative<BlastStarted>(event)) return why_no_blast(model, state, port);
  if (std::holds_alternative<BlastStopped>(event) || std::holds_alternative<PortDone>(event))
    return "it is not being blasted";
  if (std::holds_alternative<PortAgain>(event)) return "it is not done";
  if (std::holds_alternative<InsideLooked>(event)) return "nothing says that abrasive may be in there";
  if (std::holds_alternative<Reachable>(event)) return "it is so already, or being blasted";
  if (state.blasting && !std::holds_alternative<Turned>(event) && !std::holds_alternative<MarkRead>(event))
    return fmt::format("port {} is being blasted", *state.blasting);
  if (std::holds_alternative<OnlyBank>(event) || std::holds_alternative<CauseChosen>(event))
    return "the engine has no such bank";
  return "its numbers are out of range";
}

}  // namespace shutlane
