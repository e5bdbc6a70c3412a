#pragma once
// Drives the window without a display: the real frame, fed with the real input events, items clicked by their
// labels.
#include <gtest/gtest.h>

#include <chrono>
#include <stdexcept>
#include <thread>

#include "engines/catalog.hpp"
#include "ui/window/bump/bump_bench.hpp"
#include "ui/window/viewer.hpp"

namespace shutlane {

/// A rest table of five presses and one trial a car, worked out in a moment and kept nowhere.
inline std::shared_ptr<const RestTable> quick_rest_table(const CrankingModel& model,
                                                         RestTableQuestion question) {
  question.presses_s = {0.06, 0.10, 0.20, 0.30, 0.40};
  question.trials_per_car = 1;
  std::optional<RestTable> table = build_rest_table(model, question);
  return table ? std::make_shared<const RestTable>(*std::move(table)) : nullptr;
}

class Harness {
 public:
  explicit Harness(int width = 1600, int height = 1000, bool draft = true)
      : session([this] { return clock_s; }, find_engine), viewer(draft), size_{width, height, 0} {
    viewer.ui().bump = std::make_shared<BumpBench>(nullptr, quick_rest_table);
    settle();
  }

  void open(const std::string& engine, Preferences preferences = {}, TurnBy turn_by = TurnBy::wrench) {
    Document document;
    document.engine_name = engine;
    document.engine = std::make_shared<const Engine>(std::get<Engine>(find_engine(engine)));
    document.preferences = preferences;
    document.rules.turn_by = turn_by;
    if (turn_by != TurnBy::wrench)
      document.rules.accuracy_deg = usual_accuracy_deg(turn_by, document.engine->cylinders.size());
    session.restore(std::move(document));
    settle();
  }
  void open_demo() {
    click("Open the demo job");
    click("wide");  // the cautions
    rest();
  }
  void resize(int width, int height, double dpi = 0) {
    size_ = {width, height, dpi};
    settle();
  }
  void queue(Command command) {
    session.queue(std::move(command));
    session.apply();
    settle();
  }
  void log(const JobEvent& event) { queue(LogEvent{event}); }

  void settle() {
    viewer.wake(3);
    for (int n = 0; n < 300 && viewer.unsettled(); ++n) viewer.frame(session, size_, 1.0 / 60);
  }
  /// Frame after frame for as long on the window's clock, as while something runs.
  void run_for(double seconds) {
    for (int n = 0; n < static_cast<int>(seconds * 60 + 0.5); ++n) viewer.frame(session, size_, 1.0 / 60);
  }
  /// Until the press is worked out.
  void wait_for_desk() {
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(120);
    settle();
    while (viewer.ui().bump->desk.view().reckoning && std::chrono::steady_clock::now() < end)
      std::this_thread::sleep_for(std::chrono::milliseconds(2));
    settle();
  }
  const Items& items() { return viewer.ui().items(); }
  std::string listed() {
    std::string all;
    for (const Item& item : items().items) all += "'" + item.label + "' (" + item.id + ") ";
    return all;
  }
  Item need(const std::string& label) {
    rest();
    const Item* item = items().by_label(label);
    if (!item) item = items().by_id(label);
    if (!item) throw std::runtime_error("no item '" + label + "'; there are: " + listed());
    if (!item->enabled) throw std::runtime_error("item '" + label + "' is disabled");
    return *item;
  }
  /// The words stand somewhere in the frame, over the end of a line too.
  bool says(const std::string& words) {
    std::string all;
    for (const TextItem& text : items().texts) all += text.text + " ";
    return all.find(words) != std::string::npos;
  }
  bool has(const std::string& label) { return items().by_label(label) != nullptr; }
  /// As long as a person takes for the next step.
  void rest() { viewer.frame(session, size_, rest_s()); }
  double rest_s() const {
    const Stage stage = advice().stage;
    const bool check = stage == Stage::clear || stage == Stage::missing || stage == Stage::mark ||
                       stage == Stage::turn || stage == Stage::bump;
    return stage == Stage::inside ? 2.1 : check ? 1.6 : 0.6;
  }
  /// Does an intake valve of the port stand off its seat?
  bool open_at(int cylinder, double crank_deg) const {
    const Engine& engine = *now().document.engine;
    for (const double lift_mm : lifts_mm(engine, *engine.find(cylinder), ValveKind::intake, crank_deg))
      if (lift_mm > 0) return true;
    return false;
  }
  /// Presses what an honest technician answers with the crank standing there; the crank's own moves are the
  /// caller's.
  void answer(double crank_deg) {
    const Advice now = advice();
    switch (now.stage) {
      case Stage::look:
      case Stage::look_again:
      case Stage::unseen:
        return click(open_at(now.port, crank_deg) ? "answer 3" : "answer 1");
      case Stage::lobe:
        return click("can\u2019t see");
      case Stage::chalk:
        return click(now.wide.label.empty() ? "in line" : "wide");
      case Stage::inside:
        return click("answer 1");
      default:
        return click("wide");
    }
  }
  void click(const std::string& label) {
    const Box b = need(label).box;
    click_at({b.x + b.w / 2, b.y + b.h / 2});
  }
  void click_at(Point p) {
    viewer.input.push(PointerMoved{p.x, p.y});
    viewer.input.push(ButtonChanged{0, true, p.x, p.y});
    viewer.input.push(ButtonChanged{0, false, p.x, p.y});
    settle();
  }
  void press(KeyPress key) {
    rest();
    viewer.input.push(KeyChanged{key, true});
    viewer.input.push(KeyChanged{key, false});
    settle();
  }
  void press(Key key) { press(KeyPress{key}); }

  const Snapshot& now() const { return session.snapshot(); }
  const Advice& advice() const { return session.snapshot().advice; }
  std::string wide() { return need("wide").label; }
  Face face(int cylinder) const {
    for (const PortView& port : advice().ports)
      if (port.cylinder == cylinder) return port.face;
    throw std::runtime_error("no such port");
  }
  double mm(double pixels) { return pixels / viewer.ui().mm(1); }
  Raster picture() { return settled_picture(viewer, session, size_); }

  double clock_s = 1000;
  Session session;
  Viewer viewer;

 private:
  Viewer::Size size_;
};

}  // namespace shutlane
