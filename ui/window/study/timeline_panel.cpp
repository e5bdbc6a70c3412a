#include "ui/window/study/timeline_panel.hpp"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "engines/own.hpp"
#include "ui/drawings/lanes_legend.hpp"
#include "ui/drawings/layout_icon.hpp"
#include "ui/drawings/text.hpp"
#include "ui/window/benches.hpp"
#include "ui/window/study/bump_panel.hpp"
#include "ui/window/study/bump_texts.hpp"
#include "ui/window/study/readings.hpp"
#include "ui/window/study/texts.hpp"

namespace shutlane {

namespace {

constexpr double kLongestStep_s = 0.1;  // of running, when frames come late

LanesView lanes_view(Ui& ui, const Snapshot& s, Study& study, const StudySizes& sizes) {
  LanesView view;
  view.engine = &study.engine();
  view.windows = &study.windows();
  view.plan = &study.plan(needle_deg(s));
  view.order = study.timeline.order;
  view.start_deg = start_deg(study.engine(), study.timeline.start_cylinder, study.timeline.start_at);
  view.from_deg = study.timeline.range.from_deg;
  view.to_deg = study.timeline.range.to_deg;
  view.count_from_start = true;
  if (study.of_the_job()) view.crank_deg = jobs_crank_deg(s);
  view.what_if_deg = needle_deg(s);
  view.hover_deg = study.timeline.hover_deg;
  if (const BumpStudy* bump = bump_on_timeline(s, study)) {
    static const std::vector<double> none(static_cast<size_t>(kCycle_deg), 0.0);  // keeps the strip's room
    view.plan = nullptr;                                                          // the next move is the bump
    view.fan_weights = bump->fan() ? std::span<const double>(bump->fan()->weights) : none;
    view.fan_stale = bump->fan_stale();
    view.fan_from_deg = bump->start_deg();
    view.labels = view.crank_deg.has_value();
  }
  view.theme = ui.theme();
  view.text = sizes.text;
  return view;
}

/// Teach speaks of one cylinder, Explore of all.
std::vector<CrankEvent> told_events(const Snapshot& s, const Study& study) {
  std::vector<CrankEvent> events = study.events();
  if (s.document.bench == Bench::teach)
    std::erase_if(events, [&](const CrankEvent& e) { return e.cylinder != study.cylinder; });
  return events;
}

void zoom_at_needle(Study& study, const Snapshot& s, double factor) {
  TimelineState& t = study.timeline;
  const double after_deg =
      forward_deg(start_deg(study.engine(), t.start_cylinder, t.start_at), needle_deg(s));
  const double part = forward_deg(t.range.from_deg, after_deg) / t.range.span_deg();
  t.range = zoomed(t.range, part <= 1 ? part : 0.5, factor);
}

struct HeadButton {
  std::string id, label, widest, tip;  ///< the widest label that it may come to bear keeps its place steady
  bool selected = false;
};

/// Small buttons at the right end of the panel's head, made narrower together where they do not fit. The id
/// of the one that was pressed, and where they begin.
std::pair<std::string, double> draw_head(Ui& ui, const StudySizes& sizes, Box row,
                                         const std::vector<HeadButton>& buttons) {
  const double gap = 0.5 * sizes.gap;
  std::vector<double> widths;
  double sum = 0;
  for (const HeadButton& b : buttons) {
    widths.push_back(
        std::max(small_button_width(ui, sizes, b.label), small_button_width(ui, sizes, b.widest)));
    sum += widths.back();
  }
  const double caption_w = 9 * sizes.text;
  const double room = row.w - caption_w - gap * static_cast<double>(buttons.size() - 1),
               part = std::min(1.0, room / sum);
  double x = row.right() - sum * part - gap * static_cast<double>(buttons.size() - 1);
  const double begins_x = x;
  std::string pressed;
  for (size_t i = 0; i < buttons.size(); ++i) {
    const double w = widths[i] * part;
    if (small_button(ui, sizes, buttons[i].id, buttons[i].label, {x, row.y, w, row.h}, buttons[i].selected,
                     buttons[i].tip))
      pressed = buttons[i].id;
    x += w + gap;
  }
  return {pressed, begins_x};
}

/// From where the degrees are counted, left of the buttons.
void draw_caption(Ui& ui, const Study& study, const StudySizes& sizes, Box room) {
  const TimelineState& t = study.timeline;
  const double zero_deg = study.counted_deg(0);
  const std::string words =
      texts::starts_at(t.start_at, t.start_cylinder, zero_deg == 0 ? "" : angle_in(zero_deg));
  ui.paragraph_in(room, words, {0.9 * sizes.text, ui.palette().dim_text, Align::left, Weight::regular, 0.5},
                  2);
}

void draw_buttons(Ui& ui, const Snapshot& s, Study& study, const StudySizes& sizes, Box row) {
  TimelineState& t = study.timeline;
  const bool by_firing = t.order == LaneOrder::firing, at_firing = t.start_at == StartAt::firing_tdc;
  const bool teach = s.document.bench == Bench::teach, bump = bump_on_timeline(s, study) != nullptr;
  std::vector<HeadButton> buttons{{"order", by_firing ? texts::firing_order() : texts::number_order(),
                                   texts::number_order(), texts::tip_order(t.order)},
                                  {"start cylinder", texts::start_cylinder(t.start_cylinder),
                                   texts::start_cylinder(12), texts::tip_start()},
                                  {"start at", at_firing ? texts::start_firing() : texts::start_overlap(),
                                   texts::start_overlap(), texts::tip_start()},
                                  {"whole cycle", texts::whole_cycle(), "", texts::tip_whole_cycle()}};
  if (!bump) {
    buttons.push_back({"speed", texts::speed(kRunSpeeds_rpm[t.speed]), texts::speed(20), texts::tip_speed()});
    buttons.push_back(
        {"run", t.running ? texts::stop() : texts::run(), texts::stop(), texts::tip_run(), t.running});
  }
  if (teach)
    buttons.push_back({"bump", texts::bump_button(), "", texts::tip_bump_button(), study.bump.open()});
  const auto [pressed, begins_x] = draw_head(ui, sizes, row, buttons);
  draw_caption(ui, study, sizes, {row.x, row.y, begins_x - row.x - sizes.gap, row.h});
  if (pressed == "order") t.order = by_firing ? LaneOrder::number : LaneOrder::firing;
  if (pressed == "start at") t.start_at = at_firing ? StartAt::overlap_tdc : StartAt::firing_tdc;
  if (pressed == "whole cycle") t.range = {};
  if (pressed == "speed") t.speed = (t.speed + 1) % std::size(kRunSpeeds_rpm);
  if (pressed == "run") t.running = !t.running;
  if (pressed == "bump") show_bump(study, !study.bump.open());
  if (pressed == "start cylinder") {
    const auto& all = study.engine().cylinders;
    size_t i = 0;
    while (i < all.size() && all[i].number != t.start_cylinder) ++i;
    t.start_cylinder = all[(i + 1) % all.size()].number;
  }
}

/// Where the needle has gone when it is out of sight: an arrow at the end beyond which it lies nearer;
/// pressing it brings the needle into view. Its place is taken before the lanes', it is painted over them.
struct NeedleArrow {
  Box box;
  bool right = false, focused = false;
};
std::optional<NeedleArrow> take_needle_arrow(Ui& ui, Study& study, const Snapshot& s, const StudySizes& sizes,
                                             const LanesGeometry& g) {
  const double needle = needle_deg(s);
  if (!g.visible_x(needle).empty()) return std::nullopt;
  TimelineState& t = study.timeline;
  const double after_deg = forward_deg(start_deg(study.engine(), t.start_cylinder, t.start_at), needle);
  const double past_deg = forward_deg(t.range.to_deg, after_deg);
  const double before_deg = forward_deg(after_deg, t.range.from_deg);
  const bool right = past_deg <= before_deg;
  const double w = 2.2 * sizes.text, h = std::min(2.6 * sizes.text, g.plot.h);
  const Box box{right ? g.plot.right() - w : g.plot.x, g.plot.y + (g.plot.h - h) / 2, w, h};
  const Ui::Area touched = ui.area("to needle", texts::to_needle(), box, true, false, texts::tip_to_needle());
  if (touched.pressed) t.range = holding(t.range, after_deg);
  return NeedleArrow{box, right, touched.focused};
}

void paint_needle_arrow(Ui& ui, const NeedleArrow& arrow) {
  const Palette& p = ui.palette();
  const Box b = arrow.box;
  ui.canvas().fill_box(b, p.what_if, 0.2 * b.w);
  const double way = arrow.right ? 1 : -1, x = b.x + b.w / 2, y = b.y + b.h / 2, r = 0.32 * b.w;
  const Point head[] = {{x + way * r, y}, {x - way * 0.7 * r, y + 1.1 * r}, {x - way * 0.7 * r, y - 1.1 * r}};
  ui.canvas().fill(head, p.on_fill);
  if (arrow.focused) ui.draw_focus(b, 0.2 * b.w);
}

}  // namespace

Study& study_of(Ui& ui, const Snapshot& snapshot) {
  if (!ui.study) {
    ui.study = std::make_shared<Study>();
    ui.study->wake = ui.wake_from_thread;
    ui.study->own_folder = ui.own_engines;
    const std::vector<std::string> own = engine_files_in(ui.own_engines);
    for (auto path = own.rbegin(); path != own.rend(); ++path) ui.study->list_own(*path);
  }
  ui.study->follow(snapshot);
  // Nothing can wake the window from the watching thread: look now and then.
  if (ui.study->watching() && !ui.wake_from_thread) ui.wake_after(0.5);
  return *ui.study;
}

void open_dropped(Ui& ui, Study& study) {
  for (const std::string& path : ui.dropped) study.open(path);
  ui.dropped.clear();
}

void draw_study_headline(Ui& ui, const StudySizes& sizes, const Snapshot& s, const Study& study, Box room) {
  const Palette& p = ui.palette();
  const double top = ui.mm(5), height = ui.mm(15);
  const LayoutSpec& layout = study.engine().spec.layout;
  draw_layout_icon(ui.canvas(), {room.x, top, height, height}, layout, p.text, p.background);
  const double x = room.x + height + sizes.gap, w = room.right() - x;
  const bool invented = s.document.demo && study.of_the_job();
  const std::string name = study.engine().spec.name + (invented ? texts::invented_mark() : "");
  ui.text_in({x, top, w, 0.56 * height}, name, {ui.mm(7), p.text, Align::left, Weight::bold, 0.4});
  std::string order;
  for (const int n : layout.firing_order) order += (order.empty() ? "" : "-") + std::to_string(n);
  const bool speaks = !study.file_mistakes.empty() || !study.note.empty();
  const std::string second = !study.file_mistakes.empty()
                                 ? texts::reload_failed() + " " + texts::last_good_stays()
                             : speaks ? study.note
                                      : texts::about_layout(layout_name(layout), order);
  ui.text_in(
      {x, top + 0.58 * height, w, 0.42 * height}, second,
      {ui.mm(4.4), study.file_mistakes.empty() ? p.dim_text : p.open, Align::left, Weight::regular, 0.5});
}

void draw_timeline_panel(Ui& ui, Session& session, Study& study, const StudySizes& sizes, Box box) {
  const Snapshot& s = session.snapshot();
  TimelineState& t = study.timeline;
  const double dt_s = std::min(static_cast<double>(ImGui::GetIO().DeltaTime), kLongestStep_s);
  if (t.running) {
    session.queue(MoveWhatIf{run_on(needle_deg(s), t, dt_s)});
    ui.wake_after(0);
  }
  draw_panel(ui, sizes, box, "");
  const Box head{box.x + sizes.pad, box.y + 0.6 * sizes.pad, box.w - 2 * sizes.pad, sizes.button};
  draw_buttons(ui, s, study, sizes, head);
  const double foot_row = 1.35 * sizes.text, foot_h = 2 * foot_row;
  Box room{head.x, head.bottom() + 0.5 * sizes.pad, head.w,
           box.bottom() - head.bottom() - 1.2 * sizes.pad - foot_h};

  LanesView view = lanes_view(ui, s, study, sizes);
  const LanesGeometry geometry = lay_out_lanes(view, room);
  const std::optional<NeedleArrow> arrow = take_needle_arrow(ui, study, s, sizes, geometry);
  const Ui::Area touched = ui.area("timeline", texts::timeline_heading(t.order), room);
  const ImGuiIO& io = ImGui::GetIO();
  TimelinePointer pointer;
  pointer.at = {static_cast<double>(io.MousePos.x), static_cast<double>(io.MousePos.y)};
  pointer.over = touched.over;
  pointer.pan = io.MouseDown[1] || io.MouseDown[2] || (io.MouseDown[0] && io.KeyShift);
  pointer.left = io.MouseDown[0] && !pointer.pan;
  pointer.wheel = io.KeyShift ? 0 : static_cast<double>(io.MouseWheel);
  pointer.wheel_sideways =
      static_cast<double>(io.MouseWheelH) + (io.KeyShift ? -static_cast<double>(io.MouseWheel) : 0);
  if (io.MouseDelta.x != 0 || io.MouseDelta.y != 0) t.hover_muted = false;
  // The numbers left of the lanes choose the cylinder and leave the needle where it is.
  if (touched.over && io.MouseClicked[0] && pointer.at.x < geometry.plot.x)
    if (const auto number = geometry.cylinder_at(pointer.at.y)) study.cylinder = *number;
  if (const auto moved_deg = follow(t, geometry, pointer)) {
    t.running = false;
    if (*moved_deg != needle_deg(s)) session.queue(MoveWhatIf{moved_deg});
    if (t.grip == TimelineState::Grip::needle)
      if (const auto number = geometry.cylinder_at(pointer.at.y); number && io.MouseClicked[0])
        study.cylinder = *number;
  }
  view.from_deg = t.range.from_deg;
  view.to_deg = t.range.to_deg;
  view.hover_deg = t.hover_deg;
  draw_lanes(ui.canvas(), room, view);
  if (arrow) paint_needle_arrow(ui, *arrow);
  // The chosen cylinder is marked beside its number.
  for (size_t row = 0; row < geometry.cylinders.size(); ++row)
    if (geometry.cylinders[row] == study.cylinder) {
      const Box track = geometry.track(row);
      ui.canvas().fill_box({room.x, track.y, 0.25 * sizes.text, track.h}, ui.palette().what_if,
                           0.1 * sizes.text);
    }
  if (touched.focused) ui.draw_focus(room, ui.mm(1));

  const Box foot{head.x, box.bottom() - foot_h - 0.3 * sizes.pad, head.w, foot_row};
  draw_lanes_legend(ui.canvas(), foot, view);
  // Both share the row by what they have to say.
  const std::string events = events_round(told_events(s, study), needle_deg(s)),
                    keys = bump_on_timeline(s, study) ? texts::bump_keys_line() : texts::keys_line();
  const double size = 0.9 * sizes.text, events_w = ui.canvas().text_width(events, size),
               keys_w = ui.canvas().text_width(keys, size);
  const double part = std::clamp(events_w / std::max(1.0, events_w + keys_w), 0.3, 0.7);
  const Box said{foot.x, foot.bottom(), (part - 0.01) * foot.w, foot_row};
  const Box rest{said.right() + 0.02 * foot.w, said.y, (0.99 - part) * foot.w, foot_row};
  ui.text_in(said, events, {size, ui.palette().text, Align::left, Weight::regular, 0.5});
  ui.text_in(rest, keys, {size, ui.palette().dim_text, Align::right, Weight::regular, 0.5});
}

void draw_hover(Ui& ui, const Snapshot& s, const Study& study, const StudySizes& sizes) {
  const TimelineState& t = study.timeline;
  if (!t.hover_deg || t.hover_muted) return;
  const Measures measures = s.document.preferences.measures;
  const int number = t.hover_cylinder.value_or(study.cylinder);
  std::vector<Reading> lines = readings(study.engine(), study.windows_of(number), *t.hover_deg, measures);
  lines.insert(lines.begin(),
               {texts::cylinder(number), texts::at_angle(angle_in(study.counted_deg(*t.hover_deg)))});
  // Over everything, so on the foreground list.
  ScreenCanvas canvas(*ImGui::GetForegroundDrawList(), ui.fonts());
  const double size = sizes.text, pad = 0.6 * size, row = 1.2 * size;
  double name_w = 0, value_w = 0;
  for (const Reading& line : lines) {
    name_w = std::max(name_w, canvas.text_width(line.name, size, Weight::bold));
    value_w = std::max(value_w, canvas.text_width(line.value, size, Weight::regular));
  }
  const ImVec2 at = ImGui::GetIO().MousePos;
  Box box{static_cast<double>(at.x) + 1.2 * size, static_cast<double>(at.y) + 1.2 * size,
          name_w + value_w + 2 * pad + 0.8 * size, static_cast<double>(lines.size()) * row + 2 * pad};
  if (box.right() > ui.screen().w) box.x = static_cast<double>(at.x) - box.w - 0.8 * size;
  if (box.bottom() > ui.screen().h) box.y = static_cast<double>(at.y) - box.h - 0.8 * size;
  canvas.fill_box(box, ui.colours().chosen, 0.4 * size);
  double y = box.y + pad;
  for (const Reading& line : lines) {
    const double base = y + row / 2 + size * kHalfCapital;
    canvas.text({box.x + pad, base}, line.name, size, ui.colours().chosen_text, Align::left, Weight::bold);
    canvas.text({box.x + pad + name_w + 0.8 * size, base}, line.value, size, ui.colours().chosen_text,
                Align::left, Weight::regular);
    y += row;
  }
}

void take_timeline_keys(Ui& ui, Session& session, Study& study) {
  if (ImGui::GetIO().WantTextInput) return;
  const Snapshot& s = session.snapshot();
  TimelineState& t = study.timeline;
  const double now_deg = needle_deg(s);
  auto send = [&](double at_deg) {
    t.running = false;
    t.hover_muted = true;
    at_deg = wrap_deg(at_deg);
    session.queue(MoveWhatIf{at_deg});
    t.range = holding(t.range, forward_deg(start_deg(study.engine(), t.start_cylinder, t.start_at), at_deg));
  };
  if (ui.key(Key::right)) send(now_deg + 1);
  if (ui.key(Key::left)) send(now_deg - 1);
  if (ui.key(KeyPress{Key::right, true})) send(now_deg + 10);
  if (ui.key(KeyPress{Key::left, true})) send(now_deg - 10);
  for (const auto& [key, way] : {std::pair{Key::period, Way::forward}, {Key::comma, Way::back}})
    if (ui.key(key)) {
      const std::vector<CrankEvent> there = next_events(told_events(s, study), now_deg, way);
      if (!there.empty()) send(there.front().at_deg);
    }
  for (const auto& [key, way] : {std::pair{Key::page_down, Way::forward}, {Key::page_up, Way::back}})
    if (ui.key(key))
      if (const Position* p = next_position(study.plan(now_deg), now_deg, way)) send(p->at_deg);
  if (ui.key(Key::home)) send(start_deg(study.engine(), t.start_cylinder, t.start_at));
  if (!ui.has_focus() && ui.key(Key::space)) t.running = !t.running;
  if (ui.key(Key::plus) || ui.key(KeyPress{Key::plus, true})) zoom_at_needle(study, s, 0.7);
  if (ui.key(Key::minus)) zoom_at_needle(study, s, 1 / 0.7);
  if (ui.key(Key::up)) study.pick_cylinder_by(-1);
  if (ui.key(Key::down)) study.pick_cylinder_by(1);
  if (ui.key(Key::o)) t.order = t.order == LaneOrder::firing ? LaneOrder::number : LaneOrder::firing;
  if (const std::optional<int> digit = ui.digit()) {
    if (*digit == 0)
      t.range = {};
    else if (study.engine().find(*digit))
      study.cylinder = *digit;
  }
  if (ui.key(Key::escape)) {  // one thing at a time; the needle, which a class may be looking at, last
    if (t.running)
      t.running = false;
    else if (!study.term.empty())
      study.term.clear();
    else if (ui.has_focus())
      ui.drop_focus();
    else if (s.what_if_deg)
      session.queue(MoveWhatIf{});
  }
}

}  // namespace shutlane
