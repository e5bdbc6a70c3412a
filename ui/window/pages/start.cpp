// The first page: three questions, or the demo job. Answers are kept in the Ui until the last one is given.
#include <algorithm>
#include <array>

#include "engines/catalog.hpp"
#include "ui/window/benches.hpp"
#include "ui/window/pages/form.hpp"
#include "ui/window/study/texts.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {
namespace {

struct Listed {
  std::string name, title, order;  ///< "1-5-3-6-2-4"
  size_t cylinders = 0;
  bool no_data = false, own_file = false;
};

/// Without the firing order, which stands below it.
std::string short_title(std::string title, const std::string& order) {
  const size_t at = title.find(", " + order);
  if (at != std::string::npos) title.erase(at, order.size() + 2);
  return title;
}

/// The bundled engines, read once.
const std::vector<Listed>& listed_engines() {
  static const std::vector<Listed> engines = [] {
    std::vector<Listed> found;
    for (const BundledFile& file : bundled_files()) {
      const auto engine = read_engine(file.text);
      if (const auto* e = std::get_if<Engine>(&engine))
        found.push_back({std::string(file.name), e->spec.name,
                         texts::firing_order(e->spec.layout.firing_order), e->cylinders.size(),
                         file.name.starts_with(kAnyEngine)});
    }
    return found;
  }();
  return engines;
}

/// And the file that is open: it can be turned in another way too.
std::vector<Listed> offered_engines(const Snapshot& s) {
  std::vector<Listed> found = listed_engines();
  const Document& d = s.document;
  if (d.engine && !is_bundled(d.engine_name))
    found.insert(found.begin(),
                 {d.engine_name, d.engine->spec.name, texts::firing_order(d.engine->spec.layout.firing_order),
                  d.engine->cylinders.size(), false, true});
  return found;
}

std::vector<size_t> cylinder_counts(const std::vector<Listed>& engines) {
  std::vector<size_t> counts;
  for (const Listed& e : engines) counts.push_back(e.cylinders);
  std::sort(counts.begin(), counts.end());
  counts.erase(std::unique(counts.begin(), counts.end()), counts.end());
  return counts;
}

void ask_cylinders(const std::vector<Listed>& engines, Form& form, Ui::StartAnswers& answers) {
  std::vector<Form::Choice> choices;
  const std::vector<size_t> counts = cylinder_counts(engines);
  for (const size_t n : counts)
    choices.push_back({"cylinders " + std::to_string(n), std::to_string(n), "", answers.cylinders == n});
  if (const auto pressed = form.ask(texts::ask_cylinders(), choices)) {
    answers.cylinders = counts[*pressed];
    answers.engine.clear();
  }
}

void ask_engine(const std::vector<Listed>& engines, const Ui& ui, Form& form, Ui::StartAnswers& answers) {
  std::vector<const Listed*> fitting;
  for (const Listed& e : engines)
    if (e.cylinders == answers.cylinders) fitting.push_back(&e);
  // Those that are safe on any engine come first: the others hold invented numbers.
  std::stable_sort(fitting.begin(), fitting.end(), [](const Listed* a, const Listed* b) {
    return 2 * a->own_file + a->no_data > 2 * b->own_file + b->no_data;
  });
  std::vector<Form::Choice> choices;
  const bool order_below = answers.cylinders < 9;
  for (size_t i = 0; i < fitting.size(); ++i)
    choices.push_back({"engine " + fitting[i]->name,
                       order_below ? short_title(fitting[i]->title, fitting[i]->order) : fitting[i]->title,
                       (order_below ? fitting[i]->order + " \u00b7 " : "") +
                           (fitting[i]->own_file  ? texts::your_file()
                            : fitting[i]->no_data ? texts::safe_without_data()
                                                  : texts::invented()),
                       answers.engine == fitting[i]->name});
  if (choices.empty()) return form.say(texts::ask_engine_later(), ui.palette().dim_text);
  const bool large_type = ui.type_mm(1) > 1.2 * ui.mm(1);  // then four lines of them do not fit
  if (const auto pressed =
          form.ask(texts::ask_engine(), choices, choices.size() > (large_type ? 12u : 16u) ? 5 : 4))
    answers.engine = fitting[*pressed]->name;
}

void ask_turning(Form& form, Ui::StartAnswers& answers) {
  struct Way {
    TurnBy by;
    bool wrench_too;
  };
  constexpr std::array kWays{Way{TurnBy::wrench, false}, Way{TurnBy::bar, false},
                             Way{TurnBy::road_wheel, false}, Way{TurnBy::starter, false},
                             Way{TurnBy::starter, true}};
  std::vector<Form::Choice> choices;
  for (const Way& way : kWays) {
    const std::string label = way.wrench_too ? texts::starter_and_wrench() : texts::turn_by(way.by);
    choices.push_back(
        {"by " + label, label, "", answers.turn_by == way.by && answers.wrench_too == way.wrench_too});
  }
  if (const auto pressed = form.ask(texts::ask_turning(), choices)) {
    answers.turn_by = kWays[*pressed].by;
    answers.wrench_too = kWays[*pressed].wrench_too;
  }
}

}  // namespace

void draw_start_page(Ui& ui, Session& session) {
  const Snapshot& s = session.snapshot();
  Ui::StartAnswers& answers = ui.start_answers;
  const double margin = ui.mm(8), top = ui.mm(5), demo_w = ui.mm(62), teach_w = ui.mm(52);
  const Box screen = ui.screen();
  auto open = [&](OpenEngine engine) {
    ui.hold_actions();  // the next page asks something else at the same place
    session.queue(std::move(engine));
  };
  ui.text_in({margin, top, screen.w - 2 * margin - demo_w - teach_w - ui.mm(9), ui.mm(15)},
             texts::start_headline(), {ui.mm(13), ui.palette().text, Align::left, Weight::bold, 0.45});
  if (ui.button({"demo", texts::open_demo(), texts::demo_note(), "", Look::plain, true, false, 5.2},
                {screen.w - margin - demo_w, top, demo_w, ui.mm(17)}))
    open({kDemoEngine, TurnBy::wrench, true});

  if (ui.button({"teach", texts::open_teach(), texts::teach_note(), "", Look::plain, true, false, 5.2},
                {screen.w - margin - demo_w - ui.mm(3) - teach_w, top, teach_w, ui.mm(17)})) {
    if (!s.document.engine) open({kDemoEngine, TurnBy::wrench, true});
    session.queue(ShowBench{Bench::teach});
  }

  Form form(ui, {margin, top + ui.mm(21), screen.w - 2 * margin, screen.h - top - ui.mm(26)});
  // The list of engines last: it grows, and nothing below it may move under a finger.
  ask_turning(form, answers);
  const std::vector<Listed> engines = offered_engines(s);
  ask_cylinders(engines, form, answers);
  ask_engine(engines, ui, form, answers);
  if (!s.message.empty()) {
    form.say(s.message, ui.palette().open);
  } else if (answers.turn_by) {
    form.say(texts::turn_by_caution(*answers.turn_by), ui.palette().open);
  } else {
    form.say(texts::file_hint(), ui.palette().dim_text);
  }

  const bool ready = !answers.engine.empty() && answers.turn_by.has_value();
  const double h = ui.mm(20), back_w = ui.mm(50), gap = ui.mm(3);
  Box wide{margin, screen.h - ui.mm(5) - h, screen.w - 2 * margin, h};
  if (s.document.engine) {
    wide.w -= back_w + gap;
    if (ui.button({"back", "Back to the job", "", "", Look::plain, true, false, 5.2},
                  {wide.right() + gap, wide.y, back_w, h}) ||
        ui.key(Key::escape))
      session.queue(ShowPage{});
  }
  if (ui.button({"wide", texts::start_job(), "", "", Look::wide, ready, false, 10}, wide) ||
      (ready && !ui.has_focus() && ui.key(Key::enter))) {
    open({answers.engine, *answers.turn_by, false, answers.wrench_too});
    answers = {};
  }
}

}  // namespace shutlane
