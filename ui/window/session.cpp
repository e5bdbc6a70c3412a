#include "ui/window/session.hpp"

#include <algorithm>

#include "ui/told/telling.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {

namespace {

/// Ports before whose valves abrasive lies, or has lain when a valve may have opened.
std::vector<int> loose_ports(const JobState& job) {
  std::vector<int> ports;
  for (const JobPort& port : job.ports)
    if (port.loose || port.maybe_inside) ports.push_back(port.cylinder);
  return ports;
}

constexpr size_t kHistory = 2000;  // steps that can be undone

/// Whether its crank has a mark is asked once for an engine.
void remember_mark(Document& document, const JobEvent& event) {
  std::vector<std::string>& unmarked = document.preferences.engines_without_mark;
  if (std::holds_alternative<MarkRead>(event)) std::erase(unmarked, document.engine_name);
  if (!std::holds_alternative<NoMark>(event)) return;
  std::erase(unmarked, document.engine_name);
  unmarked.push_back(document.engine_name);
}
}  // namespace

bool press_under_way(const Document& document) {
  return !document.events.empty() && std::holds_alternative<PressStarted>(document.events.back().event);
}

Session::Session(Clock clock, FindEngine find_engine)
    : clock_(std::move(clock)), find_engine_(std::move(find_engine)) {
  refresh();
}

void Session::restore(Document document) {
  past_.clear();
  future_.clear();
  snapshot_.document = std::move(document);
  // Steps of the job can be taken back in a later session too.
  for (size_t i = 0; i < snapshot_.document.events.size(); ++i) {
    // What undo itself has added is no step.
    if (std::holds_alternative<AbrasiveLeft>(snapshot_.document.events[i].event)) continue;
    Document before = snapshot_.document;
    before.events.resize(i);
    past_.push_back(std::move(before));
  }
  snapshot_.page = snapshot_.document.engine ? Page::none : Page::start;
  refresh();
}

void Session::say(std::string message) {
  const size_t end = message.find('\n');  // there is room for one line; the terminal's `check` lists them all
  if (end != std::string::npos) message.resize(end);
  snapshot_.message = std::move(message);
}

bool Session::apply() {
  const bool any = !queue_.empty();
  while (!queue_.empty()) {
    const Command command = std::move(queue_.front());
    queue_.pop_front();
    run(command);
  }
  return any;
}

void Session::change(Document next) {
  past_.push_back(std::move(snapshot_.document));
  if (past_.size() > kHistory) past_.erase(past_.begin());
  future_.clear();
  snapshot_.document = std::move(next);
  ++revision_;
}

void Session::step(std::vector<Document>& from, std::vector<Document>& to) {
  if (from.empty()) return;
  to.push_back(std::move(snapshot_.document));
  snapshot_.document = std::move(from.back());
  from.pop_back();
  snapshot_.picked.reset();
  snapshot_.page = snapshot_.document.engine ? Page::none : Page::start;
  ++revision_;
}

void Session::undo() {
  if (past_.empty()) return;
  const std::vector<int> loose = loose_ports(snapshot_.job);
  if (!loose.empty() && past_.back().engine_name != snapshot_.document.engine_name)
    return say(texts::suck_out_first(loose));
  const std::vector<LoggedEvent> before = snapshot_.document.events;
  step(past_, future_);
  // What was done at the engine is not undone by a key.
  if (before.size() > snapshot_.document.events.size()) say(texts::undone(before[snapshot_.document.events.size()].event));
  refresh();
  for (const int port : loose) {
    const JobPort* now = snapshot_.job.find(port);
    if (!now || now->loose || now->maybe_inside) continue;
    snapshot_.document.events.push_back({AbrasiveLeft{port}, clock_()});
  }
}

void Session::log(const JobEvent& event) {
  // While the what-if needle is out nothing is logged: nobody can tell which crank is meant.
  if (!snapshot_.model || snapshot_.what_if_deg || !may(*snapshot_.model, snapshot_.job, event)) return;
  Document next = snapshot_.document;
  next.events.push_back({event, clock_()});
  remember_mark(next, event);
  change(std::move(next));
  snapshot_.picked.reset();
}

void Session::take_back_press() {
  if (!press_under_way(snapshot_.document)) return;
  const size_t with_it = snapshot_.document.events.size();
  // Undo must not bring it back, whatever else was done since it was logged.
  for (size_t i = past_.size(); i-- > 0;) {
    if (past_[i].events.size() < with_it) {
      past_.erase(past_.begin() + static_cast<std::ptrdiff_t>(i));
      break;
    }
    past_[i].events.pop_back();
  }
  snapshot_.document.events.pop_back();
  ++revision_;
}

void Session::open(const OpenEngine& command) {
  std::variant<Engine, std::string> found = find_engine_(command.name);
  if (const auto* why_not = std::get_if<std::string>(&found)) {
    say(*why_not);
    return;
  }
  if (const std::vector<int> loose = loose_ports(snapshot_.job); !loose.empty())
    return say(texts::suck_out_first(loose));
  Document next = snapshot_.document;
  next.engine = std::make_shared<const Engine>(std::get<Engine>(std::move(found)));
  next.engine_name = command.name;
  next.demo = command.demo;
  next.bench = Bench::work;
  next.events.clear();
  const JobRules usual =
      usual_rules(*next.engine, {command.turn_by, command.wrench_too && command.turn_by == TurnBy::starter});
  next.rules.turn_by = usual.turn_by;
  next.rules.wrench_too = usual.wrench_too;
  next.rules.accuracy_deg = usual.accuracy_deg;
  const std::vector<std::string>& unmarked = next.preferences.engines_without_mark;
  if (std::find(unmarked.begin(), unmarked.end(), next.engine_name) != unmarked.end())
    next.events.push_back({NoMark{}, clock_()});
  change(std::move(next));
  snapshot_.picked.reset();
  snapshot_.what_if_deg.reset();
  cautions_due_ = true;
  snapshot_.page = Page::cautions;
}

void Session::run(const Command& command) {
  if (!std::holds_alternative<MoveWhatIf>(command))
    snapshot_.message.clear();  // it was about something before
  Document next = snapshot_.document;
  if (const auto* logged = std::get_if<LogEvent>(&command)) {
    log(logged->event);
  } else if (std::holds_alternative<TakeBackPress>(command)) {
    take_back_press();
  } else if (std::holds_alternative<Undo>(command)) {
    undo();
  } else if (std::holds_alternative<Redo>(command)) {
    step(future_, past_);
  } else if (const auto* pick = std::get_if<Pick>(&command)) {
    snapshot_.picked = pick->cylinder;
  } else if (const auto* bench = std::get_if<ShowBench>(&command)) {
    snapshot_.page = page_of(bench->bench);
    if (next.bench != bench->bench) {
      next.bench = bench->bench;
      change(std::move(next));
    }
  } else if (const auto* page = std::get_if<ShowPage>(&command)) {
    const bool read = snapshot_.page == Page::cautions || snapshot_.page == Page::bump_cautions;
    if (page->page == Page::none && read) cautions_due_ = false;
    snapshot_.page = page->page == Page::none ? page_of(next.bench) : page->page;
  } else if (const auto* preferences = std::get_if<SetPreferences>(&command)) {
    next.preferences = preferences->preferences;
    change(std::move(next));
  } else if (const auto* rules = std::get_if<SetRules>(&command)) {
    const bool lowered = rules->rules.margin_deg < kDefaultMargin_deg;
    if (lowered && rules->reason.empty()) return say(texts::margin_needs_reason());
    next.rules = rules->rules;
    next.margin_reason = lowered ? rules->reason : "";
    change(std::move(next));
  } else if (const auto* opened = std::get_if<OpenEngine>(&command)) {
    open(*opened);
  } else if (const auto* changed = std::get_if<ChangeEngine>(&command)) {
    if (!changed->engine) return;
    next.engine = changed->engine;
    change(std::move(next));
  } else if (std::holds_alternative<StartOver>(command)) {
    if (const std::vector<int> loose = loose_ports(snapshot_.job); !loose.empty())
      return say(texts::suck_out_first(loose));  // a new job would forget it
    const bool any = !next.events.empty();
    next.events.clear();
    change(std::move(next));
    snapshot_.picked.reset();
    snapshot_.page = Page::none;
    if (any) say(texts::new_job_begun());
  } else if (const auto* needle = std::get_if<MoveWhatIf>(&command)) {
    snapshot_.what_if_deg = needle->at_deg;
    return;  // nothing of the job follows from it, and it may move with every frame
  } else if (const auto* said = std::get_if<Say>(&command)) {
    say(said->message);
  } else if (std::holds_alternative<Dismiss>(command)) {
    snapshot_.message.clear();
  }
  // A later command of the same frame reads the job as this one left it.
  refresh();
}

void Session::refresh() {
  Snapshot& s = snapshot_;
  s.can_undo = !past_.empty();
  const bool another_before =
      s.can_undo && !past_.back().events.empty() && past_.back().engine_name == s.document.engine_name;
  s.undo_of_job = s.can_undo && (!s.document.events.empty() || another_before);
  s.can_redo = !future_.empty();
  s.job_started_s.reset();
  if (!s.document.engine) {
    s.model.reset();
    s.page = Page::start;
    return;
  }
  if (modelled_ != s.document.engine || !s.model || s.model->rules != s.document.rules) {
    s.model = make_job_model(*s.document.engine, s.document.rules);  // takes longer than a frame
    s.job = start_job(*s.model);
    folded_.clear();
  }
  modelled_ = s.document.engine;
  std::vector<JobEvent> events;
  events.reserve(s.document.events.size());
  for (const LoggedEvent& logged : s.document.events) events.push_back(logged.event);
  // Most often there is one event more than before; turns take milliseconds each.
  const bool goes_on =
      events.size() >= folded_.size() && std::equal(folded_.begin(), folded_.end(), events.begin());
  if (!goes_on) s.job = fold(*s.model, events);
  for (size_t i = folded_.size(); goes_on && i < events.size(); ++i)
    s.job = replayed(*s.model, std::move(s.job), events[i]);
  folded_ = events;
  if (s.picked && !s.job.find(*s.picked)) s.picked.reset();
  s.advice = advise(*s.model, s.job, s.picked);
  if (!s.document.events.empty()) s.job_started_s = s.document.events.front().at_s;
}

}  // namespace shutlane
