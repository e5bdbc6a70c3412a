#include <fmt/format.h>

#include "ui/terminal/answers_json.hpp"
#include "ui/terminal/figures.hpp"
#include "ui/terminal/lane_strip.hpp"
#include "ui/terminal/sentences.hpp"
#include "ui/terminal/verbs.hpp"

namespace shutlane::terminal {
namespace {

/// "588 to 348" or "never"; several arcs with commas.
std::string arcs_in_words(const ArcSet& set) {
  if (set.empty()) return "never";
  if (set.full()) return "always";
  std::string words;
  for (const Arc& arc : set.arcs()) {
    words += fmt::format("{}{} to {}", words.empty() ? "" : ", ", degrees(arc.from_deg),
                         degrees(wrap_deg(arc.to_deg())));
  }
  return words;
}

/// The lifts of the valves in file order; like neighbours once: "0.48", "0.48/0.28".
std::string lifts_in_words(const Engine& engine, const Cylinder& cylinder, ValveKind kind, double at_deg) {
  std::string words, last;
  for (double lift : lifts_mm(engine, cylinder, kind, at_deg)) {
    const std::string one = fmt::format("{:.2f}", lift);
    if (one == last) continue;
    words += (words.empty() ? "" : "/") + one;
    last = one;
  }
  return words.empty() ? "-" : words;
}

}  // namespace

Answer windows_verb(const WindowsRequest& request, const Style& style) {
  const Engine engine = engine_or_throw(request.engine);
  const std::vector<Windows> windows = shut_windows(engine, request.margin_deg);
  if (request.json) {
    return {.out = json_text(windows_json(request.engine, engine, windows, request.margin_deg))};
  }
  std::vector<std::vector<std::string>> rows;
  for (const Windows& w : windows) {
    rows.push_back({fmt::format("{}", w.cylinder), degrees(engine.find(w.cylinder)->firing_tdc_deg),
                    arcs_in_words(w.shut), degrees(w.shut.total_deg()), arcs_in_words(w.sure),
                    degrees(w.sure.total_deg())});
  }
  std::string out = heading(request.engine, engine);
  out += paragraph("",
                   fmt::format("Crank degrees from cylinder 1's firing TDC; surely shut keeps a margin of {} "
                               "degrees. {}",
                               degrees(request.margin_deg), say::kReckoned));
  out += "\n" +
         table({{"cylinder"}, {"firing TDC"}, {"intake shut"}, {"long"}, {"surely shut"}, {"long"}}, rows);
  out += "\n" + lane_strip(windows, {}, style);
  return {.out = out};
}

Answer at_verb(const AtRequest& request, const Style& style) {
  const Engine engine = engine_or_throw(request.engine);
  const std::vector<Windows> windows = shut_windows(engine, request.margin_deg);
  const double at_deg = wrap_deg(request.at_deg);
  if (request.json) return {.out = json_text(at_json(request.engine, engine, windows, at_deg))};
  std::vector<std::vector<std::string>> rows;
  for (const Windows& w : windows) {
    const Cylinder& c = *engine.find(w.cylinder);
    const double local_deg = c.local_deg(at_deg);
    rows.push_back({fmt::format("{}", w.cylinder), state_name(shut_state(w, at_deg)), stroke_name(local_deg),
                    degrees(local_deg), lifts_in_words(engine, c, ValveKind::intake, at_deg),
                    lifts_in_words(engine, c, ValveKind::exhaust, at_deg),
                    fmt::format("{:.1f}", c.crank.at_local(local_deg).below_top_mm)});
  }
  std::string out = heading(request.engine, engine);
  out += paragraph("", fmt::format("Crank at {} degrees from cylinder 1's firing TDC, margin {} degrees. {}",
                                   degrees(at_deg), degrees(request.margin_deg), say::kReckoned));
  out += "\n" + table({{"cyl"},
                       {"intake", Side::left},
                       {"stroke", Side::left},
                       {"degrees"},
                       {"intake mm"},
                       {"exhaust mm"},
                       {"piston mm"}},
                      rows);
  out += "\n" + lane_strip(windows, {.crank_deg = at_deg}, style);
  return {.out = out};
}

}  // namespace shutlane::terminal
