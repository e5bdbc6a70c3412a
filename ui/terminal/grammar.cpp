#include "ui/terminal/grammar.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "engines/catalog.hpp"
#include "ui/terminal/read_options.hpp"

namespace shutlane::terminal {
namespace {

constexpr const char* kVersion = "shutlane " SHUTLANE_VERSION;
constexpr size_t kHelpColumn = 27;

bool digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

/// CLI11's ways of reading words that are not ours.
std::vector<std::string> prepared(std::vector<std::string> words) {
  for (std::string& word : words) {
    // It takes -35 for a number but -.5 for an option.
    if (word.size() > 2 && word[0] == '-' && word[1] == '.' && digit(word[2])) word.insert(1, "0");
    // It would fill the empty value of --from= with the next word.
    if (word.size() > 3 && word.starts_with("--") && word.find('=') == word.size() - 1) {
      throw BadInput(fmt::format("{} is empty; expected a value after the =", in_quotes(word)));
    }
  }
  std::reverse(words.begin(), words.end());  // it wants them so
  return words;
}

std::string first_word(const std::string& text) { return text.substr(0, text.find_first_of(": ")); }

double read_whole(std::string_view option, std::string_view word, Range range) {
  const double value = read_number(option, word, range);
  if (value != std::floor(value))
    throw BadInput(fmt::format("{}: {} is not a whole number", option, in_quotes(word)));
  return value;
}

}  // namespace

Grammar::Grammar(const Style& style)
    : app_("Which intake ports are shut, and the fewest turns that shut all of them.", "shutlane"),
      style_(style) {
  app_.set_help_flag("-h,--help", "print this help");
  app_.set_version_flag("--version", kVersion, "print the version");
  app_.require_subcommand(0, 1);
  app_.allow_extras();
  app_.get_formatter()->column_width(kHelpColumn);
  app_.get_formatter()->label("SUBCOMMAND", "VERB");
  app_.footer(
      "Alone it opens the window, with an ENGINE in place of a verb on that engine.\n"
      "Exit status: 0 done, 1 no answer, 2 bad input.\n"
      "Example: shutlane plan inline-six --from 35\n"
      "Help for a verb: shutlane plan --help"
#ifdef SHUTLANE_HAS_WINDOW
      "\nWithout a display: shutlane picture ENGINE --out FILE.png draws the window's\n"
      "frame (help: shutlane picture --help)"
#endif
  );

  CLI::App& windows =
      verb("windows", "When is each intake port shut?", "shutlane windows inline-six --margin 5",
           [this] { return windows_verb(windows_request(), style_); });
  engine(windows);
  margin(windows);
  json(windows);

  CLI::App& at = verb("at", "How does every cylinder stand at one crank angle?", "shutlane at inline-six -35",
                      [this] { return at_verb(at_request(), style_); });
  engine(at);
  at.add_option("DEG", w_.at, "crank angle, 0 = cylinder 1 at firing TDC")->required()->type_name("");
  margin(at);
  json(at);

  CLI::App& plan = verb("plan", "Which ports first, and how to turn from there?",
                        "shutlane plan inline-six --from 35:10 --done 1,2", [this] { return plan_answer(); });
  engine(plan);
  plan_options(plan);
  plan.get_option("--from")->description("the crank, plus-minus PM; or looks, unknown");
  look_options(plan);
  value(plan, "--by", w_.by, "HOW", "wrench, starter (how long to press) or both");
  json(plan);

  CLI::App& locate = verb("locate", "Where can the crank stand, given what was seen?",
                          "shutlane locate inline-six --shut 1,2 --open 3 --mark 35",
                          [this] { return locate_verb(locate_request(), style_); });
  engine(locate);
  look_options(locate);
  json(locate);

  CLI::App& next = verb("next", "What to do next, as the window says it.",
                        "shutlane next inline-six --told \"mark:0:5 shut:3\"",
                        [this] { return next_verb(next_request()); });
  engine(next);
  value(next, "--by", w_.by, "HOW", "wrench, bar, wheel, starter or both (wrench)");
  value(next, "--told", w_.told, "EVENTS", "what was done and seen so far, a word each");
  json(next);

  CLI::App& bump = verb("bump", "Where does a bump of the starter leave the crank?",
                        "shutlane bump inline-six --from 35 --press 0.3",
                        [this] { return bump_verb(bump_request(), style_); });
  engine(bump);
  value(bump, "--from", w_.from, "DEG", "where the crank stands");
  value(bump, "--press", w_.press, "S", "how long the circuit is closed, 0.01 to 5 s");
  value(bump, "--trials", w_.trials, "N", "bumps to try, 1 to 1000000 (10000)");
  value(bump, "--seed", w_.seed, "N", "of the chances; same seed, same numbers (1)");
  value(bump, "--plugs", w_.plugs, "HOW", "spark or glow plugs in or out (in)");
  json(bump);

  CLI::App& learn = verb("learn", "Did a bump go further, or less far, than reckoned?",
                         "shutlane learn inline-six", [this] { return learn_verb(learn_request()); });
  engine(learn);
  value(learn, "--from", w_.from, "DEG", "where the crank stood");
  value(learn, "--press", w_.press, "S", "how long the circuit was closed");
  value(learn, "--went", w_.went, "HOW", "further, less-far or as-reckoned");
  flag(learn, "--forget", w_.forget, "forget all that was told of this engine");
  json(learn);

  CLI::App& engines = verb("engines", "Which engines are bundled?", "shutlane engines",
                           [this] { return engines_verb(engines_request()); });
  flag(engines, "--names", w_.names, "names alone, one a line");
  value(engines, "--show", w_.show, "NAME", "the file of an engine, bundled or your own");
  json(engines);

  CLI::App& check = verb("check", "Is an engine file right?", "shutlane check my-engine.toml",
                         [this] { return check_verb({.file = w_.file, .json = w_.json}); });
  check.add_option("FILE", w_.file, "path of an engine file")->required()->type_name("");
  json(check);

  CLI::App& draw = verb("draw", "A page to pin to the wall, as PDF, SVG or PNG.",
                        "shutlane draw inline-six lanes --from 35 --out plan.pdf",
                        [this] { return draw_verb(draw_request()); });
  engine(draw);
  draw.add_option("PAGE", w_.page, "lanes, dial, lift or bump")->required()->type_name("");
  value(draw, "--out", w_.out, "FILE", "its name ends in .pdf, .svg or .png");
  value(draw, "--cylinder", w_.cylinder, "N", "of a dial, lift curves or a bump (lowest)");
  value(draw, "--press", w_.press, "S", "lanes: where such a bump may end; bump: its course");
  plan_options(draw);
}

CLI::App& Grammar::verb(const std::string& name, const std::string& job, const std::string& example,
                        Act act) {
  CLI::App* app = app_.add_subcommand(name, job);
  app->group("Verbs")->allow_extras()->footer("Example: " + example);
  verbs_.push_back({app, std::move(act)});
  return *app;
}

void Grammar::engine(CLI::App& app) {
  app.add_option("ENGINE", w_.engine, "a bundled engine or the path of a file")->required()->type_name("");
}

void Grammar::value(CLI::App& app, const char* name, std::string& into, const char* kind, const char* help) {
  app.add_option(name, into, help)->type_name(kind);
}

void Grammar::flag(CLI::App& app, const char* name, bool& into, const char* help) {
  app.add_flag(name, into, help)->disable_flag_override();
}

void Grammar::json(CLI::App& app) { flag(app, "--json", w_.json, "print one JSON document"); }

void Grammar::margin(CLI::App& app) {
  value(app, "--margin", w_.margin, "DEG", "kept clear at both ends of a window (10)");
}

void Grammar::plan_options(CLI::App& app) {
  value(app, "--from", w_.from, "DEG[:PM]", "where the crank stands, plus-minus PM (0)");
  value(app, "--done", w_.done, "LIST", "ports blasted already, such as 1,2");
  value(app, "--only", w_.only, "LIST", "no ports but these");
  margin(app);
  value(app, "--accuracy", w_.accuracy, "DEG", "how near its aim a turn ends (10; plugs in: 360/n)");
}

void Grammar::look_options(CLI::App& app) {
  value(app, "--shut", w_.shut, "LIST", "ports seen shut, such as 1,2");
  value(app, "--open", w_.open, "LIST", "ports seen open");
  value(app, "--eye", w_.eye, "MM", "least lift the eye can tell (0.5)");
  value(app, "--mark", w_.mark, "DEG[:PM]", "crank mark modulo 360, plus-minus PM (5)");
}

bool Grammar::given(const std::string& option) const {
  const CLI::Option* found = chosen()->get_option_no_throw(option);
  return found != nullptr && found->count() > 0;
}

void Grammar::read_margin(double& into) const {
  if (given("--margin")) into = read_number("--margin", w_.margin, kWidths);
}

WindowsRequest Grammar::windows_request() const {
  WindowsRequest request{.engine = w_.engine, .json = w_.json};
  read_margin(request.margin_deg);
  return request;
}

AtRequest Grammar::at_request() const {
  AtRequest request{.engine = w_.engine, .at_deg = read_number("DEG", w_.at, kAngles), .json = w_.json};
  read_margin(request.margin_deg);
  return request;
}

PlanRequest Grammar::plan_request(bool needs_from, bool unknown) const {
  PlanRequest request{.engine = w_.engine, .json = w_.json};
  const bool told_otherwise = needs_from && (w_.from == "looks" || unknown);
  if (given("--from") && !told_otherwise) {
    for (const char* look : {"--shut", "--open", "--eye", "--mark"})
      if (given(look)) throw BadInput(fmt::format("{} goes with --from looks", look));
    const AngleAbout from = read_angle_about("--from", w_.from, kWidths);
    request.from_deg = from.at_deg;
    request.plus_minus_deg = from.plus_minus_deg.value_or(0);
  } else if (needs_from && !told_otherwise) {
    throw BadInput("--from is missing; expected where the crank stands, such as --from 35, or --from looks");
  }
  if (given("--done")) request.done = read_list("--done", w_.done);
  if (given("--only")) request.only = read_list("--only", w_.only);
  read_margin(request.margin_deg);
  if (given("--accuracy")) request.accuracy_deg = read_number("--accuracy", w_.accuracy, kWidths);
  return request;
}

Answer Grammar::plan_answer() const {
  if (given("--by") && w_.by != "wrench" && w_.by != "starter" && w_.by != "both")
    throw BadInput(fmt::format("--by: {} is not known; expected wrench, starter or both", in_quotes(w_.by)));
  if (w_.by == "starter" || w_.by == "both") return plan_by_starter_verb(plan_by_starter_request());
  if (w_.from == "unknown")
    throw BadInput(
        "--from unknown: a wrench needs to know where the crank stands; expected --from looks (and --shut, "
        "--open), or --by starter");
  return w_.from == "looks" ? plan_from_looks_verb(plan_from_looks_request(), style_)
                            : plan_verb(plan_request());
}

PlanByStarterRequest Grammar::plan_by_starter_request() const {
  const bool unknown = w_.from == "unknown";
  if (w_.from == "looks") throw BadInput("--from looks goes with --by wrench; expected an angle, or unknown");
  return {.plan = plan_request(true, unknown), .unknown = unknown, .both = w_.by == "both"};
}

BumpRequest Grammar::bump_request() const {
  if (!given("--from"))
    throw BadInput("--from is missing; expected where the crank stands, such as --from 35");
  if (!given("--press")) throw BadInput("--press is missing; expected seconds, such as --press 0.3");
  BumpRequest request{.engine = w_.engine,
                      .from_deg = read_number("--from", w_.from, kAngles),
                      .press_s = read_number("--press", w_.press, kPresses),
                      .json = w_.json};
  if (given("--trials"))
    request.trials = static_cast<int>(read_whole("--trials", w_.trials, {1, 1e6, "bumps"}));
  if (given("--seed"))
    request.seed = static_cast<uint64_t>(read_whole("--seed", w_.seed, {0, 1e15, "your choice"}));
  if (given("--plugs") && w_.plugs != "in" && w_.plugs != "out")
    throw BadInput(fmt::format("--plugs: {} is not known; expected in or out", in_quotes(w_.plugs)));
  request.plugs_out = w_.plugs == "out";
  return request;
}

LearnRequest Grammar::learn_request() const {
  LearnRequest request{.engine = w_.engine, .forget = w_.forget, .json = w_.json};
  const bool any = given("--from") || given("--press") || given("--went");
  if (!any) return request;
  if (request.forget)
    throw BadInput("--forget stands alone; expected no --from, --press or --went beside it");
  for (const char* option : {"--from", "--press", "--went"})
    if (!given(option))
      throw BadInput(fmt::format("{} is missing; a bump is told by --from, --press and --went", option));
  LearnRequest::Bump bump{.from_deg = read_number("--from", w_.from, kAngles),
                          .press_s = read_number("--press", w_.press, kPresses)};
  if (w_.went == "further" || w_.went == "less-far")
    bump.went = w_.went == "further" ? Went::further : Went::less_far;
  else if (w_.went != "as-reckoned")
    throw BadInput(fmt::format("--went: {} is not known; expected further, less-far or as-reckoned",
                               in_quotes(w_.went)));
  request.bump = bump;
  return request;
}

EnginesRequest Grammar::engines_request() const {
  EnginesRequest request{.names = w_.names, .json = w_.json};
  if (!given("--show")) return request;
  if (w_.names || w_.json) throw BadInput("--show stands alone; expected no --names or --json beside it");
  request.show = w_.show;
  return request;
}

NextRequest Grammar::next_request() const {
  NextRequest request{.engine = w_.engine, .told = w_.told, .json = w_.json};
  if (given("--by")) request.by = w_.by;
  return request;
}

LocateRequest Grammar::locate_request() const {
  return {.engine = w_.engine, .looks = looks(), .json = w_.json};
}

PlanFromLooksRequest Grammar::plan_from_looks_request() const {
  return {.plan = plan_request(true), .looks = looks()};
}

Looks Grammar::looks() const {
  Looks seen;
  if (given("--shut")) seen.shut = read_list("--shut", w_.shut);
  if (given("--open")) seen.open = read_list("--open", w_.open);
  if (given("--eye")) seen.eye_mm = read_number("--eye", w_.eye, kEyes);
  if (given("--mark")) {
    const AngleAbout mark = read_angle_about("--mark", w_.mark, kMarkWidths);
    seen.mark = MarkRead{mark.at_deg, mark.plus_minus_deg.value_or(kDefaultMark_deg)};
  }
  return seen;
}

DrawRequest Grammar::draw_request() const {
  DrawRequest request{.page = w_.page,
                      .out = w_.out,

                      .with_plan = given("--from"),
                      .plan = plan_request(false)};
  if (!given("--out")) throw BadInput("--out is missing; expected a file, such as --out plan.pdf");
  if (given("--cylinder")) {
    const std::vector<int> one = read_list("--cylinder", w_.cylinder);
    if (one.size() != 1) throw BadInput("--cylinder: expected one cylinder");
    request.cylinder = one.front();
  }
  if (given("--press")) {
    request.press_s = read_number("--press", w_.press, kPresses);
    if (!request.with_plan) throw BadInput("--press wants --from too; expected where the crank stands");
  }
  return request;
}

const CLI::App* Grammar::chosen() const {
  const auto parsed = app_.get_subcommands();
  return parsed.empty() ? nullptr : parsed.front();
}

/// The first word that nobody wanted, with the nearest one that somebody would have.
void Grammar::refuse_extras(const CLI::App& app) const {
  const std::vector<std::string> extras = app.remaining();
  if (extras.empty()) return;
  const std::string word = extras.front().substr(0, extras.front().find('='));
  const bool option = word.size() > 1 && word[0] == '-';
  std::vector<std::string> known;
  if (option) {
    for (const CLI::Option* o : app.get_options()) {
      for (const std::string& name : o->get_lnames()) known.push_back("--" + name);
    }
  } else if (chosen() == nullptr) {
    for (const Verb& v : verbs_) known.push_back(v.app->get_name());
  }
  const auto near = nearest(word, known);
  throw BadInput(fmt::format("{} {}; {}",
                             option                ? "unknown option"
                             : chosen() == nullptr ? "unknown verb"
                                                   : "unexpected word",
                             in_quotes(word), near ? fmt::format("did you mean {}?", *near) : hint()));
}

std::string Grammar::hint() const {
  return chosen() == nullptr ? "see shutlane --help"
                             : fmt::format("see shutlane {} --help", chosen()->get_name());
}

Answer Grammar::run(std::vector<std::string> words) {
  try {
    app_.parse(prepared(std::move(words)));
  } catch (const CLI::CallForHelp&) {
    return {.out = chosen() == nullptr ? app_.help() : chosen()->help("shutlane")};
  } catch (const CLI::CallForVersion&) {
    return {.out = fmt::format("{}\n", kVersion)};
  } catch (const CLI::ParseError& e) {
    // An unknown option says more than the ENGINE that is missing because of it.
    if (chosen() != nullptr) refuse_extras(*chosen());
    refuse_extras(app_);
    if (dynamic_cast<const CLI::ArgumentMismatch*>(&e) != nullptr) {
      // It begins with the option's name, a flag's without its dashes.
      const std::string name = first_word(e.what());
      const bool value = name.starts_with("--");
      throw BadInput(fmt::format("{}{} {}; {}", value ? "" : "--", harmless(name),
                                 value ? "wants one value, given once" : "takes no value", hint()));
    }
    throw BadInput(fmt::format("{}; {}", harmless(e.what()), hint()));
  }
  refuse_extras(app_);
  if (chosen() == nullptr) throw BadInput(fmt::format("no verb; {}", hint()));
  refuse_extras(*chosen());
  return std::find_if(verbs_.begin(), verbs_.end(), [&](const Verb& v) { return v.app == chosen(); })->act();
}

}  // namespace shutlane::terminal
