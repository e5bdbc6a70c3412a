#pragma once
// The verbs of the program: a request made of checked values in, an answer out. They throw BadInput.
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/witness/locate.hpp"
#include "sim/plan/bump_learn.hpp"
#include "sim/plan/bump_plan.hpp"
#include "sim/plan/wrench.hpp"
#include "ui/terminal/answer.hpp"
#include "ui/terminal/page.hpp"

namespace shutlane::terminal {

struct WindowsRequest {
  std::string engine;  ///< a bundled name or a path
  double margin_deg = kDefaultMargin_deg;
  bool json = false;
};
Answer windows_verb(const WindowsRequest& request, const Style& style);

struct AtRequest {
  std::string engine;
  double at_deg = 0;  ///< any angle
  double margin_deg = kDefaultMargin_deg;
  bool json = false;
};
Answer at_verb(const AtRequest& request, const Style& style);

struct PlanRequest {
  std::string engine;
  double from_deg = 0;  ///< any angle
  double plus_minus_deg = 0;
  std::vector<int> done{};
  std::optional<std::vector<int>> only{};
  double margin_deg = kDefaultMargin_deg;
  double accuracy_deg = kDefaultAccuracy_deg;
  bool json = false;
};
Answer plan_verb(const PlanRequest& request);

/// Where the crank stands is told by looks into the ports instead of an angle (plan.from_deg is not used).
struct PlanFromLooksRequest {
  PlanRequest plan;
  Looks looks{};
};
Answer plan_from_looks_verb(const PlanFromLooksRequest& request, const Style& style);

struct BumpRequest {
  std::string engine;
  double from_deg = 0;
  double press_s = 0.3;
  std::optional<int> trials{};  ///< else press_question's
  std::optional<uint64_t> seed{};
  bool plugs_out = false;
  bool json = false;
};
Answer bump_verb(const BumpRequest& request, const Style& style);

struct PlanByStarterRequest {
  PlanRequest plan;
  bool unknown = false;  ///< where the crank stands is not known (plan.from_deg is not used)
  bool both = false;     ///< the wrench is there too: bumps first where that saves moves
};
Answer plan_by_starter_verb(const PlanByStarterRequest& request);
/// "press about 0.3 s; anything from 0.24 to 0.36 s is nearly as good; one bump will most likely do (98 of
/// 100
/// ...)". Never promises presses outside press_min_s..press_max_s.
std::string press_in_words(const BumpPlan& plan);

/// One bump told, all forgotten, or (with neither) what was told shown.
struct LearnRequest {
  std::string engine;
  struct Bump {
    double from_deg = 0;  ///< any angle
    double press_s = 0.3;
    Went went = Went::as_reckoned;
  };
  std::optional<Bump> bump{};
  bool forget = false;
  bool json = false;
};
Answer learn_verb(const LearnRequest& request);

struct LocateRequest {
  std::string engine;
  Looks looks{};
  bool json = false;
};
Answer locate_verb(const LocateRequest& request, const Style& style);

/// What to do next in a job of which so much was told.
struct NextRequest {
  std::string engine;
  std::string by = "wrench";  ///< wrench, bar, wheel, starter or both
  std::string told{};         ///< events, one word each (ui/told/event_words.hpp)
  bool json = false;
};
Answer next_verb(const NextRequest& request);

struct EnginesRequest {
  bool names = false;                 ///< a name a line, nothing else
  std::optional<std::string> show{};  ///< the file of this engine, nothing else
  bool json = false;
};
Answer engines_verb(const EnginesRequest& request);

struct CheckRequest {
  std::string file;
  bool json = false;
};
/// With `json` the mistakes of a file are the answer, on standard output with kNoAnswer; else BadInput.
Answer check_verb(const CheckRequest& request);

struct DrawRequest {
  std::string page;                 ///< lanes | dial | lift
  std::string out;                  ///< ends in .pdf, .svg or .png
  std::optional<int> cylinder{};    ///< of a dial or of lift curves
  std::optional<double> press_s{};  ///< of lanes, with a plan: the fan of rest angles of this press
  bool with_plan = false;           ///< plan.from_deg was given
  PlanRequest plan;                 ///< engine and what is to be planned; json is not used
};
/// Writes the file and says nothing; says why when the engine has no starter that can be bumped.
Answer draw_verb(const DrawRequest& request);

// What several verbs share.

/// The engine, or BadInput with the lines of every mistake.
Engine engine_or_throw(const std::string& name_or_path);
/// "Inline six 3.0, twin cam (inline-six). Numbers: invented demonstration values." as a paragraph.
std::string heading(const std::string& word, const Engine& engine);
/// What the request leaves to be done; its lists are checked against the engine.
WrenchQuestion question_of(const Engine& engine, const PlanRequest& request);
/// BadInput when a look names no cylinder of the engine, one twice, or one as shut and open.
void check_looks(const Engine& engine, const Looks& looks);
/// Which looks cannot all be true, whose change would mend it, and the usual causes.
std::string contradiction_in_words(const Engine& engine, const Looks& given, const Contradiction& c);
std::string where_in_words(const ArcSet& set);

}  // namespace shutlane::terminal
