#include "ui/window/bump/bump_desk.hpp"

#include <algorithm>
#include <cmath>
#include <exception>
#include <utility>

#include "sim/job/workable.hpp"
#include "sim/plan/bump_belief.hpp"
#include "ui/drawings/bump_words.hpp"

namespace shutlane {
namespace {

constexpr double kTableShare = 0.95;  // of the progress told; the plan itself takes milliseconds

/// One core is left for the window.
int threads_to_use() { return std::max(1, static_cast<int>(std::thread::hardware_concurrency()) - 1); }

}  // namespace

BumpDesk::BumpDesk(std::function<void()> wake, TableFor table_for, BumpMemory memory)
    : wake_(std::move(wake)),
      table_for_(std::move(table_for)),
      memory_(std::move(memory)),
      thread_([this] { run(); }) {}

BumpDesk::~BumpDesk() {
  {
    const std::lock_guard lock(mutex_);
    ending_ = true;
  }
  changed_.notify_one();
  thread_.join();
}

void BumpDesk::ask(const BumpQuestion& question) {
  {
    const std::lock_guard lock(mutex_);
    if (asked_ == question) return;
    if (!asked_ || asked_->engine != question.engine) progress_ = 0;
    asked_ = question;
    ++asked_count_;
  }
  changed_.notify_one();
}

BumpView BumpDesk::view() const {
  const std::lock_guard lock(mutex_);
  BumpView view;
  const bool answered = answered_count_ == asked_count_;
  if (answer_ && asked_ && answer_->to.engine == asked_->engine) {
    view.plan = answer_->plan;
    view.mixed = answer_->mixed;
    view.learnt_from = answer_->learnt_from;
    view.stronger = answer_->stronger;
    view.stale = !answered || answer_->to != *asked_;
    if (!view.stale) view.no_bump = answer_->no_bump;
  }
  if (!answered) view.reckoning = progress_;
  return view;
}

void BumpDesk::run() {
  std::unique_lock lock(mutex_);
  while (true) {
    changed_.wait(lock, [this] { return ending_ || answered_count_ != asked_count_; });
    if (ending_) return;
    const BumpQuestion first = *asked_;
    lock.unlock();
    try {
      fetch_table(first);
    } catch (const std::exception& e) {
      no_table_ = e.what();
      engine_ = first.engine;
    }
    lock.lock();
    if (ending_) return;
    const unsigned count = asked_count_;
    BumpQuestion latest = *asked_;
    if (latest.engine != engine_) continue;  // the table was given up
    lock.unlock();
    std::optional<Answer> answer;
    if (!latest.left.empty() || !no_table_.empty()) answer = reckon(std::move(latest));
    lock.lock();
    answered_count_ = count;
    if (answer) answer_ = std::move(answer);
    lock.unlock();
    if (wake_) wake_();
    lock.lock();
  }
}

/// False: give up.
bool BumpDesk::tell(double done, const Engine* engine) {
  bool go_on = true, next_percent = false;
  {
    const std::lock_guard lock(mutex_);
    const double now = done * kTableShare;
    next_percent = static_cast<int>(now * 100) != static_cast<int>(progress_ * 100);
    progress_ = now;
    go_on = !ending_ && asked_->engine.get() == engine;
  }
  if (next_percent && wake_) wake_();
  return go_on;
}

void BumpDesk::fetch_table(const BumpQuestion& question) {
  if (engine_ == question.engine) return;
  engine_ = nullptr;
  no_table_.clear();
  planner_.reset();
  const auto model = cranking_model(*question.engine);
  if (const auto* none = std::get_if<NoBump>(&model)) {
    no_table_ = none->why;
  } else if (question.engine->cylinders.size() > kMostBumpCylinders) {
    no_table_ = too_many_for_bumps_in_words();
  } else {
    const CrankingModel& cranking = std::get<CrankingModel>(model);
    RestTableQuestion wanted;
    const std::string key = rest_table_key(cranking, wanted);
    if (!table_ || key != table_key_) {
      wanted.threads = threads_to_use();
      wanted.progress = [&](double done) { return tell(done, question.engine.get()); };
      table_ = table_for_(cranking, wanted);
      table_key_ = key;
      if (!table_) return;
    }
  }
  engine_ = question.engine;
}

BumpStart BumpDesk::start_of(const BumpQuestion& question, Answer& answer) {
  const CrankingModel cranking = std::get<CrankingModel>(cranking_model(*engine_));
  std::vector<double> weights;
  if (memory_.weights) weights = memory_.weights(cranking, *table_, question.job_s.value_or(0));
  BumpStart start = start_within(question.where);
  if (!question.rows.empty()) {
    if (memory_.keep && question.job_s) memory_.keep(cranking, {*question.job_s, question.rows});
    const std::vector<BumpRow> before{question.rows.begin(), question.rows.end() - 1};
    weights = weights_after(*table_, std::move(weights), before, &answer.learnt_from);
    BumpBelief belief = believed_after(*table_, std::move(weights), question.rows.back());
    weights = std::move(belief.cars);
    answer.learnt_from += belief.learnt_from;
    if (question.rows.back().size() > 1) start = start_worked(std::move(belief.angle));
    start.gainless_s = gainless_press_s(question.rows.back());
  }
  answer.stronger = stronger_than_stated(*table_, weights);
  make_planner(question, weights);
  return start;
}

void BumpDesk::make_planner(const BumpQuestion& question, const std::vector<double>& weights) {
  if (planner_ && planned_.margin_deg == question.margin_deg && planned_.rules == question.rules &&
      planned_weights_ == weights)
    return;
  std::optional<SureBins> done_in;
  if (question.rules) done_in = workable_bins(make_job_model(*engine_, *question.rules), *table_);
  planner_ = std::make_unique<BumpPlanner>(*engine_, table_, weights, question.margin_deg, done_in);
  planned_ = question;
  planned_weights_ = weights;
}

/// The wrench comes first where its own plan, as the job would ask for it, takes no more moves. Else the
/// press becomes the one that is best with a wrench to finish.
std::optional<MixedPlan> BumpDesk::mixed_plan(const BumpStart& start, const BumpQuestion& question,
                                              BumpPlan& plan) {
  const double accuracy_deg = usual_accuracy_deg(TurnBy::wrench, engine_->cylinders.size());
  MixedPlan mixed = planner_->mixed(start, question.left, accuracy_deg);
  const Arc stands = question.where.hull();
  if (!question.where.empty() && stands.length_deg < kTurn_deg) {
    WrenchQuestion by_wrench;
    by_wrench.from_deg = wrap_deg(stands.from_deg + stands.length_deg / 2);
    by_wrench.plus_minus_deg = stands.length_deg / 2;
    by_wrench.accuracy_deg = accuracy_deg;
    by_wrench.left = question.left;
    const WrenchPlan turned = plan_wrench(shut_windows(*engine_, question.margin_deg), by_wrench);
    const double turns = static_cast<double>(turned.turns());
    if (turned.possible() && turns > 0 && turns <= mixed.expected_moves) {
      mixed.wrench_first = true;
      mixed.turns_if_wrench_only = static_cast<int>(turned.turns());
      mixed.expected_moves = mixed.expected_turns = turns;
      mixed.expected_bumps = mixed.press_s = 0;
      return mixed;
    }
  }
  if (mixed.wrench_first || !std::isfinite(mixed.expected_moves) || !plan.possible()) return {};
  if (mixed.press_s < plan.press_min_s || mixed.press_s > plan.press_max_s)
    plan.press_min_s = plan.press_max_s = mixed.press_s;
  plan.press_s = mixed.press_s;
  for (const PressScore& score : plan.presses)
    if (score.press_s == mixed.press_s) plan.finish_first = score.finish_first;
  return mixed;
}

BumpDesk::Answer BumpDesk::reckon(BumpQuestion question) {
  Answer answer;
  answer.to = std::move(question);
  answer.no_bump = no_table_;
  if (!answer.no_bump.empty()) return answer;
  try {
    const BumpStart start = start_of(answer.to, answer);
    BumpPlan plan = planner_->plan(start, answer.to.left);
    if (answer.to.rules && answer.to.rules->wrench_too && plan.no_plan.empty())
      answer.mixed = mixed_plan(start, answer.to, plan);
    if (plan.possible())
      answer.plan = std::move(plan);
    else
      answer.no_bump = no_bump_plan_in_words(plan, answer.to.margin_deg);
  } catch (const std::exception& e) {
    answer.no_bump = e.what();
  }
  return answer;
}

}  // namespace shutlane
