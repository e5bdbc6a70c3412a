#include "ui/window/open.hpp"

#include <SDL.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <future>
#include <memory>

#include "engines/catalog.hpp"
#include "engines/own.hpp"
#include "ui/window/bump/texts.hpp"
#include "ui/window/saved/saver.hpp"
#include "ui/window/saved/state_file.hpp"
#include "ui/window/screen/sdl_beeper.hpp"
#include "ui/window/screen/sdl_input.hpp"
#include "ui/window/screen/surface.hpp"
#include "ui/window/texts.hpp"

namespace shutlane {
namespace {

double seconds_now() {
  return std::chrono::duration<double>(std::chrono::system_clock::now().time_since_epoch()).count();
}

/// What the system says of the screen, where it can be true; 0 otherwise.
double screen_dpi(SDL_Window* window) {
  float dpi = 0;
  const int display = std::max(0, SDL_GetWindowDisplayIndex(window));
  if (SDL_GetDisplayDPI(display, &dpi, nullptr, nullptr) != 0) dpi = 0;
  // X servers that know nothing say 96 or 100: then the whole screen is taken for 15.6 inches across.
  const bool known = dpi > 101 && dpi < 500;
  if (known) return static_cast<double>(dpi);
  SDL_DisplayMode mode;
  if (SDL_GetDesktopDisplayMode(display, &mode) != 0) return 0;
  return assumed_dpi(mode.w, mode.h);
}

std::unique_ptr<Surface> make_surface(Renderer renderer, const char* title, int width, int height) {
  std::unique_ptr<Surface> surface;
  if (renderer != Renderer::cpu) surface = make_gl_surface(title, width, height, renderer == Renderer::gl);
  if (!surface && renderer == Renderer::gl)
    std::fprintf(stderr, "shutlane: OpenGL does not work here, drawing without it\n");
  if (!surface) surface = make_cpu_surface(title, width, height);
  return surface;
}

class Loop {
 public:
  Loop(Viewer& viewer, Surface& surface, Session& session, Saver& saver)
      : viewer_(viewer),
        surface_(surface),
        session_(session),
        saver_(saver),
        dpi_(screen_dpi(surface.window())) {}

  void run() {
    while (!over_) {
      wait();
      tell_whether_saved();
      if (viewer_.unsettled()) draw();
    }
  }

 private:
  /// Without input nothing is drawn: the thread sleeps until an event comes or something on the screen is
  /// due.
  void wait() {
    SDL_Event event;
    int found = 0;
    if (viewer_.unsettled()) {
      found = SDL_PollEvent(&event);
    } else if (const auto due_s = viewer_.ui().wake_after_s()) {
      found = SDL_WaitEventTimeout(&event, std::max(1, static_cast<int>(*due_s * 1000)));
      if (!found) viewer_.wake(1);
    } else {
      // Not for ever: a request to end that comes just before SDL falls asleep wakes nobody.
      constexpr int kLookUp_ms = 1000;
      found = SDL_WaitEventTimeout(&event, kLookUp_ms);
    }
    while (found) {
      take(event);
      found = SDL_PollEvent(&event);
    }
  }

  void take(const SDL_Event& event) {
    if (event.type == SDL_QUIT) over_ = true;
    int pixels = 0, points = 1, unused = 0;
    surface_.size(pixels, unused);
    SDL_GetWindowSize(surface_.window(), &points, &unused);
    const double ratio = points > 0 ? static_cast<double>(pixels) / points : 1;
    if (std::optional<InputEvent> input = from_sdl(event, ratio)) viewer_.input.push(std::move(*input));
    const bool seen_anew = event.type == SDL_WINDOWEVENT && event.window.event != SDL_WINDOWEVENT_MOVED;
    if (seen_anew) surface_.exposed();
    if (viewer_.input.pending() || seen_anew || event.type >= SDL_USEREVENT) viewer_.wake(2);
  }

  void draw() {
    Viewer::Size size;
    surface_.size(size.width_px, size.height_px);
    size.dpi = dpi_;
    const Uint64 now = SDL_GetPerformanceCounter();
    const double elapsed_s =
        last_ == 0 ? 1.0 / 60
                   : static_cast<double>(now - last_) / static_cast<double>(SDL_GetPerformanceFrequency());
    last_ = now;
    if (size.width_px <= 0 || size.height_px <= 0) return;
    viewer_.frame(session_, size, elapsed_s);
    surface_.show(viewer_, viewer_.background(session_));
    if (session_.revision() != saved_) {
      saved_ = session_.revision();
      saver_.save(to_json(session_.snapshot().document));
    }
  }

  void tell_whether_saved() {
    std::string why = saver_.failing();
    if (why == viewer_.ui().not_saved) return;
    viewer_.ui().not_saved = std::move(why);
    viewer_.wake(2);
  }

  Viewer& viewer_;
  Surface& surface_;
  Session& session_;
  Saver& saver_;
  double dpi_;
  unsigned saved_ = 0;
  Uint64 last_ = 0;
  bool over_ = false;
};

/// Where there is no display SDL falls back to a driver that shows nothing, and the window would run unseen.
bool on_a_screen() {
  const char* driver = SDL_GetCurrentVideoDriver();
  if (!driver) return false;
  const std::string name = driver;
  return SDL_getenv("SDL_VIDEODRIVER") || (name != "offscreen" && name != "dummy" && name != "evdev");
}

void begin_with(Session& session, const WindowRequest& request, const std::string& path) {
  Loaded loaded = load_state(path);
  if (loaded.document) session.restore(std::move(*loaded.document));
  const bool other = request.engine && session.snapshot().document.engine_name != *request.engine;
  if (other) {
    session.queue(OpenEngine{*request.engine, TurnBy::wrench, false});
    session.apply();
  }
  // Nobody knows what happened at the car meanwhile, nor whether the starter had been pressed.
  const Snapshot& s = session.snapshot();
  if (!s.document.events.empty() && s.advice.stage != Stage::finished) {
    session.queue(ShowPage{Page::came_back});
    session.apply();
  }
  if (!loaded.set_aside.empty()) session.say(texts::state_set_aside(loaded.set_aside));
}

}  // namespace

int open_window(const WindowRequest& request) {
  constexpr int kNotSaved = 1;
  int status = 0;
  SDL_SetMainReady();
  SDL_SetHint(SDL_HINT_VIDEO_ALLOW_SCREENSAVER, "1");
#ifdef __linux__
  // Wayland cannot be without that folder, and its library says so in a line of its own.
  if (!SDL_getenv("XDG_RUNTIME_DIR")) SDL_SetHint(SDL_HINT_VIDEODRIVER, "x11");  // SDL_VIDEODRIVER goes first
#endif
  if (SDL_Init(SDL_INIT_VIDEO) != 0 || !on_a_screen()) {
    std::fprintf(stderr, "shutlane: %s\n", texts::no_display().c_str());
    SDL_Quit();
    return kNoDisplay;
  }
  // Its letters take about as long as the system's part of the window. Not before SDL is up: it starts a
  // helper of the desktop's, and a process that is split while another thread allocates may hang.
  std::future<std::unique_ptr<Viewer>> made_meanwhile =
      std::async(std::launch::async, [] { return std::make_unique<Viewer>(); });
  SDL_DisplayMode mode{};
  SDL_GetDesktopDisplayMode(0, &mode);
  const int width = std::clamp(mode.w > 0 ? mode.w * 9 / 10 : 1280, 800, 1600);
  const int height = std::clamp(mode.h > 0 ? mode.h * 9 / 10 : 800, 500, 1000);
  std::unique_ptr<Surface> surface = make_surface(request.renderer, "Shutlane", width, height);
  if (!surface) {
    std::fprintf(stderr, "shutlane: %s\n", texts::no_display().c_str());
    SDL_Quit();
    return kNoDisplay;
  }
  SDL_SetWindowMinimumSize(surface->window(), 640, 400);
  // On a small screen nine tenths of it are too little for words that are read from two metres.
  constexpr int kSmall_px = 1400;
  if (mode.w > 0 && mode.w <= kSmall_px) SDL_MaximizeWindow(surface->window());
  SDL_EventState(SDL_DROPFILE, SDL_ENABLE);
  {
    const std::string path = state_path();
    Session session(seconds_now, find_engine);
    begin_with(session, request, path);
    Saver saver(path);
    SdlBeeper beeper;
    const std::unique_ptr<Viewer> viewer = made_meanwhile.get();
    viewer->ui().beeper = &beeper;
    const Uint32 wake = SDL_RegisterEvents(1);
    viewer->ui().wake_from_thread = [wake] {
      SDL_Event event{};
      event.type = wake;
      SDL_PushEvent(&event);
    };
    viewer->ui().own_engines = own_engines_folder();
    Loop(*viewer, *surface, session, saver).run();
    surface.reset();  // it holds on to the viewer's context
    if (const std::optional<std::string> why = saver.finish()) {
      std::fprintf(stderr, "shutlane: %s\n", texts::not_saved(*why).c_str());
      status = kNotSaved;
    }
  }
  SDL_Quit();
  return status;
}

}  // namespace shutlane
