#include "ui/window/picture.hpp"

#include <chrono>
#include <thread>

#include "engines/catalog.hpp"
#include "ui/window/bump/bump_bench.hpp"
#include "ui/window/viewer.hpp"

namespace shutlane {

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
  document.rules.turn_by = request.turn_by;
  if (request.turn_by != TurnBy::wrench)
    document.rules.accuracy_deg = usual_accuracy_deg(request.turn_by, document.engine->cylinders.size());
  document.preferences.theme = request.theme;
  document.preferences.scale = request.scale;
  document.preferences.dpi = request.dpi;
  for (const JobEvent& event : request.events) document.events.push_back({event, 0});
  session.restore(std::move(document));
  session.queue(ShowPage{request.page});
  session.apply();
  Viewer viewer;
  const Viewer::Size size{request.width_px, request.height_px, 0};
  viewer.frame(session, size, 1.0 / 60);
  while (viewer.ui().bump && viewer.ui().bump->desk.view().reckoning)
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  return write_png(settled_picture(viewer, session, size), path);
}

}  // namespace shutlane
