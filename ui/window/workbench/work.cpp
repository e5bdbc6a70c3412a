// The Work bench: what to do next, read from two metres. Nothing is set here.
#include <algorithm>
#include <array>

#include "engines/catalog.hpp"
#include "sim/job/texts.hpp"
#include "ui/drawings/cutaway_parts.hpp"
#include "ui/drawings/text.hpp"
#include "ui/window/benches.hpp"
#include "ui/window/bump/bump_bench.hpp"
#include "ui/window/bump/texts.hpp"
#include "ui/window/texts.hpp"
#include "ui/window/workbench/board.hpp"
#include "ui/window/workbench/bump_panel.hpp"
#include "ui/window/workbench/card.hpp"
#include "ui/window/workbench/cause_list.hpp"
#include "ui/window/workbench/strip.hpp"

namespace shutlane {
namespace {

/// 0: no longer than after any press.
double hold_of(Stage stage) {
  switch (stage) {
    case Stage::inside:
      return kHoldStop_s;
    case Stage::missing:
    case Stage::clear:
    case Stage::mark:
    case Stage::turn:
    case Stage::bump:
      return kHoldCheck_s;
    default:
      return 0;
  }
}

/// What is done is told at the left, what was seen at the right of it: no answer lies where the advised
/// action lay a moment ago.
constexpr double kActionShare = 0.36;
constexpr size_t kSlots = 3;

struct Places {
  Box headline, ends, board, row, action, strip;
  std::array<Box, kSlots> slots;  ///< of the answers
  std::array<Box, 3> beside;
};

Places lay_out(const Ui& ui, Box headline) {
  const Box screen = ui.screen();
  const double margin = ui.mm(8), gap = ui.mm(3.4);
  const double width = screen.w - 2 * margin;
  Places at;
  at.headline = headline;
  const double button_h = ui.mm(22), ends_h = ui.mm(6);
  const double strip_h = std::clamp(screen.h * 0.195, ui.mm(26), ui.mm(48));
  at.strip = {margin, screen.h - ui.mm(3) - strip_h, width, strip_h};
  const double buttons_y = at.strip.y - ui.mm(2.6) - button_h;
  const double side_w = std::max(ui.mm(kTarget_mm), width * 0.113);
  at.row = {margin, buttons_y, width - 3 * (side_w + gap), button_h};
  at.action = {margin, buttons_y, at.row.w * kActionShare, button_h};
  const double slot_w = (at.row.w - at.action.w - kSlots * gap) / kSlots;
  for (size_t i = 0; i < kSlots; ++i)
    at.slots[i] = {at.action.right() + gap + static_cast<double>(i) * (slot_w + gap), buttons_y, slot_w,
                   button_h};
  for (size_t i = 0; i < 3; ++i)
    at.beside[i] = {at.row.right() + gap + static_cast<double>(i) * (side_w + gap), buttons_y, side_w,
                    button_h};
  at.ends = {margin, headline.bottom() + ui.mm(1.5), width, ends_h};
  const double board_y = at.ends.bottom() + ui.mm(0.6);
  at.board = {margin, board_y, width, buttons_y - ui.mm(3.6) - board_y};
  return at;
}

struct Said {
  std::string sentence, second;
  Press wide{"", {}, Press::Does::nothing};
  std::vector<Press> ticks, answers;
  std::array<Press, 3> beside;
  std::optional<bool> clockwise;
  bool greyed = false;  ///< is being worked out anew
};

Said said_now(Ui& ui, const Snapshot& s) {
  if (s.what_if_deg)
    return {texts::what_if_out(), texts::what_if_second(), {texts::put_needle_back()}, {}, {}, {}, {}};
  Said said{s.advice.sentence, s.advice.second, s.advice.wide,     s.advice.ticks,
            s.advice.answers,  s.advice.beside, s.advice.clockwise};
  if (bump_is_next(ui, s)) {
    const BumpSaid bump = bump_said(ui, s);
    said.sentence = bump.sentence;
    said.second = bump.second;
    said.greyed = bump.greyed;
  } else if ((s.advice.stage == Stage::turn || s.advice.stage == Stage::mark) &&
             s.document.rules.turn_by != s.model->rules.turn_by) {
    said.second = texts::no_starter_to_bump() + " " + said.second;
  }
  return said;
}

void carry_out(Ui& ui, Session& session, const Press& press) {
  const Snapshot& s = session.snapshot();
  using Does = Press::Does;
  if (!press.enabled() && !s.what_if_deg) return;
  if (press.does != Does::back && ui.actions_held()) return;
  if (press.does != Does::back) ui.hold_actions();
  if (s.what_if_deg) return session.queue(MoveWhatIf{});
  switch (press.does) {
    case Does::tell:
      for (const JobEvent& event : press.tells) session.queue(LogEvent{event});
      return;
    case Does::undo:
      return session.queue(Undo{});
    case Does::back:
      return session.queue(Pick{});
    case Does::new_job:
      return session.queue(StartOver{});
    case Does::nothing:
      return;
  }
}

int intake_valves(const JobModel& model, int cylinder) {
  int count = 0;
  for (const size_t train : model.engine.find(cylinder)->intake)
    count += model.engine.trains[train].per_cylinder;
  return std::min(count, 4);
}

/// A bundled engine other than those that assume the widest events.
bool is_invented(const std::string& engine_name) {
  return is_bundled(engine_name) && !engine_name.starts_with(kAnyEngine);
}

void draw_headline(Ui& ui, const Said& said, Box room) {
  const Palette& p = ui.palette();
  const double top = room.h * 0.58;
  ui.text_in({room.x, room.y, room.w, top}, said.sentence,
             {ui.mm(15.5), said.greyed ? p.dim_text : p.text, Align::left, Weight::bold, 0.45});
  const Box below{room.x, room.y + top + ui.mm(0.6), ui.screen().w - 2 * room.x, room.h - top - ui.mm(0.6)};
  // How to turn it belongs to what is to be done, and is read from two metres too; elsewhere the second line
  // says what follows.
  const bool to_do = said.clockwise.has_value();
  ui.text_in(below, said.second,
             {ui.mm(to_do ? 10.5 : 8.4), to_do ? p.text : p.dim_text, Align::left, Weight::regular, 0.45});
}

void draw_ends(Ui& ui, const Snapshot& s, const Board& board, Box row) {
  const Palette& p = ui.palette();
  const double size = std::min(row.h, ui.type_mm(5));
  std::string left = texts::pulley_end(), right = texts::gearbox_end();
  if (s.document.preferences.turned_round) std::swap(left, right);
  if (board.ends_marked) {
    ui.text_in({row.x, row.y, row.w * 0.24, row.h}, "\u25c0 " + left, {size, p.dim_text});
    ui.text_in({row.right() - row.w * 0.24, row.y, row.w * 0.24, row.h}, right + " \u25b6",
               {size, p.dim_text, Align::right});
  }
  std::string about = s.document.engine->spec.name;
  const bool invented = !s.document.demo && is_invented(s.document.engine_name);
  if (s.document.demo) about += " \u00b7 " + texts::demo_mark();
  if (invented) about += " \u00b7 " + texts::not_your_engine();
  if (board.rows == 2 && board.row_names[0] != board.row_names[1])
    about += " \u00b7 " + texts::rows(board.row_names[0], board.row_names[1]);
  const bool speaks = !s.message.empty();
  ui.text_in({row.x + row.w * 0.25, row.y, row.w * 0.5, row.h}, speaks ? s.message : about,
             {size, speaks || invented ? p.open : p.dim_text, Align::centre,
              speaks || invented ? Weight::bold : Weight::regular, 0.6});
}

/// The press is logged before the first beep, so that the job stands after it; the engine does not.
PortView while_pressed(PortView port) {
  port.next = false;
  if (port.face != Face::done) port.face = Face::waits;
  port.bung = Bung::out;
  port.word = texts::word(port);
  port.note = texts::note(port);
  return port;
}

void draw_board(Ui& ui, Session& session, const Board& board, Box room) {
  const Snapshot& s = session.snapshot();
  const double gap = ui.mm(board.columns > 6 ? 2 : 2.8);
  const double w =
      (room.w - gap * static_cast<double>(board.columns - 1)) / static_cast<double>(board.columns);
  const double h = (room.h - gap * static_cast<double>(board.rows - 1)) / static_cast<double>(board.rows);
  for (const BoardCell& cell : board.cells) {
    const Box box{room.x + static_cast<double>(cell.column) * (w + gap),
                  room.y + static_cast<double>(cell.row) * (h + gap), w, h};
    const auto at = std::find_if(s.advice.ports.begin(), s.advice.ports.end(),
                                 [&](const PortView& port) { return port.cylinder == cell.cylinder; });
    const std::string number = std::to_string(cell.cylinder);
    const Ui::Area touched = ui.area("port " + number, "Port " + number, box, !s.what_if_deg,
                                     s.picked == cell.cylinder, texts::tip(at->face));
    CardLook look;
    look.valves = intake_valves(*s.model, cell.cylinder);
    look.greyed = s.what_if_deg.has_value();
    look.focused = touched.focused;
    look.over = touched.over;
    draw_card(ui, press_under_way(s.document) ? while_pressed(*at) : *at, look, box);
    if (!touched.pressed || ui.actions_held()) continue;
    ui.hold_actions();  // a double click does not put back what it has just picked
    session.queue(Pick{s.picked == cell.cylinder ? std::nullopt : std::optional<int>(cell.cylinder)});
  }
}

/// A round arrow on the wide button: which way the hand turns.
void draw_way(Ui& ui, Box button, bool clockwise) {
  const double radius = button.h * 0.30;
  draw_rotation(ui.canvas(), {button.x + button.h * 0.62, button.y + button.h / 2}, radius, clockwise,
                {ui.palette().on_fill, radius * 0.22, 0});
}

void draw_action(Ui& ui, Session& session, const Said& said, const Places& at) {
  if (said.wide.label.empty()) return;
  ButtonSpec wide{"wide", said.wide.label, "", "", Look::wide, true, false, 11.5};
  // With nothing else to answer it may be wider, but the answers' places stay free.
  if (said.clockwise) wide.room_left_px = at.action.h;
  wide.enabled = !ui.actions_held() && (session.snapshot().what_if_deg || said.wide.enabled());
  if (ui.button(wide, at.action)) carry_out(ui, session, said.wide);
  if (said.clockwise) draw_way(ui, at.action, *said.clockwise);
}

/// The lines of a check list, ticked one by one; what is asked at the last of them stands beside it.
void draw_ticks(Ui& ui, Session& session, const Said& said, const Places& at) {
  const double gap = ui.mm(3.4), count = static_cast<double>(said.ticks.size());
  const double w = (at.slots.back().x - gap - at.row.x - gap * (count - 1)) / count;
  Box box{at.row.x, at.row.y, w, at.row.h};
  for (size_t i = 0; i < said.ticks.size(); ++i) {
    const Press& press = said.ticks[i];
    const bool due = press.enabled() && press.does == Press::Does::tell;
    ButtonSpec spec;
    spec.id = due ? "wide" : "tick " + std::to_string(i + 1);
    spec.label = (press.ticked ? "\u2713 " : std::to_string(i + 1) + "  ") + press.label;
    spec.look = due ? Look::wide : Look::plain;
    spec.size_mm = 8;
    spec.enabled = due && !ui.actions_held();
    if (ui.button(spec, box)) carry_out(ui, session, press);
    box.x += box.w + gap;
  }
}

constexpr std::array kAnswerKeys{Key::q, Key::w, Key::e};

const LookedInto* look_of(const Press& press) {
  return press.tells.empty() ? nullptr : std::get_if<LookedInto>(&press.tells.front());
}

/// Answers of one size at the right, each look with the valve as it was seen.
void draw_answers(Ui& ui, Session& session, const Said& said, const Places& at) {
  const size_t count = std::min(said.answers.size(), kSlots);
  for (size_t i = 0; i < count; ++i) {
    const Press& press = said.answers[i];
    const Box box = at.slots[kSlots - count + i];
    const LookedInto* look = look_of(press);
    const double sign = box.h * 0.2;
    ButtonSpec spec;
    spec.id = "answer " + std::to_string(i + 1);
    spec.label = press.label;
    spec.look = Look::wide;
    spec.size_mm = 9.5;
    spec.head_line = true;
    spec.enabled = !ui.actions_held();
    spec.tip = texts::key_of_answer(i) + (look ? " " + texts::tip(look->saw) : "");
    if (look) spec.room_left_px = 2 * sign + ui.mm(3);
    if (ui.button(spec, box)) carry_out(ui, session, press);
    if (look)
      draw_seat(ui, look->saw, {box.x + ui.mm(3) + sign, box.y + box.h / 2}, sign,
                spec.enabled ? ui.palette().on_fill : ui.colours().button_off);
  }
}

/// All banks, then each alone, in one press each.
void next_bank(Session& session) {
  const Snapshot& s = session.snapshot();
  const size_t banks = s.model->engine.spec.layout.banks.size();
  if (banks < 2 || banks > 4) return;
  const std::optional<size_t> now = s.job.only_bank;
  const size_t next = now ? *now + 1 : 0;
  session.queue(LogEvent{OnlyBank{next < banks ? std::optional<size_t>(next) : std::nullopt}});
}

void take_keys(Ui& ui, Session& session, const Said& said) {
  const Snapshot& s = session.snapshot();
  constexpr std::array kBeside{Key::a, Key::s, Key::d};
  for (size_t i = 0; i < std::min(said.answers.size(), kSlots); ++i)
    if (ui.key(kAnswerKeys[i])) carry_out(ui, session, said.answers[i]);
  // Enter is none of the answers: it would be given before it is read.
  const bool advised =
      s.advice.causes.empty() && !ui.has_focus() && (ui.key(Key::enter) || ui.key(Key::space));
  if (advised && !said.wide.label.empty()) carry_out(ui, session, said.wide);
  for (const Press& tick : said.ticks)
    if (advised && tick.enabled()) {
      carry_out(ui, session, tick);
      break;
    }
  for (size_t i = 0; i < 3; ++i)
    if (ui.key(kBeside[i])) carry_out(ui, session, said.beside[i]);
  if (ui.key(Key::m) && !ui.actions_held()) {
    ui.hold_actions();
    session.queue(LogEvent{CrankMoved{}});
  }
  if (ui.key(Key::k) && !ui.actions_held()) {
    ui.hold_actions();
    session.queue(LogEvent{MarkRead{0, kMarkReads_deg}});
  }
  if (ui.key(Key::escape)) {
    ui.drop_focus();
    session.queue(Pick{});
    if (s.what_if_deg) session.queue(MoveWhatIf{});
  }
  if (ui.key(Key::b) && !ui.actions_held()) next_bank(session);
  if (ui.key(Key::r)) {
    Preferences p = s.document.preferences;
    p.turned_round = !p.turned_round;
    session.queue(SetPreferences{p});
  }
  if (const std::optional<int> digit = ui.digit()) {
    // 1 and then 2 picks port 12 where there is one.
    const int both = s.picked.value_or(0) * 10 + *digit;
    const int cylinder = s.model->engine.find(both) ? both : *digit;
    if (s.model->engine.find(cylinder)) session.queue(Pick{cylinder});
  }
}

}  // namespace

void draw_work(Ui& ui, Session& session) {
  const Snapshot& s = session.snapshot();
  const Box headline = draw_tabs(ui, session);
  const Places at = lay_out(ui, headline);
  ui.tip_row = at.ends;
  const Said said = said_now(ui, s);
  const Board board = lay_out_board(s.model->engine, s.document.preferences.turned_round);
  draw_headline(ui, said, at.headline);
  draw_ends(ui, s, board, at.ends);
  const bool at_odds = !s.what_if_deg && !s.advice.causes.empty();
  if (at_odds) {  // the causes take the place of the strip, the buttons and the board's lower part
    const double bottom = at.strip.bottom(), top = bottom - cause_list_height(ui, bottom - at.board.y);
    draw_board(ui, session, board, {at.board.x, at.board.y, at.board.w, top - ui.mm(3.6) - at.board.y});
    const std::optional<Press> pressed = draw_cause_list(ui, s, {at.board.x, top, at.board.w, bottom - top});
    if (pressed) carry_out(ui, session, *pressed);
    take_keys(ui, session, said);
    return;
  }
  draw_board(ui, session, board, at.board);
  // "It is done" of what takes longer is not to be said by a click that was meant for something else.
  const double hold_s = hold_of(s.advice.stage);
  const auto ticked =
      std::count_if(said.ticks.begin(), said.ticks.end(), [](const Press& p) { return p.ticked; });
  const bool another = ui.stage_shown && (ui.stage_shown != s.advice.stage || ui.ticks_shown != ticked);
  if (hold_s > 0 && another) ui.hold_actions(hold_s);
  ui.stage_shown = s.advice.stage;
  ui.ticks_shown = ticked;
  if (bump_is_next(ui, s)) {
    draw_bump_buttons(ui, session, at.row, at.beside);
    draw_strip(ui, s, at.strip, session.now_s());
    ui.hint(at.strip, texts::tip_of_strip());
    take_keys(ui, session, said);
    return;
  }

  if (!said.ticks.empty()) draw_ticks(ui, session, said, at);
  draw_action(ui, session, said, at);
  draw_answers(ui, session, said, at);
  for (size_t i = 0; i < 3; ++i) {
    const Press& press = said.beside[i];
    if (press.label.empty()) continue;
    ButtonSpec beside{"beside " + std::to_string(i + 1),
                      press.label,
                      "",
                      texts::tip_of_beside(press),
                      Look::plain,
                      true,
                      false,
                      6.4};
    // Undo here takes back steps of this job; what came before it is taken back by ctrl+Z.
    beside.enabled = !ui.actions_held();
    if (press.does == Press::Does::undo) beside.enabled = beside.enabled && s.undo_of_job;
    if (ui.button(beside, at.beside[i])) carry_out(ui, session, press);
  }
  draw_strip(ui, s, at.strip, session.now_s());
  ui.hint(at.strip, texts::tip_of_strip());
  take_keys(ui, session, said);
}

}  // namespace shutlane
