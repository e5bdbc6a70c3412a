#include "ui/window/study/study.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <utility>

#include "engines/catalog.hpp"
#include "ui/window/study/texts.hpp"

namespace shutlane {

namespace {
constexpr size_t kSteps = 500;  // of the knobs that can be undone

bool is_bundled(const std::string& name) {
  const auto& files = bundled_files();
  return std::any_of(files.begin(), files.end(), [&](const BundledFile& f) { return f.name == name; });
}

bool same_cylinders(const Engine& a, const Engine& b) {
  return std::equal(a.cylinders.begin(), a.cylinders.end(), b.cylinders.begin(), b.cylinders.end(),
                    [](const Cylinder& x, const Cylinder& y) { return x.number == y.number; });
}
}  // namespace

void Study::follow(const Snapshot& snapshot) {
  const Document& document = snapshot.document;
  if (!document.engine) return;
  const bool new_rules = !(document.rules == rules_);
  rules_ = document.rules;
  if (document.engine != jobs_) {
    const bool same_file = jobs_ && document.engine_name == jobs_name_;
    const bool read_again = same_file && of_the_job_ && jobs_name_ == name_;
    const bool another_shown = same_file && !of_the_job_;
    jobs_ = document.engine;
    jobs_name_ = document.engine_name;
    const std::string said = note;
    if (!another_shown) take(*jobs_, document.engine_name, true);
    if (read_again) note = said;
  } else if (new_rules) {
    reckon();
  }
  follow_job_file();
  if (!watch_) return;
  std::optional<ReadFile> read = watch_->take();
  if (!read) return;
  if (const auto* lines = std::get_if<std::string>(&*read)) {
    file_mistakes = *lines;
    return;
  }
  const Engine& engine_now = std::get<Engine>(*read);
  if (of_the_job_ && same_cylinders(engine_now, *jobs_)) {
    // The job goes on with it; it comes back here as the job's engine.
    changed_job_engine_ = std::make_shared<const Engine>(engine_now);
    file_mistakes.clear();
  } else {
    take(engine_now, name_, false);
  }
  note = texts::reloaded(name_);
}

/// The job's file is watched also while another engine is shown: a plan on numbers that its file no longer
/// holds could call a port shut that is open.
void Study::follow_job_file() {
  const bool apart = !jobs_name_.empty() && !is_bundled(jobs_name_) && !(of_the_job_ && name_ == jobs_name_);
  if (!apart) return job_watch_.reset();
  if (!job_watch_ || job_watch_->path() != jobs_name_)
    job_watch_ = std::make_unique<FileWatch>(jobs_name_, wake);
  const std::optional<ReadFile> read = job_watch_->take();
  if (!read) return;
  const auto* engine_now = std::get_if<Engine>(&*read);
  if (engine_now && same_cylinders(*engine_now, *jobs_))
    changed_job_engine_ = std::make_shared<const Engine>(*engine_now);
  else
    job_file_trouble_ = texts::job_file_unfit(jobs_name_);
}

void Study::open(const std::string& name) {
  auto found = find_engine(name);
  if (const auto* lines = std::get_if<std::string>(&found)) {
    file_mistakes = *lines;
    return;
  }
  take(std::get<Engine>(found), name, false);
}

void Study::take(const Engine& engine, const std::string& name, bool of_the_job) {
  keep_unsaved();
  if (name != name_) timeline.start_cylinder = 1;  // a choice made for another engine
  name_ = name;
  of_the_job_ = of_the_job;
  tinker = Tinker(engine);
  save_name.reset();
  save_trouble.clear();
  past_.clear();
  future_.clear();
  note.clear();
  file_mistakes.clear();
  if (!engine.find(cylinder)) cylinder = engine.cylinders.front().number;
  if (!engine.find(timeline.start_cylinder)) timeline.start_cylinder = 1;
  const bool own = !is_bundled(name) && !name.empty();
  if (own) list_own(name, engine.spec);
  if (!own)
    watch_.reset();
  else if (!watch_ || watch_->path() != name)
    watch_ = std::make_unique<FileWatch>(name, wake);
  reckon();
}

/// Tried numbers outlive the choice of another engine: they wait in the list.
void Study::keep_unsaved() {
  if (!tinker.engine() || !tinker.changed()) return;
  std::erase_if(unsaved_, [&](const Unsaved& u) { return u.name == name_; });
  unsaved_.insert(unsaved_.begin(), {name_, tinker, past_, future_});
}

void Study::open_unsaved(size_t index) {
  if (index >= unsaved_.size()) return;
  Unsaved again = std::move(unsaved_[index]);
  unsaved_.erase(unsaved_.begin() + static_cast<std::ptrdiff_t>(index));
  const bool job = jobs_ && jobs_name_ == again.name && jobs_->spec == again.tinker.file();
  const std::shared_ptr<const Engine> shown = again.tinker.engine();
  take(*shown, again.name, job);
  tinker = std::move(again.tinker);
  past_ = std::move(again.past);
  future_ = std::move(again.future);
  if (!is_bundled(name_) && !name_.empty()) list_own(name_, tinker.file());
  reckon();
}

void Study::list_own(const std::string& path, const EngineSpec& spec) {
  const auto at =
      std::find_if(own_.begin(), own_.end(), [&](const EngineEntry& e) { return e.name == path; });
  if (at != own_.end())
    *at = entry_of(path, spec, true);
  else
    own_.insert(own_.begin(), entry_of(path, spec, true));
}

void Study::list_own(const std::string& path) {
  const auto found = find_engine(path);
  if (const auto* engine = std::get_if<Engine>(&found)) list_own(path, engine->spec);
}

void Study::reckon() {
  windows_ = shut_windows(engine(), rules_.margin_deg);
  events_ = crank_events(engine(), windows_);
  plan_from_deg_.reset();
}

void Study::remember() {
  past_.push_back(tinker);
  if (past_.size() > kSteps) past_.erase(past_.begin());
  future_.clear();
}

void Study::knob(KnobKind kind, size_t valve, double value, bool same_pull) {
  if (!same_pull) remember();
  tinker.set(kind, valve, value);
  reckon();
}

void Study::keep_crank(bool keep) {
  remember();
  tinker.set_keep_crank(keep);
  reckon();
}

void Study::back_to_file() {
  if (!tinker.changed()) return;
  remember();
  tinker.back_to_file();
  note.clear();
  reckon();
}

bool Study::undo() {
  if (past_.empty()) return false;
  future_.push_back(std::exchange(tinker, past_.back()));
  past_.pop_back();
  reckon();
  return true;
}

bool Study::redo() {
  if (future_.empty()) return false;
  past_.push_back(std::exchange(tinker, future_.back()));
  future_.pop_back();
  reckon();
  return true;
}

std::string Study::save_folder() const {
  const std::filesystem::path path(name_);
  if (!is_bundled(name_) && path.has_parent_path()) return path.parent_path().string();
  return own_folder.empty() || !is_bundled(name_) ? "." : own_folder;
}

void Study::ask_save_name() {
  offered_name_ = std::filesystem::path(free_path(save_folder(), name_)).stem().string();
  save_name = offered_name_;
  save_trouble.clear();
  save_name_fresh = true;
}

void Study::save() {
  if (!save_name) return;
  const auto path = path_in(save_folder(), *save_name);
  if (!path) {
    save_trouble = texts::save_name_wrong();
    return;
  }
  EngineSpec spec = engine().spec;
  // A name that a person gave is the engine's too.
  const bool own_name = *save_name != offered_name_;
  spec.name = own_name ? std::filesystem::path(*path).stem().string() : texts::changed_name(spec.name);
  spec.source = texts::changed_source(spec.source);
  std::error_code wrong;
  std::filesystem::create_directories(save_folder(), wrong);  // when it fails the file can't be written
  save_trouble = save_engine(spec, *path).value_or("");
  if (!save_trouble.empty()) return;
  tinker.back_to_file();  // they are saved: nothing is left to keep
  open(*path);
  note = texts::save_done(*path);
}

void Study::pick_cylinder_by(int places) {
  const auto& all = engine().cylinders;
  const auto at =
      std::find_if(all.begin(), all.end(), [&](const Cylinder& c) { return c.number == cylinder; });
  const int n = static_cast<int>(all.size()), i = at == all.end() ? 0 : static_cast<int>(at - all.begin());
  cylinder = all[static_cast<size_t>(((i + places) % n + n) % n)].number;
}

double Study::counted_deg(double crank_deg) const {
  const double from_deg = start_deg(engine(), timeline.start_cylinder, timeline.start_at);
  return std::max(0.0, forward_or_same_deg(from_deg, crank_deg));
}

const Windows& Study::windows_of(int number) const {
  const auto at =
      std::find_if(windows_.begin(), windows_.end(), [&](const Windows& w) { return w.cylinder == number; });
  return at == windows_.end() ? windows_.front() : *at;
}

const WrenchPlan& Study::plan(double from_deg) {
  if (plan_from_deg_ == from_deg) return plan_;
  WrenchQuestion question;
  question.from_deg = from_deg;
  question.accuracy_deg = rules_.accuracy_deg;
  for (const Cylinder& c : engine().cylinders) question.left.push_back(c.number);
  plan_ = plan_wrench(windows_, question);
  plan_from_deg_ = from_deg;
  return plan_;
}

std::optional<double> jobs_crank_deg(const Snapshot& s) {
  const ArcSet& where = s.advice.where;
  if (!s.model || where.full() || where.arcs().size() != 1) return std::nullopt;
  return wrap_deg(where.arcs()[0].from_deg + where.arcs()[0].length_deg / 2);
}

double needle_deg(const Snapshot& s) {
  if (s.what_if_deg) return wrap_deg(*s.what_if_deg);
  return jobs_crank_deg(s).value_or(0);
}

}  // namespace shutlane
