// Settings: nothing of them is on the Work bench. A margin below its default asks for a reason.
#include <cmath>

#include <fmt/format.h>

#include "ui/window/benches.hpp"
#include "ui/window/pages/form.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {
namespace {

Form::Choice choice(std::string id, std::string label, bool selected) {
  return {std::move(id), std::move(label), "", selected, true};
}

/// A question whose answers are values of one setting.
template <class Value, class Label>
std::optional<Value> ask_one(Form& form, const std::string& question, const std::string& id,
                             const std::vector<Value>& values, Value now, Label label) {
  std::vector<Form::Choice> choices;
  for (const Value& value : values)
    choices.push_back(choice(id + " " + label(value), label(value), value == now));
  const auto pressed = form.ask(question, choices);
  if (pressed && values[*pressed] != now) return values[*pressed];
  return {};
}

std::string degrees(double deg) { return fmt::format("{:g}\u00b0", deg); }

void ask_margin(Ui& ui, Session& session, Form& form, double& wanted_deg) {
  const Snapshot& s = session.snapshot();
  JobRules rules = s.document.rules;
  if (const auto margin = ask_one<double>(form, texts::ask_margin(), "margin", {0, 5, 10, 15, 20},
                                          rules.margin_deg, degrees)) {
    if (*margin < kDefaultMargin_deg) {
      wanted_deg = *margin;
    } else {
      wanted_deg = -1;
      rules.margin_deg = *margin;
      session.queue(SetRules{rules, ""});
    }
  }
  if (wanted_deg < 0) {
    if (!s.document.margin_reason.empty())
      form.say(texts::margin_lowered(s.document.margin_reason), ui.palette().open);
    return;
  }
  const std::vector<std::string> reasons = texts::margin_reasons();
  std::vector<Form::Choice> choices;
  for (const std::string& reason : reasons) choices.push_back(choice("reason " + reason, reason, false));
  choices.push_back(choice("reason none", "Leave it", false));
  if (const auto pressed = form.ask(texts::margin_needs_reason(), choices)) {
    rules.margin_deg = wanted_deg;
    if (*pressed < reasons.size()) session.queue(SetRules{rules, reasons[*pressed]});
    wanted_deg = -1;
  }
}

}  // namespace

void draw_settings_page(Ui& ui, Session& session) {
  const Snapshot& s = session.snapshot();
  const Box headline = draw_tabs(ui, session);
  ui.text_in({headline.x, headline.y, headline.w, headline.h * 0.55}, "Settings",
             {ui.mm(13), ui.palette().text, Align::left, Weight::bold, 0.45});
  const double margin = ui.mm(8), gap = ui.mm(8);
  const double top = headline.y + ui.mm(20), height = ui.screen().h - top - ui.mm(5);
  const double column = (ui.screen().w - 2 * margin - gap) / 2;
  Form left(ui, {margin, top, column, height}), right(ui, {margin + column + gap, top, column, height});

  JobRules rules = s.document.rules;
  ask_margin(ui, session, left, ui.pending_margin_deg);
  if (const auto accuracy = ask_one<double>(left, texts::ask_accuracy(), "accuracy", {5, 10, 20, 30, 45, 60},
                                            rules.accuracy_deg, degrees)) {
    rules.accuracy_deg = *accuracy;
    session.queue(SetRules{rules, s.document.margin_reason});
  }
  if (const auto eye =
          ask_one<double>(left, texts::ask_eye(), "eye", {0.2, 0.5, 1.0, 1.5}, rules.eye_mm,
                          [&](double mm) { return texts::length(mm, s.document.preferences.measures); })) {
    rules.eye_mm = *eye;
    session.queue(SetRules{rules, s.document.margin_reason});
  }

  if (const auto lobes = ask_one<bool>(left, texts::ask_lobes(), "lobes", {true, false}, rules.lobes_visible,
                                       [](bool seen) { return std::string(seen ? "yes" : "no"); })) {
    rules.lobes_visible = *lobes;
    session.queue(SetRules{rules, s.document.margin_reason});
  }

  Preferences p = s.document.preferences;
  auto set = [&] { session.queue(SetPreferences{p}); };
  if (const auto theme =
          ask_one<Theme>(right, "Colours", "theme", {Theme::dark, Theme::light}, p.theme,
                         [](Theme t) { return std::string(t == Theme::dark ? "dark" : "light"); })) {
    p.theme = *theme;
    set();
  }
  if (const auto scale = ask_one<double>(right, "Size of small text", "scale", {1, 1.25, 1.5, 2}, p.scale,
                                         [](double x) { return fmt::format("{:g}\u00d7", x); })) {
    p.scale = *scale;
    set();
  }
  if (const auto dpi = ask_one<double>(
          right, texts::ask_dpi(), "dpi", {0, 96, 110, 141, 163, 192}, p.dpi,
          [](double x) { return x == 0 ? std::string("as found") : fmt::format("{:g}", x); })) {
    p.dpi = *dpi;
    set();
  }
  if (const auto measures = ask_one<Measures>(
          right, "Measures", "measures", {Measures::metric, Measures::us}, p.measures,
          [](Measures m) { return std::string(m == Measures::metric ? "millimetres" : "inches"); })) {
    p.measures = *measures;
    set();
  }
  if (right.ask("", {choice("back", "Back to the job", false)}) || ui.key(Key::escape)) {
    ui.pending_margin_deg = -1;
    session.queue(ShowPage{});
  }
}

}  // namespace shutlane
