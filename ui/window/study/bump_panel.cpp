#include "ui/window/study/bump_panel.hpp"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "ui/drawings/bump_curves.hpp"
#include "ui/window/study/bump_texts.hpp"
#include "ui/window/study/readings.hpp"

namespace shutlane {

namespace {

constexpr double kLongestStep_s = 0.1;  // of the replay, when frames come late
constexpr double kLook_s = 0.05;        // where nothing can wake the window
constexpr double kScrub_s = 0.01, kLongScrub_s = 0.1;
constexpr double kMost = 0.5;  // ports that are surely shut after a larger share are named

void send(Session& session, const std::optional<double>& needle_deg) {
  if (needle_deg) session.queue(MoveWhatIf{needle_deg});
}

Knob press_knob(const BumpStudy& bump) {
  Knob knob;
  knob.label = texts::knob_press();
  knob.degrees = false;
  knob.low = kShortestPress_s;
  knob.high = kLongestPress_s;
  knob.step = kPressStep_s;
  knob.value = bump.press_s();
  knob.in_file = kFirstPress_s;
  return knob;
}

std::string fan_in_words(const Study& study, const RestFan& fan) {
  std::vector<std::pair<int, double>> shares;
  for (const Windows& w : study.windows()) {
    const double share = surely_shut_share(w, fan.weights);
    if (share > kMost) shares.push_back({w.cylinder, share});
  }
  std::stable_sort(shares.begin(), shares.end(),
                   [](const auto& a, const auto& b) { return a.second > b.second; });
  return texts::fan_sentence(fan.likeliest_deg, fan.p25_deg, fan.p75_deg) + " " +
         texts::ports_after_bump(shares);
}

std::string course_in_words(const BumpStudy& bump) {
  const BumpRecord& r = *bump.record();
  if (r.drive_to_s <= r.drive_from_s) return texts::too_short(r.press_s);
  return texts::as_stated(r.press_s, r.advance_deg(), r.rests_s, r.rolled_back_deg);
}

struct RowButton {
  std::string id, label, widest, tip;
  bool selected = false, enabled = true;
};

/// Buttons side by side over the whole row. The id of the one that was pressed.
std::string button_row(Ui& ui, const StudySizes& s, Box row, const std::vector<RowButton>& buttons) {
  const double gap = 0.5 * s.gap;
  std::vector<double> widths;
  double sum = 0;
  for (const RowButton& b : buttons) {
    widths.push_back(std::max(small_button_width(ui, s, b.label), small_button_width(ui, s, b.widest)));
    sum += widths.back();
  }
  const double part = std::max(0.0, row.w - gap * static_cast<double>(buttons.size() - 1)) / sum;
  double x = row.x;
  std::string pressed;
  for (size_t i = 0; i < buttons.size(); ++i) {
    const RowButton& b = buttons[i];
    if (small_button(ui, s, b.id, b.label, {x, row.y, widths[i] * part, row.h}, b.selected, b.tip, b.enabled))
      pressed = b.id;
    x += widths[i] * part + gap;
  }
  return pressed;
}

/// A bar a port, where there is room for all of them: after how many of a hundred bumps it is surely shut.
void draw_shares(Ui& ui, const Study& study, const StudySizes& s, Box room) {
  const Palette& p = ui.palette();
  const bool stale = study.bump.fan_stale();
  const double row_h = 1.2 * s.text, head_h = 1.4 * s.text;
  const size_t n = study.windows().size();
  const size_t columns = static_cast<double>(n) * row_h + head_h <= room.h ? 1 : 2;
  const size_t rows = (n + columns - 1) / columns;
  if (static_cast<double>(rows) * row_h + head_h > room.h) return;
  const Ui::TextSpec dim{s.text, p.dim_text, Align::left, Weight::regular, 0.6};
  ui.text_in({room.x, room.y, room.w, head_h}, texts::shares_heading(), dim);
  const double gap = s.gap,
               w = (room.w - gap * static_cast<double>(columns - 1)) / static_cast<double>(columns);
  const double number_w = 1.6 * s.text, share_w = 1.9 * s.text;
  for (size_t i = 0; i < n; ++i) {
    const Windows& port = study.windows()[i];
    const double share = surely_shut_share(port, study.bump.fan()->weights);
    const Box row{room.x + static_cast<double>(i / rows) * (w + gap),
                  room.y + head_h + static_cast<double>(i % rows) * row_h, w, row_h};
    const Box bar{row.x + number_w, row.y + 0.25 * row_h, row.w - number_w - share_w, 0.5 * row_h};
    ui.text_in({row.x, row.y, number_w, row.h}, std::to_string(port.cylinder),
               {s.text, p.text, Align::left, Weight::bold, 0.6});
    ui.canvas().fill_box(bar, p.grid);
    ui.canvas().fill_box({bar.x, bar.y, bar.w * share, bar.h}, stale ? p.exhaust : p.shut);
    ui.text_in({bar.right(), row.y, share_w, row.h}, std::to_string(texts::of_hundred(share)),
               {s.text, stale ? p.dim_text : p.text, Align::right, Weight::regular, 0.6});
  }
}

/// How far the reckoning is, as words over a bar, and the button that stops it or begins it anew.
void draw_reckoning(Ui& ui, BumpStudy& bump, const StudySizes& s, Box row) {
  const Palette& p = ui.palette();
  const bool busy = bump.busy();
  const double button_w = std::max(small_button_width(ui, s, texts::stop_reckoning()),
                                   small_button_width(ui, s, texts::reckon_again()));
  const Box said{row.x, row.y, row.w - button_w - s.gap, row.h};
  std::string words = texts::not_reckoned_yet();
  if (busy)
    words = texts::reckoning(static_cast<int>(100 * bump.done()));
  else if (bump.fan())
    words = bump.fan_stale() ? texts::reckoning_stopped() : texts::bumps_reckoned(bump.fan()->trials);
  ui.text_in(said, words, {s.text, p.dim_text, Align::left, Weight::regular, 0.6});
  if (busy) {
    const double h = std::max(2.0, 0.2 * s.text), y = row.bottom() - h;
    ui.canvas().fill_box({said.x, y, said.w, h}, p.grid, h / 2);
    ui.canvas().fill_box({said.x, y, std::max(h, said.w * bump.done()), h}, p.position, h / 2);
  }
  const Box button{row.right() - button_w, row.y, button_w, row.h};
  if (busy) {
    if (small_button(ui, s, "stop reckoning", texts::stop_reckoning(), button, false,
                     texts::tip_stop_reckoning()))
      bump.stop_reckoning();
  } else if (small_button(ui, s, "reckon again", texts::reckon_again(), button, false,
                          texts::tip_reckon_again())) {
    bump.reckon_again();
  }
}

}  // namespace

const BumpStudy* bump_on_timeline(const Snapshot& s, const Study& study) {
  return s.document.bench == Bench::teach && study.bump.open() && !study.bump.refused() ? &study.bump
                                                                                        : nullptr;
}

void follow_bump(Ui& ui, Session& session, Study& study) {
  BumpStudy& bump = study.bump;
  if (!bump.open()) return;
  bump.follow(study.tinker.engine(), session.snapshot(), ui.wake_from_thread);
  if (bump.refused()) return;
  study.timeline.running = false;
  send(session, bump.take_return());
  if (bump.playing()) {
    send(session, bump.run_on(std::min(static_cast<double>(ImGui::GetIO().DeltaTime), kLongestStep_s)));
    ui.wake_after(0);
  }
  if (bump.busy() && !ui.wake_from_thread) ui.wake_after(kLook_s);
  TimelineState& t = study.timeline;
  if (bump.time_s() > 0)  // a timeline that is zoomed in goes along
    t.range = holding(t.range, forward_deg(start_deg(study.engine(), t.start_cylinder, t.start_at),
                                           needle_deg(session.snapshot())));
}

void draw_bump_panel(Ui& ui, Study& study, const StudySizes& s, Box box) {
  BumpStudy& bump = study.bump;
  const Palette& p = ui.palette();
  // Another engine's crank is no crank of the job.
  const FanStart start =
      bump.start() == FanStart::jobs_crank && !study.of_the_job() ? FanStart::example : bump.start();
  const Box inside =
      draw_panel(ui, s, box, texts::heading_bump(angle_in(study.counted_deg(bump.start_deg())), start));
  const Ui::TextSpec plain{s.text, p.text, Align::left, Weight::regular, 0.6};
  if (const std::string* why = bump.refused()) {
    std::string words = texts::no_bump(*why);
    for (const texts::Term& term : texts::bump_terms())
      if (term.word == study.term) words += " " + term.word + ": " + term.meaning;
    ui.paragraph_in(inside, words, plain, 20);
    return;
  }
  double y = inside.y;
  const double slider_h = 2.5 * s.text;
  const Pulled pulled = slider(ui, s, "press", press_knob(bump), texts::seconds(bump.press_s()),
                               {inside.x, y, inside.w, slider_h}, texts::tip_press());
  if (pulled.moved) bump.set_press(pulled.value);
  y += slider_h + 0.5 * s.text;
  const std::string pressed = button_row(
      ui, s, {inside.x, y, inside.w, s.button},
      {{"plugs in", texts::plugs_in(), texts::plugs_out(), texts::tip_plugs(), bump.plugs() == Plugs::in},
       {"plugs out", texts::plugs_out(), texts::plugs_out(), texts::tip_plugs(),
        bump.plugs() == Plugs::out}});
  if (!pressed.empty()) bump.set_plugs(pressed == "plugs in" ? Plugs::in : Plugs::out);
  y += s.button + 0.6 * s.text;
  const Box last{inside.x, inside.bottom() - s.button, inside.w, s.button};
  draw_reckoning(ui, bump, s, last);

  const Box room{inside.x, y, inside.w, last.y - 0.4 * s.text - y};
  if (!study.file_mistakes.empty()) {
    ui.paragraph_in(room, study.file_mistakes, plain, 20);
    return;
  }
  if (!study.term.empty()) {
    for (const texts::Term& term : texts::bump_terms())
      if (term.word == study.term) ui.paragraph_in(room, term.word + ": " + term.meaning, plain, 20);
    return;
  }
  Ui::TextSpec words = plain;
  double used = 0;
  if (bump.fan()) {
    if (bump.fan_stale()) words.colour = mixed(p.dim_text, p.panel, 0.4);
    const double upper_h = bump.record() ? 0.62 * room.h : room.h;
    used = ui.paragraph_in({room.x, room.y, room.w, upper_h}, fan_in_words(study, *bump.fan()), words, 20) +
           0.5 * s.text;
  }
  if (bump.record()) {
    words.colour = bump.record_stale() ? mixed(p.dim_text, p.panel, 0.4) : p.dim_text;
    used +=
        ui.paragraph_in({room.x, room.y + used, room.w, room.h - used}, course_in_words(bump), words, 20) +
        0.6 * s.text;
  }
  if (bump.fan()) draw_shares(ui, study, s, {room.x, room.y + used, room.w, room.h - used});
}

void draw_bump_course(Ui& ui, Session& session, Study& study, const StudySizes& s, Box box) {
  BumpStudy& bump = study.bump;
  const Palette& p = ui.palette();
  const Box inside = draw_panel(ui, s, box, "");
  const Box head{inside.x, inside.y - 0.2 * s.pad, inside.w, s.button};
  const double said_w = std::min(0.34 * head.w, 17 * s.text);
  ui.text_in({head.x, head.y, said_w, head.h}, texts::heading_replay(texts::seconds(bump.time_s())),
             {s.text, p.dim_text, Align::left, Weight::bold, 0.6});
  const bool there = bump.record() && !bump.record_stale();
  const double row_w = std::min(head.w - said_w - s.gap, 34 * s.text);
  const std::string pressed =
      button_row(ui, s, {head.right() - row_w, head.y, row_w, head.h},
                 {{"to the start", texts::back_to_start(), "", texts::tip_back_to_start(), false,
                   there && bump.time_s() > 0},
                  {"bump again", texts::on_from_here(), "", texts::tip_on_from_here(), false,
                   there && bump.time_s() > 0},
                  {"pace", texts::pace(bump.slower()), texts::pace(20), texts::tip_pace()},
                  {"play", bump.playing() ? texts::pause() : texts::play(), texts::pause(), texts::tip_play(),
                   bump.playing(), there}});
  if (pressed == "to the start") send(session, bump.back_to_start());
  if (pressed == "bump again") bump.go_on_from_here();
  if (pressed == "pace") bump.next_pace();
  if (pressed == "play") send(session, bump.play_or_pause());

  const Box room{inside.x, head.bottom() + 0.3 * s.pad, inside.w,
                 inside.bottom() - head.bottom() - 0.3 * s.pad};
  if (!bump.record() || !bump.model()) {
    ui.text_in(room, texts::course_comes(), {s.text, p.dim_text, Align::centre, Weight::regular, 0.6});
    return;
  }
  BumpCurvesView view;
  view.record = bump.record();
  view.model = bump.model();
  for (const Cylinder& c : study.engine().cylinders) view.cylinders.push_back(c.number);
  view.cylinder = study.cylinder;
  view.now_s = bump.time_s();
  view.us_units = session.snapshot().document.preferences.measures == Measures::us;
  view.stale = bump.record_stale();
  view.theme = ui.theme();
  view.text = std::clamp(room.h / 14, 0.62 * s.text, 0.9 * s.text);
  const Ui::Area touched =
      ui.area("bump course", texts::curves_label(), room, true, false, texts::tip_curves());
  if (ImGui::IsItemActive() && there) {
    const ImVec2 at = ImGui::GetIO().MousePos;
    const BumpCurvesGeometry geometry = lay_out_bump_curves(view, room);
    if (const auto time_s = geometry.time_at({static_cast<double>(at.x), static_cast<double>(at.y)}))
      if (*time_s != bump.time_s()) send(session, bump.scrub(*time_s));
    view.now_s = bump.time_s();
  }
  if (touched.focused && there)
    for (const auto& [key, by_s] : {std::pair{KeyPress{Key::right}, kScrub_s},
                                    {KeyPress{Key::left}, -kScrub_s},
                                    {KeyPress{Key::right, true}, kLongScrub_s},
                                    {KeyPress{Key::left, true}, -kLongScrub_s}})
      if (ui.key(key)) send(session, bump.scrub(bump.time_s() + by_s));
  draw_bump_curves(ui.canvas(), room, view);
  if (touched.focused) ui.draw_focus(room, ui.mm(1));
}

void show_bump(Study& study, bool open) {
  study.bump.set_open(open);
  study.term.clear();
}

void take_bump_keys(Ui& ui, Session& session, Study& study) {
  if (ImGui::GetIO().WantTextInput) return;
  BumpStudy& bump = study.bump;
  if (ui.key(Key::b)) show_bump(study, !bump.open());
  if (!bump.open() || bump.refused()) return;
  for (const auto& [key, by_s] : {std::pair{KeyPress{Key::page_up}, kPressStep_s},
                                  {KeyPress{Key::page_down}, -kPressStep_s},
                                  {KeyPress{Key::page_up, true}, 10 * kPressStep_s},
                                  {KeyPress{Key::page_down, true}, -10 * kPressStep_s}})
    if (ui.key(key)) bump.set_press(bump.press_s() + by_s);
  if (!ui.has_focus() && ui.key(Key::space)) send(session, bump.play_or_pause());
}

}  // namespace shutlane
