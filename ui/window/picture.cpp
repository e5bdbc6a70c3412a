#include "ui/window/picture.hpp"

#include <chrono>
#include <thread>

#include "engines/catalog.hpp"
#include "sim/job/state.hpp"
#include "ui/told/event_words.hpp"
#include "ui/told/telling.hpp"
#include "ui/window/bump/bump_bench.hpp"
#include "ui/window/study/study.hpp"
#include "ui/window/viewer.hpp"

namespace shutlane {

namespace {

/// The bump reckoned and its replay taken to the middle.
void show_bump(Viewer& viewer, Session& session, Viewer::Size size, double press_s) {
  const auto settle = [&] {
    viewer.wake(3);
    while (viewer.unsettled()) viewer.frame(session, size, 1.0 / 60);
  };
  settle();
  BumpStudy& bump = viewer.ui().study->bump;
  bump.set_open(true);
  bump.set_press(press_s);
  settle();
  while (bump.busy()) std::this_thread::sleep_for(std::chrono::milliseconds(5));
  settle();
  if (!bump.record()) return;
  session.queue(MoveWhatIf{bump.scrub(bump.record()->rests_s / 2)});
  session.apply();
}

}  // namespace

std::optional<std::string> draw_picture(const PictureRequest& request, const std::string& path) {
  auto found = find_engine(request.engine);
  if (const auto* why_not = std::get_if<std::string>(&found)) return *why_not;
  constexpr double kFixedNow_s =
      2520;  // 0:42 h after the first event, so that pictures do not change with the hour
  Session session([] { return kFixedNow_s; }, find_engine);
  Document document;
  document.engine_name = request.engine;
  document.engine = std::make_shared<const Engine>(std::get<Engine>(std::move(found)));
  document.demo = request.engine == kDemoEngine;
  document.bench = request.bench;
  document.rules = usual_rules(*document.engine, {request.turn_by, request.wrench_too});
  document.preferences.theme = request.theme;
  document.preferences.scale = request.scale;
  document.preferences.dpi = request.dpi;
  const JobModel model = make_job_model(*document.engine, document.rules);
  JobState state = start_job(model);
  for (size_t i = 0; i < request.events.size(); ++i) {
    const JobEvent& event = request.events[i];
    if (!may(model, state, event))
      return "--event: " + (i < request.words.size() ? request.words[i] : std::to_string(i + 1)) +
             " is not allowed where the job stands then: " + why_refused(model, state, event);
    state = after(model, std::move(state), event);
    document.events.push_back({event, 0});
  }
  session.restore(std::move(document));
  session.queue(ShowPage{request.page});
  session.apply();
  Viewer viewer;
  const Viewer::Size size{request.width_px, request.height_px, 0};
  if (request.press_s) show_bump(viewer, session, size, *request.press_s);
  viewer.frame(session, size, 1.0 / 60);
  while (viewer.ui().bump && viewer.ui().bump->desk.view().reckoning)
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  return write_png(settled_picture(viewer, session, size), path);
}

}  // namespace shutlane
