// What happens now and then in a job, one press each; and the ways to the other pages.
#include "sim/job/texts.hpp"
#include "ui/window/benches.hpp"
#include "ui/window/pages/form.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {
namespace {

struct Entry {
  Form::Choice choice;
  std::vector<Command> commands;
};

std::vector<Entry> entries_of(const Snapshot& s) {
  std::vector<Entry> entries;
  auto add = [&](const char* id, std::string label, std::string note, Command command, bool enabled = true) {
    entries.push_back(
        {{id, std::move(label), std::move(note), false, enabled}, {std::move(command), ShowPage{}}});
  };
  const bool logging = !s.what_if_deg;
  add("crank moved", "Crank moved", "nobody knows how far", LogEvent{CrankMoved{}}, logging);
  add("look again", "Look again", "forget the looks made here", LogEvent{LooksForgotten{}}, logging);
  add("mark", "Crank mark in line", "of cylinder 1\u2019s top dead centre, within 5\u00b0",
      LogEvent{MarkRead{0, kMarkReads_deg}}, logging);
  const LayoutSpec& layout = s.model->engine.spec.layout;
  if (layout.banks.size() > 1 && layout.banks.size() <= 4) {
    for (size_t i = 0; i < layout.banks.size(); ++i)
      add(("bank " + std::to_string(i)).c_str(), texts::only_bank(layout.banks[i].name),
          texts::listed(layout.banks[i].cylinders), LogEvent{OnlyBank{i}}, logging && s.job.only_bank != i);
    add("all banks", "All banks", "", LogEvent{OnlyBank{}}, logging && s.job.only_bank.has_value());
  }
  Preferences turned = s.document.preferences;
  turned.turned_round = !turned.turned_round;
  add("turn round", "Turn the board round", "seen from the other side", SetPreferences{turned});
  add("redo", "Redo", "", Redo{}, s.can_redo);
  entries.push_back({{"start over", "New job", "same engine, nothing done"}, {ShowPage{}, StartOver{}}});
  entries.push_back(
      {{"start page", "Another engine, or turned otherwise", "three questions"}, {ShowPage{Page::start}}});
  entries.push_back({{"cautions", "Cautions", "what can hurt"}, {ShowPage{Page::cautions}}});
  entries.push_back(
      {{"settings", "Settings", "margin, accuracy, units, size, colours"}, {ShowPage{Page::settings}}});
  return entries;
}

}  // namespace

void draw_job_menu(Ui& ui, Session& session) {
  const Snapshot& s = session.snapshot();
  const Box headline = draw_tabs(ui, session);
  ui.text_in({headline.x, headline.y, headline.w, headline.h * 0.55}, "Menu",
             {ui.mm(13), ui.palette().text, Align::left, Weight::bold, 0.45});
  const double margin = ui.mm(8);
  Form form(ui, {margin, headline.bottom(), ui.screen().w - 2 * margin,
                 ui.screen().h - headline.bottom() - ui.mm(6)});
  std::vector<Entry> entries = entries_of(s);
  std::vector<Form::Choice> choices;
  for (const Entry& entry : entries) choices.push_back(entry.choice);
  if (const auto pressed = form.ask("", choices, 3, 21))
    for (const Command& command : entries[*pressed].commands) session.queue(command);
  if (const auto back = form.ask("", {{"back", "Back to the job", ""}}, 3, kTarget_mm);
      back || ui.key(Key::escape))
    session.queue(ShowPage{});
}

}  // namespace shutlane
