#include <fmt/format.h>

#include <algorithm>

#include "sim/witness/evidence.hpp"
#include "ui/drawings/words.hpp"
#include "ui/terminal/answers_json.hpp"
#include "ui/terminal/figures.hpp"
#include "ui/terminal/lane_strip.hpp"
#include "ui/terminal/read_options.hpp"
#include "ui/terminal/sentences.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
void check_looks(const Engine& engine, const Looks& looks) {
  check_cylinders(engine, "--shut", looks.shut);
  check_cylinders(engine, "--open", looks.open);
  for (int number : looks.shut) {
    if (std::find(looks.open.begin(), looks.open.end(), number) == looks.open.end()) continue;
    throw BadInput(
        fmt::format("--open: cylinder {} stands in --shut too; expected one answer a port", number));
  }
}

std::string contradiction_in_words(const Engine& engine, const Looks& given, const Contradiction& c) {
  std::string looks;
  const auto add = [&](const std::string& part) { looks += (looks.empty() ? "" : "; ") + part; };
  if (!c.shut.empty()) add(fmt::format("{} seen shut", ports_in_words(c.shut)));
  if (!c.open.empty()) add(fmt::format("{} seen open", ports_in_words(c.open)));
  if (c.mark) add("the crank mark as read");
  std::string out = paragraph("", fmt::format(say::kContradiction, looks));
  std::string suspects;
  for (const Mend& mend : mends(port_sets(engine, given.eye_mm), {given, ArcSet::all()}))
    suspects += (suspects.empty() ? "" : ", ") +
                (mend.cylinder == 0 ? std::string("the crank mark") : fmt::format("port {}", mend.cylinder));
  if (!suspects.empty()) out += paragraph("", fmt::format(say::kMends, suspects));
  return out + paragraph("", say::kContradictionMend);
}

std::string where_in_words(const ArcSet& set) {
  if (set.full()) return "the whole cycle";
  std::string words;
  for (const Arc& arc : set.arcs()) {
    words += fmt::format("{}{} to {} degrees", words.empty() ? "" : ", ", degrees(arc.from_deg),
                         degrees(wrap_deg(arc.to_deg())));
  }
  return words;
}

Answer locate_verb(const LocateRequest& request, const Style& style) {
  const Engine engine = engine_or_throw(request.engine);
  check_looks(engine, request.looks);
  const Location location = locate(engine, request.looks);
  const int status = location.contradiction ? kNoAnswer : kDone;
  if (request.json) return {.status = status, .out = json_text(locate_json(request.engine, location))};
  std::string out = heading(request.engine, engine);
  if (location.contradiction) {
    return {.status = status,
            .out = out + contradiction_in_words(engine, request.looks, *location.contradiction)};
  }
  out += paragraph("", fmt::format(say::kMayStand, where_in_words(location.consistent)));
  out += "\n" +
         lane_strip(shut_windows(engine), {.crank_deg = {}, .may_stand = &location.consistent}, style) + "\n";
  const auto row = [&](std::string_view what, const std::vector<int>& list) {
    if (!list.empty()) out += paragraph(fmt::format("  {:<21}", what), list_in_words(list));
  };
  row("Reckoned shut", location.surely_shut);
  row("Reckoned open", location.surely_open);
  // By the contract a port seen open is undecided while the rest does not say so: no words for a reader.
  std::vector<int> seen_open, undecided;
  for (int number : location.undecided) {
    const std::vector<int>& open = request.looks.open;
    (std::find(open.begin(), open.end(), number) != open.end() ? seen_open : undecided).push_back(number);
  }
  row("Seen open", seen_open);
  row("Undecided", undecided);
  std::vector<int> both, unseen;  // two witnesses; the reckoning alone
  for (int number : location.witnessed) {
    const bool seen =
        std::find(request.looks.shut.begin(), request.looks.shut.end(), number) != request.looks.shut.end();
    (seen ? both : unseen).push_back(number);
  }
  out += paragraph("", both.empty() ? std::string(say::kNoneWitnessed)
                                    : fmt::format(say::kWitnessed, ports_in_words(both)));
  if (!unseen.empty()) out += paragraph("", fmt::format(say::kUnseen, ports_in_words(unseen)));
  // By the contract it may be a port that was answered: a second look there would say the same.
  const auto answered = [&](const std::vector<int>& ports) {
    return std::find(ports.begin(), ports.end(), *location.next_look) != ports.end();
  };
  const bool helps = location.next_look && !answered(request.looks.shut) && !answered(request.looks.open);
  out += paragraph("",
                   helps ? fmt::format(say::kLookNext, *location.next_look) : std::string(say::kNoLookHelps));
  return {.status = status, .out = out};
}

}  // namespace shutlane::terminal
