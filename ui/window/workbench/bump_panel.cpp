#include "ui/window/workbench/bump_panel.hpp"

#include <algorithm>
#include <optional>
#include <vector>

#include "sim/job/texts.hpp"
#include "ui/window/bump/bump_bench.hpp"
#include "ui/window/bump/press_sound.hpp"
#include "ui/window/bump/texts.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {
namespace {

constexpr double kFrame_s = 1.0 / 60;

enum class Does { bumped, bumped_unbeeped, stopped_at_once, start_beeps, back, by_wrench, as_advised, shown };

struct Offer {
  std::string label, note, tip;
  Does does = Does::as_advised;
};

bool wrench_is_better(const BumpView& view) { return !view.stale && view.mixed && view.mixed->wrench_first; }

/// What can be pressed now. Undo stays where the job's advice has it, and so does "crank moved" but for the
/// moment after a press, when "bumped" says the same.
struct Offers {
  Offer wide;
  std::optional<Offer> first, second = {};
  bool others = true;
};

Offers offers_now(const BumpView& view, const std::optional<PressMoment>& moment) {
  if (moment && moment->phase != PressPhase::over)
    return {{texts::moment(*moment), "", "", Does::shown},
            Offer{texts::stop_beeps(), "", "", Does::back},
            {},
            false};
  const Offer bumped{"Bumped", "", "", Does::bumped};
  const Offer unbeeped{texts::bumped_unbeeped(), "", texts::bumped_unbeeped_tip(), Does::bumped_unbeeped};
  if (moment)
    return {bumped, Offer{texts::not_pressed(), "", "", Does::back},
            Offer{texts::stopped_at_once(), "", texts::stopped_at_once_tip(), Does::stopped_at_once}};
  if (!view.no_bump.empty()) return {{texts::wrench_instead(), "", "", Does::by_wrench}, {}};
  if (wrench_is_better(view)) return {{texts::wrench_now(), "", "", Does::by_wrench}, unbeeped};
  if (!view.plan || view.stale) return {{"Bumped", "", "", Does::bumped_unbeeped}, {}};
  return {{texts::start_beeps(), texts::beeps_note(), texts::start_beeps_tip(), Does::start_beeps}, unbeeped};
}

void stop_timer(Ui& ui) {
  ui.bump->timer.reset();
  if (ui.beeper) ui.beeper->stop();
}

bool from_press_on(const PressTimer& timer) {
  const PressPhase phase = timer.at(ImGui::GetTime()).phase;
  return phase == PressPhase::press || phase == PressPhase::let_go;
}

void by_wrench_from_now_on(Session& session) {
  const Snapshot& s = session.snapshot();
  JobRules rules = s.document.rules;
  rules.turn_by = TurnBy::wrench;
  rules.accuracy_deg = usual_accuracy_deg(rules.turn_by, s.model->engine.cylinders.size());
  session.queue(SetRules{rules, s.document.margin_reason});
}

void carry_out(Ui& ui, Session& session, Does does, const BumpView& view) {
  if (ui.actions_held() && does != Does::back) return;
  switch (does) {
    case Does::bumped:
      // In one step, so that one undo takes it back.
      session.queue(TakeBackPress{});
      session.queue(LogEvent{Bumped{ui.bump->timer->press_s, true}});
      stop_timer(ui);
      break;
    case Does::bumped_unbeeped:
      session.queue(LogEvent{Bumped{view.plan && !view.stale ? view.plan->press_s : 0, false}});
      break;
    case Does::start_beeps:
      ui.bump->timer = PressTimer{ImGui::GetTime(), view.plan->press_s};
      // Before the first beep, so that a job that comes back after a cut knows of it.
      session.queue(LogEvent{PressStarted{view.plan->press_s}});
      if (ui.beeper) ui.beeper->play(press_sound(view.plan->press_s));
      break;
    case Does::back:
      if (from_press_on(*ui.bump->timer)) {  // too late to be sure that it was not pressed: it is asked
        ui.bump->timer->end(ImGui::GetTime());
        if (ui.beeper) ui.beeper->stop();
        break;
      }
      session.queue(TakeBackPress{});
      stop_timer(ui);
      break;
    case Does::stopped_at_once:  // a bump that tells nothing of the starter, and the last one
      session.queue(TakeBackPress{});
      session.queue(LogEvent{Bumped{}});
      by_wrench_from_now_on(session);
      session.queue(Say{texts::no_more_bumps()});
      stop_timer(ui);
      break;
    case Does::by_wrench:
      by_wrench_from_now_on(session);
      break;
    case Does::as_advised:
    case Does::shown:
      return;
  }
  ui.hold_actions();  // the same place asks for something else now
}

/// The wide button while it shows the time: nothing to press, the word large, a bar that fills below it.
void draw_moment(Ui& ui, Box box, const PressMoment& moment) {
  const Palette& p = ui.palette();
  const WindowColours& c = ui.colours();
  const std::string word = texts::moment(moment);
  ui.area("wide", word, box, false);
  const bool press = moment.phase == PressPhase::press;
  const double corner = ui.mm(2.4);
  ui.canvas().fill_box(box, press ? p.crank : c.button, corner);
  ui.canvas().stroke_box(box, {press ? p.crank : c.card_frame, ui.mm(0.7), 0}, corner);
  const double pad = ui.mm(2.4), bar_h = ui.mm(3.6);
  ui.text_in({box.x + pad, box.y + ui.mm(0.4), box.w - 2 * pad, box.h - bar_h - pad}, word,
             {ui.mm(18), press ? p.on_fill : c.button_text, Align::centre, Weight::bold, 0.5});
  const Box bar{box.x + pad, box.bottom() - pad - bar_h, box.w - 2 * pad, bar_h};
  ui.canvas().fill_box(bar, mixed(press ? p.crank : c.button, press ? p.on_fill : c.button_text, 0.25),
                       bar_h / 2);
  if (moment.share > 0)
    ui.canvas().fill_box({bar.x, bar.y, std::max(bar_h, bar.w * moment.share), bar.h},
                         press ? p.on_fill : p.crank, bar_h / 2);
}

std::optional<PressMoment> moment_now(const Ui& ui) {
  if (!ui.bump->timer) return {};
  return ui.bump->timer->at(ImGui::GetTime());
}

}  // namespace

BumpSaid bump_said(Ui& ui, const Snapshot& s) {
  const std::optional<PressMoment> moment = moment_now(ui);
  if (moment && moment->phase == PressPhase::over)
    return {texts::what_happened(ui.bump->timer->press_s), texts::what_happened_second()};
  if (moment) return {texts::hand_on_switch(), texts::beeps_explained()};
  const BumpView view = ui.bump->desk.view();
  if (!view.no_bump.empty()) return {texts::no_bump(), texts::no_bump_because(view.no_bump)};
  if (wrench_is_better(view)) return {texts::wrench_now_said(), texts::wrench_now_because(*view.mixed)};
  BumpSaid said{s.advice.sentence, s.advice.second, view.plan && view.stale};
  if (view.plan) said.sentence = texts::bump_press(*view.plan);
  if (view.plan && !view.stale)
    said.second = texts::bump_expects(*view.plan) + texts::bump_then_wrench(view.mixed) +
                  texts::bump_learnt(view.learnt_from, view.stronger);
  if (view.reckoning) said.second = texts::bump_reckoning(*view.reckoning) + " " + said.second;
  return said;
}

void draw_bump_buttons(Ui& ui, Session& session, Box wide_box, const std::array<Box, 3>& beside) {
  const Snapshot& s = session.snapshot();
  const BumpView view = ui.bump->desk.view();
  const std::optional<PressMoment> moment = moment_now(ui);
  const bool running = moment && moment->phase != PressPhase::over;
  const Offers offers = offers_now(view, moment);
  const bool free = !ui.actions_held();
  if (running) {
    draw_moment(ui, wide_box, *moment);
    ui.wake_after(kFrame_s);
  } else {
    const ButtonSpec wide{
        "wide", offers.wide.label, offers.wide.note, offers.wide.tip, Look::wide, free, false, 11.5};
    if (ui.button(wide, wide_box)) carry_out(ui, session, offers.wide.does, view);
  }
  if (offers.first) {
    const ButtonSpec first{"beside 1",  offers.first->label, "",    offers.first->tip,
                           Look::plain, free || running,     false, 6.4};
    // Nothing else can be pressed while it runs: a large place to stop it.
    Box box = beside[0];
    if (running) box.w = beside[2].right() - box.x;
    if (ui.button(first, box)) carry_out(ui, session, offers.first->does, view);
    if (ui.key(Key::a)) carry_out(ui, session, offers.first->does, view);
  }
  if (offers.second) {
    const ButtonSpec second{"beside 2", offers.second->label, "", offers.second->tip, Look::plain, free};
    if (ui.button(second, beside[1]) || ui.key(Key::s)) carry_out(ui, session, offers.second->does, view);
  }
  for (size_t i = offers.second ? 2 : 1; i < 3 && offers.others; ++i) {
    static const Press kWhileAsked[] = {{"crank moved", {CrankMoved{}}}, {"undo", {}, Press::Does::undo}};
    const Press& press = press_under_way(s.document) ? kWhileAsked[i - 1] : s.advice.beside[i];
    const bool undo = press.does == Press::Does::undo;
    if (press.label.empty()) continue;
    const ButtonSpec spec{
        "beside " + std::to_string(i + 1), press.label, "", texts::tip_of_beside(press), Look::plain,
        undo ? s.undo_of_job : free,       false,       6.4};
    const bool pressed = ui.button(spec, beside[i]) || ui.key(i == 1 ? Key::s : Key::d);
    if (!pressed || !spec.enabled) continue;
    if (undo) {
      session.queue(Undo{});
    } else {
      ui.hold_actions();
      for (const JobEvent& event : press.tells) session.queue(LogEvent{event});
    }
  }
  // Taken here, so that the bench does not take them for what the job advises.
  if (!ui.has_focus() && (ui.key(Key::enter) || ui.key(Key::space)) && !running)
    carry_out(ui, session, offers.wide.does, view);
  for (const Key key : {Key::a, Key::s, Key::d}) (void)ui.key(key);
  if (running && ui.key(Key::escape)) carry_out(ui, session, Does::back, view);
}

}  // namespace shutlane
