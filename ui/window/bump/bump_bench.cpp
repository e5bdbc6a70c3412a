#include "ui/window/bump/bump_bench.hpp"

#include <utility>

#include "sim/job/bump_stops.hpp"
#include "ui/kept/rest_cache.hpp"
#include "ui/window/bump/press_sound.hpp"

namespace shutlane {
namespace {

constexpr double kLookEvery_s = 0.2;  // where nothing can wake the window

bool by_starter(const Snapshot& s) {
  return s.model && s.model->rules.turn_by == TurnBy::starter && !s.advice.where.empty();
}

/// From the sucking out on, nothing that a bump depends on changes any more.
bool bump_is_ahead(const Advice& advice) {
  return advice.stage == Stage::clear || advice.stage == Stage::bump;
}

/// All ports left, those too that can't be seen here: what a bump cannot help it must not promise.
BumpQuestion question_of(const Session& session, BumpBench& bench) {
  const Snapshot& s = session.snapshot();
  BumpQuestion question{s.document.engine, s.model->rules.margin_deg, s.advice.where, {}};
  if (!bump_is_ahead(s.advice)) return question;
  question.rules = s.model->rules;
  question.rows = bench.rows(session);
  question.job_s = s.job_started_s;
  for (const JobPort& port : s.job.ports)
    if (port.left()) question.left.push_back(port.cylinder);
  return question;
}

}  // namespace

BumpBench::BumpBench(std::function<void()> wake, BumpDesk::TableFor table_for, BumpMemory memory)
    : desk(
          [wake, shown = shown_] {
            if (wake && *shown) wake();
          },
          std::move(table_for), std::move(memory)),
      wakes(wake != nullptr) {}

const std::vector<BumpRow>& BumpBench::rows(const Session& session) {
  const Snapshot& s = session.snapshot();
  if (rows_of_ == session.revision() && rows_engine_ == s.document.engine.get()) return rows_;
  std::vector<JobEvent> events;
  for (const LoggedEvent& logged : s.document.events) events.push_back(logged.event);
  rows_ = bump_rows(*s.model, events);
  rows_of_ = session.revision();
  rows_engine_ = s.document.engine.get();
  return rows_;
}

bool bump_is_next(const Ui& ui, const Snapshot& s) {
  if (s.page != Page::none || s.document.bench != Bench::work || s.what_if_deg || !by_starter(s))
    return false;
  if (press_under_way(s.document)) return ui.bump && ui.bump->timer;
  return s.advice.stage == Stage::bump;
}

void attend_bump(Ui& ui, Session& session) {
  const Snapshot& s = session.snapshot();
  const bool next = bump_is_next(ui, s);
  if (ui.bump) {
    BumpBench& bump = *ui.bump;
    bump.show(next);
    if (bump.timer && (!next || !press_under_way(s.document))) {
      // Whoever left before the high beep did not press; later nobody knows, and it counts as bumped.
      const PressPhase phase = bump.timer->at(ImGui::GetTime()).phase;
      if (phase == PressPhase::get_ready || phase == PressPhase::count_in) session.queue(TakeBackPress{});
      bump.timer.reset();
      if (ui.beeper) ui.beeper->stop();
    }
  }
  if (!by_starter(s)) return;
  if (!ui.bump)
    ui.bump = std::make_shared<BumpBench>(ui.wake_from_thread, rest_table_for, kept_bump_memory());
  if (press_under_way(s.document)) return;  // the same press is advised again when it was not made
  ui.bump->desk.ask(question_of(session, *ui.bump));
  if (next && !ui.bump->wakes && ui.bump->desk.view().reckoning) ui.wake_after(kLookEvery_s);
}

}  // namespace shutlane
